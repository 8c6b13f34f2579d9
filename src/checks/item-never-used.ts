/** Judges whether each item of the box is used by a step. */
import { placeAt } from "../findings/places.ts"
import type { Act, Kit } from "../kit/types.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"
import { actsOn, explainByLeftOut, findLacking, indexActs, padVerbs } from "./uses.ts"

type Item = {
  readonly id: string
  readonly path: string
  readonly name: string
  readonly verb: string
  readonly isUsed: boolean
  /** Verbs that use it. */
  readonly acts: readonly Act["verb"][]
}

/** Finds parts, screws, ties, pads and cables of the box that no act uses. One that an act lacks is told by `nobody-gives`. */
export const itemNeverUsed = defineRule({
  id: "item-never-used",
  severity: "error",
  source: "the supply: what is in the box has a step",
  check: ({ kit, sequence }) => {
    if (kit.told.includes("steps")) return []
    // A copy, or an end of a cable, is called by the name of the whole and a dot.
    const lacking = new Set([...findLacking(sequence)].flatMap(wholesOf))
    const isExplained = explainByLeftOut(kit, sequence)
    return itemsOf(kit)
      .filter(({ id, isUsed }) => !isUsed && !lacking.has(id))
      .filter(({ path, acts }) => !isExplained(acts) && !kit.told.includes(path))
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
  const index = indexActs(kit)
  const item = (
    { id, path }: { readonly id: string; readonly path: string },
    name: string,
    verb: string,
    acts: Item["acts"],
    others: readonly string[] = [],
  ): Item => ({ id, path, name, verb, acts, isUsed: actsOn(index, acts, [id, ...others]).length > 0 })
  return [
    ...kit.parts
      .filter(({ ownedBy }) => ownedBy === undefined)
      .map((part) => item(part, "part", "places", ["place"], part.instances)),
    ...kit.joints.map((joint) => item(joint, "joint", "starts", ["start", "tighten"])),
    ...kit.ties.map((tie) => item(tie, "tie", "straps", ["strap"])),
    ...kit.pads.map((pad) => item(pad, "pad", "sticks", padVerbs(index, pad.id))),
    ...kit.cables
      .filter(({ isSupplied }) => isSupplied)
      .map((cable) =>
        item(
          cable,
          "cable",
          "connects",
          cableVerbs,
          cable.ends.map(({ id }) => id),
        ),
      ),
  ]
}

/** An id, and what stands before each of its dots. */
function wholesOf(id: string): readonly string[] {
  return [id, ...[...id.matchAll(/\./g)].map(({ index }) => id.slice(0, index))]
}

const cableVerbs: Item["acts"] = ["feed", "connect", "disconnect", "withdraw", "strap"]

/** `places` as the act is written. */
function verbOf(verb: string): string {
  return verb.replace(/s$/, "")
}
