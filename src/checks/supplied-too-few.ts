/** Judges whether the box holds as many pieces as the steps use up. */
import { placeAt } from "../findings/places.ts"
import type { Act, Kit } from "../kit/types.ts"
import { defineRule } from "./types.ts"
import { actsOn, countPieces, padVerbs, pieces } from "./uses.ts"

/** Finds parts, ties and pads of which the acts use more than the kit has. A tie closes once, a pad sticks once. */
export const suppliedTooFew = defineRule({
  id: "supplied-too-few",
  severity: "error",
  source: "the supply: every piece that a step uses is in the box",
  check: ({ kit, sequence }) =>
    itemsOf(kit).flatMap(({ id, name, path, had, used, acts }) => {
      const last = acts.at(-1)
      // An act done twice in a row is told by the order proof.
      const isDouble = sequence.faults.some(
        (fault) => fault.kind === "taken-away" && fault.act.target === id && fault.act.verb === fault.byAct.verb,
      )
      if (used <= had || last === undefined || isDouble) return []
      const counts = acts.map(({ count }) => count ?? had).join(" + ")
      return [
        {
          message: `the steps use ${pieces(used)} of ${name} \`${id}\`, the box has ${had}`,
          where: placeAt(kit.places, last.path),
          why: acts.length === 1 ? `This act alone takes ${used}.` : `The acts take ${counts}; each piece serves once.`,
          fix: `Supply ${used}, or take fewer here.`,
          related: [{ message: `${pieces(had)} of \`${id}\` declared here`, where: placeAt(kit.places, path) }],
          subjects: [id],
        },
      ]
    }),
})

type Item = {
  readonly id: string
  readonly name: string
  readonly path: string
  readonly had: number
  readonly used: number
  readonly acts: readonly Act[]
}

function itemsOf(kit: Kit): readonly Item[] {
  const single = (name: string, verbs: readonly Act["verb"][]) => (item: Kit["ties"][number] | Kit["pads"][number]) => {
    const acts = actsOn(kit, verbs, [item.id])
    const used = countPieces(acts, item.count)
    return { id: item.id, name, path: item.path, had: item.count + item.spare, used, acts }
  }
  return [
    ...kit.parts
      .filter(({ ownedBy }) => ownedBy === undefined)
      .map(({ id, path, instances, spare }) => {
        const acts = actsOn(kit, ["place"], [id]).filter(({ count }) => (count ?? 0) > instances.length)
        // Copies that are put back after they were taken off are no new ones, so only one act's count speaks.
        const used = Math.max(0, ...acts.map(({ count }) => count ?? 0))
        return { id, name: "part", path, had: instances.length + spare, used, acts }
      }),
    ...kit.ties.map(single("tie", ["strap"])),
    ...kit.pads.map((pad) => single("pad", padVerbs(kit, pad.id))(pad)),
  ]
}
