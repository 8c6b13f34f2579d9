/**
 * Exact search for the order with the fewest moves when facts come and go. A node is a set of links; under them the fewest
 * moves are a matching. The order that attains them is walked: where it breaks a condition, every way to meet it is a branch
 * (its step before the taker, or a giver between the two). Nodes are taken by their bound, the lowest first, the deepest
 * first among equals, so that the first valid order has the fewest moves of all.
 */
import { hasBit } from "./bits.ts"
import { addArc, type Closure, copyClosure, isBefore } from "./closure.ts"
import { addForced, isBehind, type ReasonedArc } from "./forced.ts"
import type { Condition, Problem } from "./problem.ts"
import { findViolations, type Violation } from "./simulate.ts"
import { arrangeSteps, findStay } from "./stay.ts"

export type SearchResult = { /** Nodes visited. */ readonly visited: number } & (
  | { readonly kind: "found"; readonly order: readonly number[]; readonly moved: readonly number[] }
  /** No order meets all conditions. */
  | { readonly kind: "none" }
  /** The limit was reached; no order has fewer moves than `atLeast`. `last` is the node to go on from. */
  | { readonly kind: "limit"; readonly atLeast: number; readonly last: SearchNode }
)

export type SearchInput = {
  readonly problem: Problem
  readonly open: readonly Condition[]
  /** Closure of the links that every order keeps. */
  readonly root: Closure
  readonly nodeLimit: number
  /** `fewest` proves the fewest moves; `any` goes straight down to some order, `few` the way with the fewest moves so far. */
  readonly wanted: "fewest" | "any" | "few"
  /** Where to begin; the root unless told. */
  readonly start?: SearchNode
}

/** The links of a node and its parents; no order that keeps them has fewer moves than `bound`. */
export type SearchNode = {
  readonly parent: SearchNode | undefined
  readonly arcs: readonly ReasonedArc[]
  readonly bound: number
}

/** So many broken conditions are looked at for the one that leaves the fewest ways. */
const mostLookedAt = 40

/** Searches; see the head of this file. */
export function searchOrder({ problem, open, root, nodeLimit, wanted, start }: SearchInput): SearchResult {
  const buckets: SearchNode[][] = [[start ?? { parent: undefined, arcs: [], bound: 0 }]]
  let level = 0
  for (let visited = 0; ; visited += 1) {
    while (level < buckets.length && (buckets[level] ?? []).length === 0) level += 1
    const node = buckets[level]?.pop()
    if (node === undefined) return { kind: "none", visited }
    if (visited >= nodeLimit) return { kind: "limit", visited, atLeast: wanted === "fewest" ? level : 0, last: node }
    const closure = closeNode(root, node)
    if (closure === undefined || !addForced(problem, open, closure)) continue
    const { moveCount, kept } = findStay(closure, problem.pinned)
    if (wanted === "fewest" && moveCount > node.bound) {
      while (buckets.length <= moveCount) buckets.push([])
      buckets[moveCount]?.push({ ...node, bound: moveCount })
      continue
    }
    const order = arrangeSteps(closure, kept)
    const violations = findViolations(problem, order)
    if (violations.length === 0) return { kind: "found", visited, order, moved: listMoved(order, kept) }
    const branches = chooseBranches(problem, closure, violations).map((arcs): SearchNode => {
      return { parent: node, arcs, bound: node.bound }
    })
    // The last branch pushed is taken first.
    const ranked = wanted === "few" ? rankByMoves(problem, closure, branches) : branches
    buckets[level]?.push(...[...ranked].reverse())
  }
}

/** Branches with fewer moves first; those that contradict the closure are left out. */
function rankByMoves(problem: Problem, closure: Closure, branches: readonly SearchNode[]): readonly SearchNode[] {
  return branches
    .flatMap((branch) => {
      const closed = copyClosure(closure)
      if (!branch.arcs.every((arc) => addArc(closed, arc))) return []
      return [{ branch, moveCount: findStay(closed, problem.pinned).moveCount }]
    })
    .sort((one, other) => one.moveCount - other.moveCount)
    .map(({ branch }) => branch)
}

function listMoved(order: readonly number[], kept: Uint32Array): readonly number[] {
  return order.filter((step) => !hasBit(kept, 0, step)).sort((one, other) => one - other)
}

/** The closure with the links of a node; the first node adds none and needs no copy. */
function closeNode(root: Closure, node: SearchNode): Closure | undefined {
  if (node.parent === undefined && node.arcs.length === 0) return root
  const closure = copyClosure(root)
  for (let one: SearchNode | undefined = node; one !== undefined; one = one.parent)
    for (const arc of one.arcs) if (!addArc(closure, arc)) return undefined
  return closure
}

/** The ways to meet that broken condition which has the fewest; none when one cannot be met. */
function chooseBranches(problem: Problem, closure: Closure, violations: readonly Violation[]): ReasonedArc[][] {
  let best: ReasonedArc[][] | undefined
  for (const violation of violations.slice(0, mostLookedAt)) {
    const ways = listWays(problem, closure, violation)
    if (best === undefined || ways.length < best.length) best = ways
    if (best.length <= 1) break
  }
  return best ?? []
}

/** Every order that keeps the closure and meets the condition keeps one of these; each holds a link the walked order breaks. */
function listWays(problem: Problem, closure: Closure, { condition, taker }: Violation): ReasonedArc[][] {
  const { step, fact } = condition
  const givers = (problem.facts[fact]?.givers ?? []).filter(
    (giver) => giver !== step && !isBehind(problem, closure, giver, step),
  )
  const gives = (giver: number): readonly ReasonedArc[] =>
    step === problem.count ? [] : [{ from: giver, to: step, kind: "gives", condition }]
  if (taker < 0)
    // One giver before the step; with the second, the first one stands behind it, and so on: no order is met twice.
    return givers.map((giver, index) => [
      ...gives(giver),
      ...givers.slice(0, index).map((other): ReasonedArc => ({ from: step, to: other, kind: "takes", condition })),
    ])
  const ways = givers
    .filter((giver) => !isBefore(closure, giver, taker))
    .map((giver): ReasonedArc[] => [{ from: taker, to: giver, kind: "again", condition }, ...gives(giver)])
  if (step < problem.count && !isBefore(closure, taker, step))
    ways.unshift([{ from: step, to: taker, kind: "takes", condition }])
  return ways
}
