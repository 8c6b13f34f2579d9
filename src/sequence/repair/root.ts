/** What every order of a problem keeps: the start of the search, of proofs that none exists, and of reasons. */
import { buildClosure, type Closure } from "./closure.ts"
import { addForced, listOpenConditions, listPlainArcs, type ReasonedArc } from "./forced.ts"
import type { Condition, Problem } from "./problem.ts"
import { type SearchResult, searchOrder } from "./search.ts"

export type Root = {
  readonly closure: Closure
  /** The links it follows from, each with its condition. */
  readonly arcs: readonly ReasonedArc[]
  readonly open: readonly Condition[]
}

/** Finds the links that no order can do without; undefined when they contradict each other, so that no order exists. */
export function findRoot(problem: Problem): Root | undefined {
  const plain = listPlainArcs(problem)
  const closure = plain === undefined ? undefined : buildClosure(problem.count, plain)
  if (plain === undefined || closure === undefined) return undefined
  const forced: ReasonedArc[] = []
  const open = listOpenConditions(problem)
  if (!addForced(problem, open, closure, (arc) => forced.push(arc))) return undefined
  return { closure, arcs: [...plain, ...forced], open }
}

/** Finds any order that meets all conditions, or the proof that none exists, within the limit. */
export function findAnyOrder(problem: Problem, nodeLimit: number): SearchResult {
  const root = findRoot(problem)
  if (root === undefined) return { kind: "none", visited: 0 }
  return searchOrder({ problem, open: root.open, root: root.closure, nodeLimit, wanted: "any" })
}
