/** Steps written in braces, `steps: { a: {...}, b: {...} }`: what stands between commas changes places, the commas stay. */
import type { Finding } from "../../findings/types.ts"
import { quote } from "../tell.ts"
import type { FoundSteps } from "./find-steps.ts"
import { refuse } from "./refuse.ts"

/** Letters from `from` to before `to`. */
export type Slot = { readonly id: string; readonly from: number; readonly to: number }

/** Gives the stretch of text of each step between braces; a comment among them is refused, since it may belong to either neighbour. */
export function findSlots(found: FoundSteps, file: string): readonly Slot[] | { readonly refusal: Finding } {
  const { source, map, pairs } = found
  const slots: Slot[] = []
  for (const [index, pair] of pairs.entries()) {
    const tokens = map.items[index]?.srcToken?.start ?? []
    const passed = ["space", "newline", "comma", "comment"]
    const from = tokens.find(({ type }) => !passed.includes(type))?.offset ?? pair.key.range?.[0] ?? 0
    const [start = 0, end = 0] = pair.value?.range ?? []
    slots.push({ id: pair.id, from, to: end > start ? end : (pair.key.range?.[1] ?? from) })
  }
  const [first = 0, last = source.length] = map.range ?? []
  const bounds = [first, ...slots.map(({ to }) => to)]
  for (const [index, bound] of bounds.entries()) {
    const between = source.slice(bound, slots[index]?.from ?? last)
    const comment = between.indexOf("#")
    if (comment < 0) continue
    const { line, col } = found.counter.linePos(bound + comment)
    const next = slots[index]
    const place = next === undefined ? "behind the last" : `before ${quote(next.id)}`
    const length = (between.slice(comment).split("\n")[0] ?? "").length
    return refuse(
      file,
      { line, column: col, length },
      {
        message: `a comment stands between the steps in braces, ${place}`,
        fix: "write each step on lines of its own, without braces round them",
      },
    )
  }
  return slots
}
