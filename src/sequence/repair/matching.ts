/**
 * Maximum matching of steps that stand in each other's way (Hopcroft and Karp 1973), over bit rows and without recursion.
 * Step `x` is in the way of `y` when `x` stands before `y` now and must come after it. That relation is a partial order:
 * its largest set of steps none of which is in the way of another has as many members as there are steps less the matching
 * (Dilworth 1950, König 1931).
 */
import { bitsAbove, clearBit, hasBit, lowestBit, setBit } from "./bits.ts"
import type { Closure } from "./closure.ts"

export type Matching = {
  readonly size: number
  /** `next[x]` is the step matched to `x`, which stands behind it now and must come before it; -1 when there is none. */
  readonly next: Int32Array
  /** Active steps that can all stay, as a row of bits: as many as possible. */
  readonly stay: Uint32Array
}

/** Matches the active steps (a row of bits). Each phase takes at most steps x words; there are few phases. */
export function matchConflicts({ count, words, before }: Closure, active: Uint32Array): Matching {
  const next = new Int32Array(count).fill(-1)
  const previous = new Int32Array(count).fill(-1)
  let size = 0
  /** The lowest step among `among` that stands behind `step` and must come before it; -1 when there is none. */
  const findIn = (step: number, among: Uint32Array): number => {
    const first = step >>> 5
    for (let word = first; word < words; word += 1) {
      const mask = word === first ? bitsAbove(step) : -1
      const found = (before[step * words + word] ?? 0) & (among[word] ?? 0) & mask
      if (found !== 0) return word * 32 + lowestBit(found)
    }
    return -1
  }
  for (;;) {
    const { layers, isOpen, reached, remaining } = findLayers({ count, words, before, active, next, previous })
    if (!isOpen) return { size, next, stay: stayers(words, active, reached, remaining) }
    for (let start = 0; start < count; start += 1) {
      if (!hasBit(active, 0, start) || (next[start] ?? -1) >= 0) continue
      const path = [start]
      const taken: number[] = []
      for (let step = path.at(-1); step !== undefined; step = path.at(-1)) {
        const layer = layers[path.length - 1]
        const found = layer === undefined ? -1 : findIn(step, layer)
        if (layer === undefined || found < 0) {
          path.pop()
          taken.pop()
          continue
        }
        clearBit(layer, 0, found)
        taken.push(found)
        const holder = previous[found] ?? -1
        if (holder >= 0) {
          path.push(holder)
          continue
        }
        for (const [index, one] of path.entries()) {
          next[one] = taken[index] ?? -1
          previous[taken[index] ?? 0] = one
        }
        size += 1
        break
      }
    }
  }
}

type Search = {
  readonly count: number
  readonly words: number
  readonly before: Uint32Array
  readonly active: Uint32Array
  readonly next: Int32Array
  readonly previous: Int32Array
}

/** Breadth first from the unmatched steps: which partners are reached in how many turns, up to the first unmatched one. */
function findLayers({ count, words, before, active, next, previous }: Search): {
  readonly layers: readonly Uint32Array[]
  readonly isOpen: boolean
  readonly reached: Uint32Array
  readonly remaining: Uint32Array
} {
  const remaining = active.slice()
  const reached = new Uint32Array(words)
  const layers: Uint32Array[] = []
  let frontier: number[] = []
  for (let step = 0; step < count; step += 1) if (hasBit(active, 0, step) && (next[step] ?? -1) < 0) frontier.push(step)
  let isOpen = false
  while (frontier.length > 0 && !isOpen) {
    const layer = new Uint32Array(words)
    for (const step of frontier) {
      setBit(reached, 0, step)
      const first = step >>> 5
      for (let word = first; word < words; word += 1) {
        const mask = word === first ? bitsAbove(step) : -1
        const found = (before[step * words + word] ?? 0) & (remaining[word] ?? 0) & mask
        if (found === 0) continue
        layer[word] = (layer[word] ?? 0) | found
        remaining[word] = (remaining[word] ?? 0) & ~found
      }
    }
    frontier = []
    for (let word = 0; word < words; word += 1)
      for (let rest = layer[word] ?? 0; rest !== 0; rest &= rest - 1) {
        const holder = previous[word * 32 + lowestBit(rest)] ?? -1
        if (holder < 0) isOpen = true
        else frontier.push(holder)
      }
    layers.push(layer)
  }
  return { layers, isOpen, reached, remaining }
}

/** König: those reached as the earlier of a pair and not as the later one. */
function stayers(words: number, active: Uint32Array, reached: Uint32Array, remaining: Uint32Array): Uint32Array {
  const stay = new Uint32Array(words)
  for (let word = 0; word < words; word += 1)
    stay[word] = (active[word] ?? 0) & (reached[word] ?? 0) & (remaining[word] ?? 0)
  return stay
}
