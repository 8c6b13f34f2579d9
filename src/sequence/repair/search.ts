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

export type SearchResult =
  | { readonly kind: "found"; readonly order: readonly number[]; readonly moved: readonly number[] }
  /** No order meets all conditions. */
  | { readonly kind: "none" }
  /** The limit was reached; no order has fewer moves than `atLeast`. */
  | { readonly kind: "limit"; readonly atLeast: number }

export type SearchInput = {
  readonly problem: Problem
  readonly open: readonly Condition[]
  /** Closure of the links that every order keeps. */
  readonly root: Closure
  readonly nodeLimit: number
  /** `fewest` proves the fewest moves; `any` goes straight down to some order. */
  readonly wanted: "fewest" | "any"
}

type Node = { readonly parent: Node | undefined; readonly arcs: readonly ReasonedArc[]; readonly bound: number }

/** So many broken conditions are looked at for the one that leaves the fewest ways. */
const mostLookedAt = 40

/** Searches; see the head of this file. */
export function searchOrder({ problem, open, root, nodeLimit, wanted }: SearchInput): SearchResult {
  const buckets: Node[][] = [[{ parent: undefined, arcs: [], bound: 0 }]]
  let level = 0
  for (let visited = 0; ; visited += 1) {
    while (level < buckets.length && (buckets[level] ?? []).length === 0) level += 1
    const node = buckets[level]?.pop()
    if (node === undefined) return { kind: "none" }
    if (visited >= nodeLimit) return { kind: "limit", atLeast: wanted === "fewest" ? level : 0 }
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
    if (violations.length === 0) return { kind: "found", order, moved: listMoved(order, kept) }
    // The last branch pushed is taken first.
    for (const arcs of chooseBranches(problem, closure, violations).reverse())
      buckets[level]?.push({ parent: node, arcs, bound: node.bound })
  }
}

function listMoved(order: readonly number[], kept: Uint32Array): readonly number[] {
  return order.filter((step) => !hasBit(kept, 0, step)).sort((one, other) => one - other)
}

function closeNode(root: Closure, node: Node): Closure | undefined {
  const closure = copyClosure(root)
  for (let one: Node | undefined = node; one !== undefined; one = one.parent)
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
