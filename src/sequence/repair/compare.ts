/** Compares all answers with as few moves: how many there are, and which moves steps least far. */
import type { MovedSteps } from "../plan-types.ts"
import type { Closure } from "./closure.ts"
import { type Budget, visitCovers } from "./covers.ts"
import { mostMoved, type Placing, placeMoved } from "./place-moved.ts"
import type { Problem } from "./problem.ts"
import { findViolations } from "./simulate.ts"

/** The nearest answer found with the steps it moves. */
export type Compared = Pick<MovedSteps, "others" | "isLeastFar"> & {
  readonly order: readonly number[]
  readonly moved: readonly number[]
}

/** So many swaps of neighbours are tried when not all answers can be listed. */
const mostSwaps = 60

/**
 * Looks at every answer with the proved fewest moves, as far as the budget reaches. `order` is one of them and `moved` the
 * steps it moves.
 */
export function compareAnswers(
  problem: Problem,
  root: Closure,
  { order, moved }: Pick<Compared, "order" | "moved">,
  limit: number,
): Compared {
  const budget: Budget = { left: limit }
  let best: { readonly placing: Placing; readonly moved: readonly number[] } | undefined
  let hasOthers = false
  const isDone =
    moved.length <= mostMoved &&
    visitCovers(problem, root, moved.length, budget, (cover) => {
      const placing = placeMoved(problem, cover, budget)
      if (placing === undefined) return
      hasOthers ||= !placing.isOnly || (best !== undefined && !isSame(placing.order, best.placing.order))
      if (best === undefined || isNearer(placing, best.placing)) best = { placing, moved: cover }
    }) &&
    budget.left >= 0
  const found = chooseNearer(best, { order, moved })
  if (isDone) return { ...found, others: hasOthers ? "some" : "none", isLeastFar: true }
  const isOneOfSome = hasOthers || hasSwap(problem, found.order, new Set(found.moved))
  return { ...found, others: isOneOfSome ? "some" : "unknown", isLeastFar: false }
}

function chooseNearer(
  best: { readonly placing: Placing; readonly moved: readonly number[] } | undefined,
  given: Pick<Compared, "order" | "moved">,
): Pick<Compared, "order" | "moved"> {
  const farness = given.order.reduce((sum, step, place) => sum + Math.abs(place - step), 0)
  return best !== undefined && best.placing.farness <= farness
    ? { order: best.placing.order, moved: best.moved }
    : given
}

/** Of equally near orders the one that keeps earlier steps in front. */
function isNearer(one: Placing, other: Placing): boolean {
  if (one.farness !== other.farness) return one.farness < other.farness
  const place = one.order.findIndex((step, at) => step !== other.order[at])
  return place >= 0 && (one.order[place] ?? 0) < (other.order[place] ?? 0)
}

function isSame(one: readonly number[], other: readonly number[]): boolean {
  return one.every((step, place) => step === other[place])
}

/** A moved step that can change places with its neighbour: another answer with the same moves. */
function hasSwap(problem: Problem, order: readonly number[], isMoved: ReadonlySet<number>): boolean {
  let tried = 0
  for (let place = 1; place < order.length && tried < mostSwaps; place += 1) {
    const [one = 0, other = 0] = [order[place - 1], order[place]]
    if (!isMoved.has(one) && !isMoved.has(other)) continue
    tried += 1
    const swapped = order.map((step, at) => (at === place - 1 ? other : at === place ? one : step))
    if (findViolations(problem, swapped).length === 0) return true
  }
  return false
}
