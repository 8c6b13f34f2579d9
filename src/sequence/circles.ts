/** Circles of links that no order can do without. */
import type { Declared } from "./broken.ts"
import { type ActLink, declaredLink, describeLink } from "./links.ts"
import { strongComponents } from "./strong-components.ts"
import type { Action, Link } from "./types.ts"

export type Circle = { readonly links: readonly Link[]; readonly pairs: readonly (readonly [number, number])[] }

/** An edge between nodes; `link` is undefined between an act and the begin or end of its own step. */
type Edge = {
  readonly to: number
  readonly isLink: boolean
  readonly describe: () => Link
  readonly steps: readonly [number, number]
}

/** Breadth-first searches stop after this many visited edges in all; then a circle found may not be the shortest. */
const searchLimit = 20_000_000

/**
 * Finds one circle, the shortest, in each knot of steps that wait for each other. Nodes are the acts and the begin and
 * end of each step: a declared link ties whole steps, the links of acts only the acts, which may move to other steps.
 */
export function findCircles(
  actions: readonly Action[],
  actLinks: readonly ActLink[],
  declared: readonly Declared[],
  stepIds: readonly string[],
): readonly Circle[] {
  const edges = buildEdges(actions, actLinks, declared, stepIds)
  const component = strongComponents(edges.map((list) => list.map(({ to }) => to)))
  const sizes = new Map<number, number>()
  for (const one of component) sizes.set(one, (sizes.get(one) ?? 0) + 1)
  const best = new Map<number, readonly Edge[]>()
  let visited = 0
  edges.forEach((list, from) => {
    for (const edge of list) {
      const knot = component[from] ?? -1
      // Every circle holds a link that runs against the order of the steps.
      if (!edge.isLink || edge.steps[0] < edge.steps[1] || component[edge.to] !== knot) continue
      if ((sizes.get(knot) ?? 0) < 2 && edge.to !== from) continue
      if (visited > searchLimit && best.has(knot)) continue
      const known = best.get(knot)
      const found = shortestPath(
        edges,
        component,
        edge.to,
        from,
        known === undefined ? undefined : linkCount(known) - 1,
      )
      visited += found.visited
      if (found.path !== undefined && (known === undefined || 1 + linkCount(found.path) < linkCount(known)))
        best.set(knot, [edge, ...found.path])
    }
  })
  return [...best.values()].flatMap((path) => {
    const edgesOfPath = path.filter(({ isLink }) => isLink)
    const links = edgesOfPath.map(({ describe }) => describe())
    return canBeUndone(links) ? [] : [{ links, pairs: edgesOfPath.map(({ steps }) => steps) }]
  })
}

/**
 * Two steps of which one takes away what the other needs lack an act that undoes it, rather than an order:
 * a part that is removed while its screws are in. The broken link tells that better than a circle.
 */
function canBeUndone(links: readonly Link[]): boolean {
  const steps = new Set(links.map(({ to }) => to))
  return (
    steps.size <= 2 && links.some(({ kind }) => kind === "takes-away") && links.every(({ kind }) => kind !== "declared")
  )
}

function buildEdges(
  actions: readonly Action[],
  actLinks: readonly ActLink[],
  declared: readonly Declared[],
  stepIds: readonly string[],
): readonly Edge[][] {
  const count = actions.length
  const edges: Edge[][] = Array.from({ length: count + 2 * stepIds.length }, () => [])
  const begin = (step: number): number => count + 2 * step
  const end = (step: number): number => count + 2 * step + 1
  const inner = (from: number, to: number, step: number): void => {
    const describe = (): Link => declaredLink({ step, other: step, why: undefined, path: "" }, stepIds)
    edges[from]?.push({ to, isLink: false, describe, steps: [step, step] })
  }
  for (const link of actLinks) {
    const from = actions[link.from]
    const to = actions[link.to]
    if (!link.isHard || from === undefined || to === undefined) continue
    const describe = (): Link => describeLink(from, to, link)
    edges[link.from]?.push({ to: link.to, isLink: true, describe, steps: [from.stepIndex, to.stepIndex] })
  }
  const tied = new Set(declared.flatMap(({ step, other }) => [step, other]))
  for (const step of tied) inner(begin(step), end(step), step)
  actions.forEach(({ stepIndex }, index) => {
    if (!tied.has(stepIndex)) return
    inner(begin(stepIndex), index, stepIndex)
    inner(index, end(stepIndex), stepIndex)
  })
  for (const one of declared) {
    const describe = (): Link => declaredLink(one, stepIds)
    edges[end(one.other)]?.push({ to: begin(one.step), isLink: true, describe, steps: [one.other, one.step] })
  }
  return edges
}

function linkCount(path: readonly Edge[]): number {
  return path.reduce((sum, { isLink }) => sum + (isLink ? 1 : 0), 0)
}

/** The path with the fewest links inside one knot, fewer than `below`; breadth first, inner edges cost nothing. */
function shortestPath(
  edges: readonly (readonly Edge[])[],
  component: Int32Array,
  start: number,
  goal: number,
  below: number | undefined,
): { readonly path: readonly Edge[] | undefined; readonly visited: number } {
  const knot = component[start]
  const cameBy = new Map<number, { readonly from: number; readonly edge: Edge } | undefined>([[start, undefined]])
  let visited = 0
  let level = [start]
  for (let length = 0; level.length > 0 && (below === undefined || length < below); length += 1) {
    // The level grows while inner edges are followed; links lead to the next one.
    for (let index = 0; index < level.length; index += 1) {
      const from = level[index] ?? 0
      if (from === goal) return { path: traceBack(cameBy, goal), visited }
      for (const edge of edges[from] ?? []) {
        visited += 1
        if (edge.isLink || component[edge.to] !== knot || cameBy.has(edge.to)) continue
        cameBy.set(edge.to, { from, edge })
        level.push(edge.to)
      }
    }
    const next: number[] = []
    for (const from of level)
      for (const edge of edges[from] ?? []) {
        if (!edge.isLink || component[edge.to] !== knot || cameBy.has(edge.to)) continue
        cameBy.set(edge.to, { from, edge })
        next.push(edge.to)
      }
    level = next
  }
  return { path: undefined, visited }
}

function traceBack(
  cameBy: ReadonlyMap<number, { readonly from: number; readonly edge: Edge } | undefined>,
  goal: number,
): readonly Edge[] {
  const path: Edge[] = []
  for (let step = cameBy.get(goal); step !== undefined; step = cameBy.get(step.from)) path.push(step.edge)
  return path.reverse()
}
