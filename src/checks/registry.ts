/** All rules, sorted by hand, and the one function that runs them. */
import type { Finding } from "../findings/types.ts"
import { applyAcceptances } from "./acceptances.ts"
import type { Rule, Subject } from "./types.ts"

/** Every rule once, in alphabetical order of its id. */
export const rules: readonly Rule[] = []

/**
 * Runs every rule on one variant and marks what the maker accepted.
 * Findings carry the variant's id; order is by rule, sorting is the caller's (`sortFindings`).
 */
export function runChecks(subject: Subject): readonly Finding[] {
  const variants = [subject.kit.variant.id]
  const found = rules.flatMap(({ id, severity, source, check }) =>
    check(subject).map((report): Finding => ({ related: [], subjects: [], ...report, id, severity, source, variants })),
  )
  return applyAcceptances(subject.kit, found, rules)
}
