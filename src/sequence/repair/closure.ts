/** Which step must stand before which, with everything that follows: a bit for each pair of steps, both ways. */
import { countWords, hasBit, lowestBit, setBit } from "./bits.ts"

/** `from` must stand before `to`. */
export type Arc = { readonly from: number; readonly to: number }

/** Row `x` of `before` holds the steps that must stand before step `x`, row `x` of `after` those behind it. */
export type Closure = {
  readonly count: number
  readonly words: number
  readonly before: Uint32Array
  readonly after: Uint32Array
}

/** Gives the closure of the arcs; undefined when they are circular. Linear in arcs x words. */
export function buildClosure(count: number, arcs: readonly Arc[]): Closure | undefined {
  const order = sortArcs(count, arcs)
  if (order === undefined) return undefined
  const words = countWords(count)
  const closure = { count, words, before: new Uint32Array(count * words), after: new Uint32Array(count * words) }
  const next = groupArcs(count, arcs)
  for (const from of order) for (const to of next[from] ?? []) unite(closure.before, words, to, from)
  for (const from of [...order].reverse()) for (const to of next[from] ?? []) unite(closure.after, words, from, to)
  return closure
}

/** A copy that can be added to. */
export function copyClosure({ count, words, before, after }: Closure): Closure {
  return { count, words, before: before.slice(), after: after.slice() }
}

/** Tells whether `from` must stand before `to`. */
export function isBefore({ words, before }: Closure, from: number, to: number): boolean {
  return hasBit(before, to * words, from)
}

/** Adds an arc in place, with all that follows. False when it contradicts what is there (the closure stays as it was). */
export function addArc(closure: Closure, { from, to }: Arc): boolean {
  if (from === to || isBefore(closure, to, from)) return false
  if (isBefore(closure, from, to)) return true
  const { words, before, after } = closure
  forRow(before, from, words, (step) => unite(after, words, step, to))
  forRow(after, to, words, (step) => unite(before, words, step, from))
  unite(after, words, from, to)
  unite(before, words, to, from)
  return true
}

/** Adds `member` and all its row to the row of `step`. */
function unite(rows: Uint32Array, words: number, step: number, member: number): void {
  const target = step * words
  const source = member * words
  for (let word = 0; word < words; word += 1)
    rows[target + word] = (rows[target + word] ?? 0) | (rows[source + word] ?? 0)
  setBit(rows, target, member)
}

function forRow(rows: Uint32Array, step: number, words: number, act: (member: number) => void): void {
  for (let word = 0; word < words; word += 1)
    for (let rest = rows[step * words + word] ?? 0; rest !== 0; rest &= rest - 1) act(word * 32 + lowestBit(rest))
}

function groupArcs(count: number, arcs: readonly Arc[]): readonly (readonly number[])[] {
  const next: number[][] = Array.from({ length: count }, () => [])
  for (const { from, to } of arcs) next[from]?.push(to)
  return next
}

/** Kahn's sort; undefined when a circle is left. */
function sortArcs(count: number, arcs: readonly Arc[]): readonly number[] | undefined {
  const next = groupArcs(count, arcs)
  const waits = new Int32Array(count)
  for (const { to } of arcs) waits[to] = (waits[to] ?? 0) + 1
  const order: number[] = []
  for (let step = 0; step < count; step += 1) if (waits[step] === 0) order.push(step)
  // The list grows while it is read.
  for (let index = 0; index < order.length; index += 1)
    for (const to of next[order[index] ?? 0] ?? []) {
      waits[to] = (waits[to] ?? 0) - 1
      if (waits[to] === 0) order.push(to)
    }
  return order.length === count ? order : undefined
}
