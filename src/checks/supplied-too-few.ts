/** Judges whether the box holds as many pieces as the steps use up. */
import { placeAt } from "../findings/places.ts"
import type { Act, Kit } from "../kit/types.ts"
import { listUses } from "./single-use.ts"
import { defineRule } from "./types.ts"
import { actsOn, indexActs, pieces } from "./uses.ts"

/** Finds parts, ties, pads and locked screws of which the acts use more than the kit has. A tie closes once, a pad sticks once. */
export const suppliedTooFew = defineRule({
  id: "supplied-too-few",
  severity: "error",
  source: "the supply: every piece that a step uses is in the box",
  check: ({ kit, sequence }) => {
    // An act done twice in a row is told by the order proof.
    const doubled = new Set(
      sequence.faults.flatMap((fault) =>
        fault.kind === "taken-away" && fault.act.verb === fault.byAct.verb ? [fault.act.target] : [],
      ),
    )
    return itemsOf(kit).flatMap(({ id, name, path, whole, had, used, acts, why }) => {
      const last = acts.at(-1)
      if (used <= had || last === undefined || doubled.has(id)) return []
      const count = name === "joint" ? screws : pieces
      const counts = acts.map((act) => act.count ?? whole).join(" + ")
      return [
        {
          message: `the steps use ${count(used)} of ${name} \`${id}\`, the box has ${had}`,
          where: placeAt(kit.places, last.path),
          why:
            acts.length === 1
              ? `This act alone takes ${used}.`
              : `The acts take ${counts}: ${why ?? "each piece serves once"}.`,
          fix:
            acts.length === 1
              ? `Supply ${used}, or take fewer here.`
              : `Declare ${used - had} more as \`spare\`, or take fewer here.`,
          related: [{ message: `${count(had)} of \`${id}\` declared here`, where: placeAt(kit.places, path) }],
          subjects: [id],
        },
      ]
    })
  },
})

type Item = {
  readonly id: string
  readonly name: string
  readonly path: string
  /** What an act without a count takes. */
  readonly whole: number
  readonly had: number
  readonly used: number
  readonly acts: readonly Act[]
  readonly why: string | undefined
}

function itemsOf(kit: Kit): readonly Item[] {
  const index = indexActs(kit)
  return [
    ...kit.parts
      .filter(({ ownedBy }) => ownedBy === undefined)
      .map(({ id, path, instances, spare }): Item => {
        const acts = actsOn(index, ["place"], [id]).filter(({ count }) => (count ?? 0) > instances.length)
        // Copies that are put back after they were taken off are no new ones, so only one act's count speaks.
        const used = Math.max(0, ...acts.map(({ count }) => count ?? 0))
        const whole = instances.length
        return { id, name: "part", path, whole, had: whole + spare, used, acts, why: undefined }
      }),
    ...listUses(kit),
  ]
}

function screws(count: number): string {
  return count === 1 ? "1 screw" : `${count} screws`
}
