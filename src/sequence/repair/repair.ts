/** The smallest change that makes an order valid: the fewest steps lifted out and put in elsewhere. */
import type { Chain, Move, MovedSteps, Plan, Repair } from "../plan-types.ts"
import { compareAnswers } from "./compare.ts"
import { findCore } from "./core.ts"
import { findKept, improveOrder } from "./fallback.ts"
import { compileProblem, listRequirements, type Problem } from "./problem.ts"
import { tellChains } from "./reasons.ts"
import { findRoot, type Root } from "./root.ts"
import { type SearchInput, type SearchResult, searchOrder } from "./search.ts"
import { findViolations, isValidOrder } from "./simulate.ts"
import { findStay } from "./stay.ts"

export type RepairOptions = {
  /** So many nodes of the search are visited at most. By default as many as fit a work that depends on the plan's size. */
  readonly nodeLimit?: number
  /** Work for comparing the answers with as few moves; 0 takes the first one. */
  readonly compareLimit?: number
}

type Limit = Extract<SearchResult, { readonly kind: "limit" }>

const compareLimit = 150_000
const nodeLimits = { least: 100, most: 20_000, work: 80_000_000 }

/**
 * Finds the fewest steps to move so that the order is valid. Pinned steps stay, declared orders are kept. With one supplier
 * for each fact the proof is a matching; where facts come and go it is an exact search, and at its limit an honest "at least".
 * Of several answers with as few moves the one that moves steps least far is taken, as far as they could be compared: the
 * sum over all steps of |new place - old place|. Every order is walked again before it is returned.
 * Source: DEVELOPERS.md, "The order proof".
 */
export function repairOrder(plan: Plan, options: RepairOptions = {}): Repair {
  const problem = compileProblem(plan, listRequirements(plan))
  const present = plan.steps.map((_, index) => index)
  if (findViolations(problem, present).length === 0) return { kind: "valid" }
  const nodeLimit = options.nodeLimit ?? defaultNodeLimit(problem)
  const root = findRoot(problem)
  if (root === undefined) return { kind: "impossible", ...findCore(plan, nodeLimit) }
  const { closure, open } = root
  const result = searchOrder({ problem, open, root: closure, nodeLimit, wanted: "fewest" })
  if (result.kind === "none") return { kind: "impossible", ...findCore(plan, nodeLimit) }
  if (result.kind === "limit") return fallBack(plan, problem, root, result, nodeLimit)
  const compared = compareAnswers(problem, closure, result, options.compareLimit ?? compareLimit)
  const { order, moved, others, isLeastFar } = compared
  const chains = chainsOf(plan, problem, root)
  return checked(plan, {
    kind: "moved",
    order,
    moves: listMoves(order, new Set(moved)),
    isProved: true,
    atLeast: moved.length,
    others,
    isLeastFar,
    chains,
  })
}

/** Some order, sought from where the search ended, made better step by step; and what was proved. */
function fallBack(plan: Plan, problem: Problem, root: Root, { atLeast, last }: Limit, nodeLimit: number): Repair {
  const { closure, open } = root
  const input: SearchInput = { problem, open, root: closure, nodeLimit, wanted: "few" }
  const near = searchOrder({ ...input, start: last })
  const found = near.kind === "found" ? near : searchOrder(input)
  if (found.kind === "none") return { kind: "impossible", ...findCore(plan, nodeLimit) }
  if (found.kind === "limit") return { kind: "not-found", atLeast }
  const order = improveOrder(problem, found.order)
  const kept = findKept(order, problem.pinned)
  const moves = listMoves(order, new Set(order.filter((step) => !kept.has(step))))
  return checked(plan, {
    kind: "moved",
    order,
    moves,
    isProved: moves.length === atLeast,
    atLeast,
    others: "unknown",
    isLeastFar: false,
    chains: chainsOf(plan, problem, root),
  })
}

function chainsOf(plan: Plan, { pinned }: Problem, { closure, arcs }: Root): readonly Chain[] {
  return tellChains(plan, { arcs, closure, stay: findStay(closure, pinned), pinned })
}

function listMoves(order: readonly number[], isMoved: ReadonlySet<number>): readonly Move[] {
  return order.flatMap((step, place) => (isMoved.has(step) ? [{ step, after: order[place - 1] }] : []))
}

/** An order that does not hold would be a fault of the search, never told as an answer. */
function checked(plan: Plan, repair: MovedSteps): MovedSteps {
  if (!isValidOrder(plan, repair.order)) throw new Error("the repaired order is not valid")
  return repair
}

function defaultNodeLimit({ count, facts, conditions }: Problem): number {
  const workOfNode = 4 * count * Math.ceil(count / 32) + 4 * conditions.length + 4 * facts.length
  return Math.max(nodeLimits.least, Math.min(nodeLimits.most, Math.floor(nodeLimits.work / workOfNode)))
}
