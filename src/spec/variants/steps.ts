/** Puts steps where a variant wants them: `place-before`, `place-after`. */
import { nearNames } from "../../findings/near.ts"
import type { Entry, Scalar, Tree, TreeMap } from "../read/tree.ts"
import { fault, oneOfWords, quote, type Tell } from "../tell.ts"

/** Moves the steps of a merged kit, in the order of writing, and takes the words off. Steps after one anchor keep their order. */
export function placeSteps(kit: TreeMap, tell: Tell): TreeMap {
  const steps = kit.entries.find((entry) => entry.key === "steps")
  if (steps?.value.kind !== "map") return kit
  const wishes = steps.value.entries.flatMap((entry) => wishOf(entry))
  if (wishes.length === 0) return kit
  let order = steps.value.entries.map((entry) => ({ ...entry, value: withoutWish(entry.value) }))
  const lastAfter = new Map<string, string>()
  for (const { id, anchor, isBefore } of wishes) {
    const target = anchor.written
    const others = order.filter((entry) => entry.key !== id)
    if (!others.some((entry) => entry.key === target)) {
      const near = nearNames(
        target,
        others.map((entry) => entry.key),
      )
      const fix = near.length > 0 ? `write ${oneOfWords(near)}` : "write the id of a step"
      const message = `step \`${id}\` is to stand ${isBefore ? "before" : "after"} step ${quote(target)}, which is not there`
      tell(fault("unknown-step", "error", { message, at: anchor.span, path: ["steps", id], fix }))
      continue
    }
    const moved = order.filter((entry) => entry.key === id)
    const reference = isBefore ? target : (lastAfter.get(target) ?? target)
    const at = others.findIndex((entry) => entry.key === reference) + (isBefore ? 0 : 1)
    order = [...others.slice(0, at), ...moved, ...others.slice(at)]
    if (!isBefore) lastAfter.set(target, id)
  }
  const value: TreeMap = { ...steps.value, entries: order }
  return { ...kit, entries: kit.entries.map((entry) => (entry === steps ? { ...entry, value } : entry)) }
}

/** In `kit.yaml` steps stand in the order of writing; the words are told and taken off. */
export function refuseWishes(kit: TreeMap, tell: Tell): TreeMap {
  const steps = kit.entries.find((entry) => entry.key === "steps")
  if (steps?.value.kind !== "map") return kit
  const entries = steps.value.entries.map((entry) => {
    for (const { anchor, isBefore } of wishOf(entry)) {
      const message = `step \`${entry.key}\` has \`place-${isBefore ? "before" : "after"}\`, which is for variant files`
      tell(
        fault("place-in-kit", "error", {
          message,
          at: anchor.span,
          path: ["steps", entry.key],
          fix: "write the step where it is to stand",
        }),
      )
    }
    return { ...entry, value: withoutWish(entry.value) }
  })
  const value: TreeMap = { ...steps.value, entries }
  return { ...kit, entries: kit.entries.map((entry) => (entry === steps ? { ...entry, value } : entry)) }
}

function wishOf(entry: Entry): readonly { readonly id: string; readonly anchor: Scalar; readonly isBefore: boolean }[] {
  if (entry.value.kind !== "map") return []
  return entry.value.entries.flatMap(({ key, value }) => {
    const isWish = key === "place-before" || key === "place-after"
    return isWish && value.kind === "scalar" && value.value !== null
      ? [{ id: entry.key, anchor: value, isBefore: key === "place-before" }]
      : []
  })
}

function withoutWish(step: Tree): Tree {
  if (step.kind !== "map") return step
  return { ...step, entries: step.entries.filter(({ key }) => key !== "place-before" && key !== "place-after") }
}
