/** The maker's `accept:` entries: which findings they cover, and the entries that cover nothing. */
import { nearNames } from "../findings/near.ts"
import { finding } from "../findings/order.ts"
import { placeAt } from "../findings/places.ts"
import type { Finding } from "../findings/types.ts"
import type { Acceptance, Kit } from "../kit/types.ts"
import type { Rule } from "./types.ts"

/**
 * Marks findings that an acceptance covers (same rule, all of its subjects named by the finding) with the maker's reason.
 * Errors cannot be accepted. Adds `unused-acceptance` for an entry that covers nothing or names no rule,
 * and `error-accepted` for one that covers an error.
 */
export function applyAcceptances(kit: Kit, findings: readonly Finding[], rules: readonly Rule[]): readonly Finding[] {
  const marked = findings.map((one) => {
    const acceptance = kit.accepts.find((candidate) => covers(candidate, one))
    return acceptance === undefined || one.severity === "error" ? one : { ...one, accepted: acceptance.reason }
  })
  return [...marked, ...kit.accepts.flatMap((acceptance) => judgeAcceptance(kit, acceptance, findings, rules))]
}

function covers(acceptance: Acceptance, one: Finding): boolean {
  return acceptance.rule === one.id && acceptance.subjects.every((subject) => one.subjects.includes(subject))
}

function judgeAcceptance(
  kit: Kit,
  acceptance: Acceptance,
  findings: readonly Finding[],
  rules: readonly Rule[],
): readonly Finding[] {
  const where = placeAt(kit.places, acceptance.path)
  const covered = findings.filter((one) => covers(acceptance, one))
  const variants = [kit.variant.id]
  if (covered.some(({ severity }) => severity === "error")) {
    const message = `\`${acceptance.rule}\` cannot be accepted: it stops the kit from being built as told`
    return [
      {
        ...finding("error-accepted", "warning", { message, where, fix: "Mend the cause and remove this entry." }),
        variants,
      },
    ]
  }
  if (covered.length > 0) return []
  const known = rules.map(({ id }) => id)
  const near = nearNames(acceptance.rule, known)
  const isKnown = known.includes(acceptance.rule)
  const message = isKnown
    ? `accepting \`${acceptance.rule}\` covers no finding`
    : `\`${acceptance.rule}\` is the name of no rule that can be accepted`
  const fix = isKnown
    ? "Remove this entry, or name the subjects as the finding does."
    : near.length > 0
      ? `Write ${near.map((name) => `\`${name}\``).join(" or ")}.`
      : "Copy the name of the rule from the finding."
  return [{ ...finding("unused-acceptance", "warning", { message, where, fix }), variants }]
}
