/** Judges whether each item of the box is used by a step. */
import { placeAt } from "../findings/places.ts"
import type { Kit } from "../kit/types.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"
import { actsOn, findLacking } from "./uses.ts"

type Item = {
  readonly id: string
  readonly path: string
  readonly name: string
  readonly verb: string
  readonly isUsed: boolean
}

/** Finds parts, screws, ties, pads and cables of the box that no act uses. One that an act lacks is told by `nobody-gives`. */
export const itemNeverUsed = defineRule({
  id: "item-never-used",
  severity: "error",
  source: "the supply: what is in the box has a step",
  check: ({ kit, sequence }) => {
    const lacking = findLacking(sequence)
    return itemsOf(kit)
      .filter(({ id, isUsed }) => !isUsed && ![...lacking].some((one) => one === id || one.startsWith(`${id}.`)))
      .map(({ id, path, name, verb }) => ({
        message: fitMessage(
          `${name} \`${id}\` is in the box, but no step ${verb} it`,
          `${name} \`${id}\` is used by no step`,
        ),
        where: placeAt(kit.places, path),
        why: "Who finds it left over in the box must think that something was forgotten.",
        fix: `Write \`${verbOf(verb)}: ${id}\` in a step, or remove it from the kit.`,
        subjects: [id],
      }))
  },
})

function itemsOf(kit: Kit): readonly Item[] {
  const isUsed = (verbs: Parameters<typeof actsOn>[1], ids: readonly string[]) => actsOn(kit, verbs, ids).length > 0
  return [
    ...kit.parts
      .filter(({ ownedBy }) => ownedBy === undefined)
      .map(({ id, path, instances }) => ({
        id,
        path,
        name: "part",
        verb: "places",
        isUsed: isUsed(["place"], [id, ...instances]),
      })),
    ...kit.joints.map(({ id, path }) => ({
      id,
      path,
      name: "joint",
      verb: "starts",
      isUsed: isUsed(["start", "tighten"], [id]),
    })),
    ...kit.ties.map(({ id, path }) => ({ id, path, name: "tie", verb: "straps", isUsed: isUsed(["strap"], [id]) })),
    ...kit.pads.map(({ id, path }) => ({
      id,
      path,
      name: "pad",
      verb: "sticks",
      isUsed: isUsed(["stick", "place"], [id]),
    })),
    ...kit.cables
      .filter(({ isSupplied }) => isSupplied)
      .map(({ id, path, ends }) => ({
        id,
        path,
        name: "cable",
        verb: "connects",
        isUsed: isUsed(["feed", "connect", "disconnect", "withdraw", "strap"], [id, ...ends.map((end) => end.id)]),
      })),
  ]
}

/** `places` as the act is written. */
function verbOf(verb: string): string {
  return verb.replace(/s$/, "")
}
