/** What can still be said when the exact search came to its limit: a good order, and a number of moves no order can beat. */
import type { Problem } from "./problem.ts"
import { findViolations } from "./simulate.ts"

/** Orders of more steps than this are not improved move by move. */
const mostImproved = 150
const mostRounds = 12

/**
 * The steps of an order that can be called kept, pinned ones among them, as many as possible: the longest run of ascending
 * numbers (Schensted 1961), within the blocks that the pinned steps make.
 */
export function findKept(order: readonly number[], pinned: readonly number[]): ReadonlySet<number> {
  const placeOf = new Map(order.map((step, place) => [step, place]))
  const fits = (step: number, place: number): boolean =>
    pinned.every((one) => one === step || one < step === (placeOf.get(one) ?? 0) < place)
  const ends: number[] = []
  const previous = new Map<number, number | undefined>()
  for (const [place, step] of order.entries()) {
    if (!fits(step, place)) continue
    let low = 0
    for (let high = ends.length; low < high; ) {
      const middle = (low + high) >> 1
      if ((ends[middle] ?? 0) < step) low = middle + 1
      else high = middle
    }
    previous.set(step, low === 0 ? undefined : ends[low - 1])
    ends[low] = step
  }
  const kept = new Set<number>()
  for (let step = ends.at(-1); step !== undefined; step = previous.get(step)) kept.add(step)
  return kept
}

/** Puts single steps elsewhere as long as the order stays valid and more steps can be called kept. */
export function improveOrder(problem: Problem, order: readonly number[]): readonly number[] {
  let best = order
  if (problem.count > mostImproved) return best
  for (let round = 0; round < mostRounds; round += 1) {
    const better = findBetter(problem, best)
    if (better === undefined) return best
    best = better
  }
  return best
}

function findBetter(problem: Problem, order: readonly number[]): readonly number[] | undefined {
  const kept = findKept(order, problem.pinned)
  for (const step of order) {
    if (kept.has(step)) continue
    const rest = order.filter((one) => one !== step)
    for (let place = 0; place <= rest.length; place += 1) {
      const tried = [...rest.slice(0, place), step, ...rest.slice(place)]
      if (findKept(tried, problem.pinned).size > kept.size && findViolations(problem, tried).length === 0) return tried
    }
  }
  return undefined
}
