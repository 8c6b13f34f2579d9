/** Puts lifted steps back among the others so that all steps together stand as near to their places as can be. */
import { countWords, hasBit } from "./bits.ts"
import type { Budget } from "./covers.ts"
import type { Condition, Problem } from "./problem.ts"

/** The nearest order and whether it is the only one. `farness` is the sum over all steps of |new place - old place|. */
export type Placing = { readonly order: readonly number[]; readonly farness: number; readonly isOnly: boolean }

/** A beginning of an order: which of the moved steps it holds, and which facts hold after it. */
type Beginning = {
  readonly mask: number
  readonly holds: Uint32Array
  readonly farness: number
  readonly isOnly: boolean
  readonly last: { readonly step: number; readonly before: Beginning } | undefined
}

/** Sets of moved steps are bits of one number. */
export const mostMoved = 20

/**
 * Gives the valid order in which all but the moved steps keep their order and which is nearest to the present one.
 * Beginnings of equal length with the same steps and facts are one (dynamic programming): exact, `count` x 2^moved at most
 * where facts only come. Undefined when there is none, or when the budget did not reach (then it is below 0).
 */
export function placeMoved(problem: Problem, moved: readonly number[], budget: Budget): Placing | undefined {
  const { count, facts } = problem
  const isMoved = new Set(moved)
  const kept = Array.from({ length: count }, (_, step) => step).filter((step) => !isMoved.has(step))
  const words = countWords(facts.length)
  const toggles = maskOfToggles(problem, words)
  const first = new Uint32Array(words)
  facts.forEach(({ isInitial }, fact) => {
    if (isInitial) first[fact >>> 5] = (first[fact >>> 5] ?? 0) | (1 << (fact & 31))
  })
  let layer: Map<string, Beginning> = new Map([
    ["", { mask: 0, holds: first, farness: 0, isOnly: true, last: undefined }],
  ])
  for (let place = 0; place < count; place += 1) {
    const longer = new Map<string, Beginning>()
    for (const beginning of layer.values()) {
      budget.left -= moved.length + 1
      if (budget.left < 0) return undefined
      const next = kept[place - countMask(beginning.mask)]
      if (next !== undefined) extend(problem, toggles, longer, beginning, { step: next, place, mask: beginning.mask })
      for (const [index, step] of moved.entries()) {
        const bit = 1 << index
        if ((beginning.mask & bit) === 0)
          extend(problem, toggles, longer, beginning, { step, place, mask: beginning.mask | bit })
      }
    }
    layer = longer
  }
  let best: Beginning | undefined
  for (const beginning of layer.values()) {
    if (!areMet(problem.conditionsOf[count], beginning.holds)) continue
    best = best === undefined ? beginning : nearer(best, beginning)
  }
  return best === undefined ? undefined : { order: trace(best), farness: best.farness, isOnly: best.isOnly }
}

function extend(
  { conditionsOf, givenBy, takenBy }: Problem,
  toggles: readonly { readonly word: number; readonly mask: number }[],
  layer: Map<string, Beginning>,
  before: Beginning,
  { step, place, mask }: { readonly step: number; readonly place: number; readonly mask: number },
): void {
  if (!areMet(conditionsOf[step], before.holds)) return
  const holds = before.holds.slice()
  for (const fact of takenBy[step] ?? []) holds[fact >>> 5] = (holds[fact >>> 5] ?? 0) & ~(1 << (fact & 31))
  for (const fact of givenBy[step] ?? []) holds[fact >>> 5] = (holds[fact >>> 5] ?? 0) | (1 << (fact & 31))
  let key = `${mask}`
  for (const toggle of toggles) key += ` ${(holds[toggle.word] ?? 0) & toggle.mask}`
  const farness = before.farness + Math.abs(place - step)
  const found: Beginning = { mask, holds, farness, isOnly: before.isOnly, last: { step, before } }
  const known = layer.get(key)
  layer.set(key, known === undefined ? found : nearer(known, found))
}

/** The nearer of two ways, which is then not the only one. */
function nearer(one: Beginning, other: Beginning): Beginning {
  return { ...(other.farness < one.farness ? other : one), isOnly: false }
}

function areMet(conditions: readonly Condition[] | undefined, holds: Uint32Array): boolean {
  return (conditions ?? []).every(({ fact }) => hasBit(holds, 0, fact))
}

/** Words and bits of the facts that both come and go: of the others, what holds follows from the steps done. */
function maskOfToggles(problem: Problem, words: number): readonly { readonly word: number; readonly mask: number }[] {
  const masks = new Uint32Array(words)
  problem.facts.forEach(({ givers, takers }, fact) => {
    if (givers.length > 0 && takers.length > 0) masks[fact >>> 5] = (masks[fact >>> 5] ?? 0) | (1 << (fact & 31))
  })
  return [...masks].flatMap((mask, word) => (mask === 0 ? [] : [{ word, mask }]))
}

function countMask(mask: number): number {
  let count = 0
  for (let rest = mask; rest !== 0; rest &= rest - 1) count += 1
  return count
}

function trace(end: Beginning): readonly number[] {
  const order: number[] = []
  for (let one = end; one.last !== undefined; one = one.last.before) order.push(one.last.step)
  return order.reverse()
}
