/** Which steps can stay where they are under given links, and the order that keeps them. */
import { bitsAbove, clearBit, countBits, countWords, hasBit, lowestBit, setBit } from "./bits.ts"
import type { Closure } from "./closure.ts"
import { matchConflicts } from "./matching.ts"

export type Stay = {
  /** The fewest moves under the links of the closure. */
  readonly moveCount: number
  /** Steps that stay, as a row of bits, pinned ones among them. */
  readonly kept: Uint32Array
  /** Steps that a pinned step forces to move, as a row of bits. */
  readonly pushed: Uint32Array
  /** See `Matching.next`. */
  readonly next: Int32Array
}

/** Finds the most steps that can stay; pinned ones always do. The closure must hold the order of the pinned steps. */
export function findStay(closure: Closure, pinned: readonly number[]): Stay {
  const { count, words, before, after } = closure
  const active = allBits(count)
  const pushed = new Uint32Array(words)
  for (const step of pinned) {
    const first = step >>> 5
    for (let word = 0; word < words; word += 1) {
      const above = word < first ? 0 : word === first ? bitsAbove(step) : -1
      const ahead = (before[step * words + word] ?? 0) & above
      const behind = (after[step * words + word] ?? 0) & ~above
      pushed[word] = (pushed[word] ?? 0) | ahead | behind
    }
  }
  for (const step of pinned) {
    clearBit(pushed, 0, step)
    clearBit(active, 0, step)
  }
  for (let word = 0; word < words; word += 1) active[word] = (active[word] ?? 0) & ~(pushed[word] ?? 0)
  const { size, next, stay: kept } = matchConflicts(closure, active)
  for (const step of pinned) setBit(kept, 0, step)
  return { moveCount: size + countBits(pushed, 0, words), kept, pushed, next }
}

/**
 * The order that keeps the links of the closure and the present order of the kept steps. Of the steps that may come next
 * it takes the one that stands first now, so that a moved step lands just in time.
 */
export function arrangeSteps({ count, words, before, after }: Closure, kept: Uint32Array): readonly number[] {
  const waits = new Int32Array(count)
  const ready = new Uint32Array(words)
  let turn = nextBit(kept, 0, count)
  const offer = (step: number): void => {
    if (waits[step] === 0 && (step === turn || !hasBit(kept, 0, step))) setBit(ready, 0, step)
  }
  for (let step = 0; step < count; step += 1) {
    waits[step] = countBits(before, step * words, words)
    offer(step)
  }
  const order: number[] = []
  for (let step = nextBit(ready, 0, count); step < count; step = nextBit(ready, 0, count)) {
    order.push(step)
    clearBit(ready, 0, step)
    for (let word = 0; word < words; word += 1)
      for (let rest = after[step * words + word] ?? 0; rest !== 0; rest &= rest - 1) {
        const later = word * 32 + lowestBit(rest)
        waits[later] = (waits[later] ?? 0) - 1
        offer(later)
      }
    if (step !== turn) continue
    turn = nextBit(kept, step + 1, count)
    if (turn < count) offer(turn)
  }
  return order
}

/** The first member from `from` on; `count` when there is none. */
function nextBit(bits: Uint32Array, from: number, count: number): number {
  for (let word = from >>> 5; word < bits.length; word += 1) {
    const rest = (bits[word] ?? 0) & (word === from >>> 5 ? -1 << (from & 31) : -1)
    if (rest !== 0) return word * 32 + lowestBit(rest)
  }
  return count
}

function allBits(count: number): Uint32Array {
  const bits = new Uint32Array(countWords(count))
  for (let step = 0; step < count; step += 1) setBit(bits, 0, step)
  return bits
}
