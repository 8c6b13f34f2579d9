/**
 * Directed graphs in three typed arrays, for graphs of any size: nodes are numbers, the successors of one node lie side
 * by side. Nothing here recurses.
 */
import type { StepLink } from "../plan-types.ts"

/** The successors of `node` are `targets[starts[node]]` up to, not including, `targets[starts[node + 1]]`. */
export type Digraph = { readonly count: number; readonly starts: Int32Array; readonly targets: Int32Array }

/** Builds a graph of `count` nodes from the ends of its arcs; successors keep the order of the arcs, doubles stay. */
export function buildDigraph(count: number, from: ArrayLike<number>, to: ArrayLike<number>): Digraph {
  const starts = new Int32Array(count + 1)
  for (let arc = 0; arc < from.length; arc += 1) {
    const next = (from[arc] ?? 0) + 1
    starts[next] = (starts[next] ?? 0) + 1
  }
  for (let node = 0; node < count; node += 1) starts[node + 1] = (starts[node + 1] ?? 0) + (starts[node] ?? 0)
  const targets = new Int32Array(from.length)
  const free = starts.slice(0, count)
  for (let arc = 0; arc < from.length; arc += 1) {
    const node = from[arc] ?? 0
    const place = free[node] ?? 0
    targets[place] = to[arc] ?? 0
    free[node] = place + 1
  }
  return { count, starts, targets }
}

/** The graph of links between `count` steps. */
export function digraphOfLinks(count: number, links: readonly Pick<StepLink, "from" | "to">[]): Digraph {
  return buildDigraph(
    count,
    links.map(({ from }) => from),
    links.map(({ to }) => to),
  )
}

/** The same graph with every arc turned round. */
export function reverseDigraph({ count, starts, targets }: Digraph): Digraph {
  const sources = new Int32Array(targets.length)
  for (let node = 0; node < count; node += 1) sources.fill(node, starts[node], starts[node + 1])
  return buildDigraph(count, targets, sources)
}

/**
 * Gives the nodes in an order in which every arc points forward, as far as there is one: nodes on circles and behind
 * them are left out, so that a shorter list tells of a circle. Kahn (1962), linear in nodes and arcs.
 */
export function sortTopologically({ count, starts, targets }: Digraph): Int32Array {
  const waits = new Int32Array(count)
  for (let arc = 0; arc < targets.length; arc += 1) {
    const node = targets[arc] ?? 0
    waits[node] = (waits[node] ?? 0) + 1
  }
  // The list of what is sorted is the queue as well: `done` of its `size` nodes have been followed.
  const order = new Int32Array(count)
  let size = 0
  for (let node = 0; node < count; node += 1) if (waits[node] === 0) order[size++] = node
  for (let done = 0; done < size; done += 1) {
    const node = order[done] ?? 0
    const end = starts[node + 1] ?? 0
    for (let arc = starts[node] ?? 0; arc < end; arc += 1) {
      const target = targets[arc] ?? 0
      const left = (waits[target] ?? 0) - 1
      waits[target] = left
      if (left === 0) order[size++] = target
    }
  }
  return order.subarray(0, size)
}
