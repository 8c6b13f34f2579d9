/** If no order exists: the requirements that contradict each other, as few as can be. */
import type { Plan, Requirement } from "../plan-types.ts"
import { strongComponents } from "../strong-components.ts"
import { listPlainArcs, type ReasonedArc } from "./forced.ts"
import { compileProblem, listRequirements } from "./problem.ts"
import { findAnyOrder } from "./root.ts"

export type Core = { readonly core: readonly Requirement[]; readonly isMinimal: boolean }

/** In large knots the shortest circle is looked for from so many steps only. */
const mostStarts = 200

/** All tests together visit so many times the nodes that one may visit. */
const mostTimes = 5

/**
 * Leaves out requirements, in halves and then one by one, as long as the rest still cannot be met. `isMinimal` is false
 * when a test came to its limit, or all together to five times that. Call it only for a plan that has no order.
 */
export function findCore(plan: Plan, nodeLimit: number): Core {
  let core = startingSet(plan)
  let isMinimal = true
  let left = mostTimes * nodeLimit
  const isStillImpossible = (rest: readonly Requirement[]): boolean => {
    const { kind, visited } = findAnyOrder(compileProblem(plan, rest), Math.min(nodeLimit, left))
    left -= visited
    if (kind === "limit") isMinimal = false
    return kind === "none"
  }
  for (let size = Math.ceil(core.length / 2); size >= 1; size = size === 1 ? 0 : Math.ceil(size / 2)) {
    if (size === 1) isMinimal = true
    for (let start = core.length - size; start > -size; start -= size) {
      const from = Math.max(0, start)
      const rest = [...core.slice(0, from), ...core.slice(start + size)]
      if (isStillImpossible(rest)) core = rest
    }
  }
  return { core, isMinimal }
}

/** A circle of plain links or a requirement that nothing can meet is already small; else all requirements. */
function startingSet(plan: Plan): readonly Requirement[] {
  const all = listRequirements(plan)
  const problem = compileProblem(plan, all)
  const arcs = listPlainArcs(problem)
  if (arcs === undefined) {
    const lone = problem.conditions.find((one) => {
      const alone = { ...problem, conditions: [one] }
      return listPlainArcs(alone) === undefined
    })
    return lone === undefined ? all : [lone.requirement]
  }
  const circle = findShortestCircle(problem.count, arcs)
  if (circle === undefined) return all
  // Two pinned steps are tied together; the link between them stands for both.
  const isPinned = circle.some(({ condition }) => condition.requirement.kind === "pinned")
  const told = new Set(circle.map(({ condition }) => condition.requirement))
  return all.filter((one) => told.has(one) || (isPinned && one.kind === "pinned"))
}

/** The circle with the fewest links; undefined when there is none. Breadth first within each knot of the graph. */
function findShortestCircle(count: number, arcs: readonly ReasonedArc[]): readonly ReasonedArc[] | undefined {
  const next: ReasonedArc[][] = Array.from({ length: count }, () => [])
  for (const arc of arcs) next[arc.from]?.push(arc)
  const component = strongComponents(next.map((links) => links.map(({ to }) => to)))
  const isInKnot = (arc: ReasonedArc): boolean => component[arc.from] === component[arc.to]
  const starts = [...new Set(arcs.filter(isInKnot).map(({ from }) => from))].slice(0, mostStarts)
  let best: readonly ReasonedArc[] | undefined
  for (const start of starts) {
    const cameBy = new Map<number, ReasonedArc>()
    const open = [start]
    for (let index = 0; index < open.length && !cameBy.has(start); index += 1)
      for (const arc of next[open[index] ?? 0] ?? []) {
        if (cameBy.has(arc.to) || !isInKnot(arc)) continue
        cameBy.set(arc.to, arc)
        open.push(arc.to)
      }
    const circle: ReasonedArc[] = []
    for (let arc = cameBy.get(start); arc !== undefined; arc = arc.from === start ? undefined : cameBy.get(arc.from))
      circle.push(arc)
    if (best === undefined || circle.length < best.length) best = circle.reverse()
  }
  return best
}
