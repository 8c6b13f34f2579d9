/** Judges whether the steps use all pieces of an item, spares aside. */
import { placeAt } from "../findings/places.ts"
import type { Act, Kit } from "../kit/types.ts"
import { defineRule } from "./types.ts"
import {
  type ActIndex,
  actsOn,
  countPieces,
  explainByLeftOut,
  findLacking,
  indexActs,
  padVerbs,
  pieces,
} from "./uses.ts"

/** Finds parts, ties and pads of which the acts use some but not all. What is never used at all is told by `item-never-used`. */
export const suppliedTooMany = defineRule({
  id: "supplied-too-many",
  severity: "error",
  source: "the supply: what is left over was declared as spare",
  check: ({ kit, sequence }) => {
    const isExplained = explainByLeftOut(kit, sequence)
    return itemsOf(kit, findLacking(sequence)).flatMap(({ id, name, path, had, used, act }) => {
      if (act === undefined || used === 0 || used >= had || isExplained([act.verb])) return []
      return [
        {
          message: `the steps use ${pieces(used)} of ${name} \`${id}\`, the kit has ${had}`,
          where: placeAt(kit.places, act.path),
          why: `${pieces(had - used)} would be left over that nobody declared as spare.`,
          fix: `Use ${had} here, or declare ${had - used} as \`spare\`.`,
          related: [{ message: `${pieces(had)} of \`${id}\` declared here`, where: placeAt(kit.places, path) }],
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
  readonly had: number
  readonly used: number
  readonly act: Act | undefined
}

function itemsOf(kit: Kit, lacking: ReadonlySet<string>): readonly Item[] {
  const index = indexActs(kit)
  const single = (name: string, verbs: readonly Act["verb"][]) => (item: Kit["ties"][number] | Kit["pads"][number]) => {
    const acts = actsOn(index, verbs, [item.id])
    return {
      id: item.id,
      name,
      path: item.path,
      had: item.count,
      used: countPieces(acts, item.count),
      act: acts.at(-1),
    }
  }
  return [
    ...kit.parts
      .filter(({ ownedBy }) => ownedBy === undefined)
      // A copy that an act lacks is told by `nobody-gives`.
      .filter(({ instances }) => !instances.some((instance) => lacking.has(instance)))
      .map(({ id, path, instances }) => {
        const acts = actsOn(index, ["place"], [id, ...instances])
        return {
          id,
          name: "part",
          path,
          had: instances.length,
          used: countPlaced(index, id, instances),
          act: acts.at(-1),
        }
      }),
    ...kit.ties.map(single("tie", ["strap"])),
    ...kit.pads.map((pad) => single("pad", padVerbs(index, pad.id))(pad)),
  ]
}

/** Copies that some act places: those named, and as many more as the counts say. */
function countPlaced(index: ActIndex, part: string, instances: readonly string[]): number {
  const named = new Set(actsOn(index, ["place"], instances).map(({ target }) => target))
  const counted = instances.length === 1 ? 0 : countPieces(actsOn(index, ["place"], [part]), instances.length)
  const whole = instances.length === 1 && actsOn(index, ["place"], [part]).length > 0 ? 1 : 0
  return Math.min(instances.length, Math.max(named.size, whole) + counted)
}
