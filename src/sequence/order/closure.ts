/** What a graph without circles says twice, and how many of its nodes can stand side by side. */
import { buildDigraph, type Digraph, sortTopologically } from "./digraph.ts"

/** So many targets are looked at together; the table of who reaches them has one row of bits for each node. */
const blockBits = 4096

/**
 * Gives the arcs, as indexes into `targets`, that no way over other arcs implies (transitive reduction; unique for a
 * graph without circles). Of double arcs the first counts. An arc goes when another successor reaches its end.
 * Arcs times nodes / 32 steps; memory grows with the number of nodes only. Throws for a graph with a circle.
 * Source: Aho, Garey, Ullman, The transitive reduction of a directed graph, SIAM J. Comput. 1 (1972).
 */
export function reduceDigraph({ count, starts, targets }: Digraph): readonly number[] {
  const order = sortTopologically({ count, starts, targets })
  if (order.length < count) throw new Error("a graph with a circle has no transitive reduction")
  const place = new Int32Array(count)
  order.forEach((node, index) => {
    place[node] = index
  })
  const arcsOf = Array.from({ length: count }, (_, node) => {
    const arcs = Array.from({ length: (starts[node + 1] ?? 0) - (starts[node] ?? 0) }, (_one, arc) => {
      return (starts[node] ?? 0) + arc
    })
    // A successor can be reached only by way of successors that stand before it.
    return arcs.sort((one, other) => (place[targets[one] ?? 0] ?? 0) - (place[targets[other] ?? 0] ?? 0) || one - other)
  })
  const kept: number[] = []
  const words = Math.ceil(Math.min(count, blockBits) / 32)
  const rows = new Uint32Array(words * count)
  for (let low = 0; low < count; low += blockBits) {
    const high = Math.min(count, low + blockBits)
    rows.fill(0)
    for (let index = high - 1; index >= 0; index -= 1) {
      const node = order[index] ?? 0
      const row = node * words
      for (const arc of arcsOf[node] ?? []) {
        const target = targets[arc] ?? 0
        const bit = (place[target] ?? 0) - low
        if (bit >= high - low) break
        if (bit >= 0) {
          const word = row + (bit >> 5)
          const mask = 1 << (bit & 31)
          if (((rows[word] ?? 0) & mask) !== 0) continue
          kept.push(arc)
          rows[word] = (rows[word] ?? 0) | mask
        }
        const other = target * words
        for (let word = 0; word < words; word += 1)
          rows[row + word] = (rows[row + word] ?? 0) | (rows[other + word] ?? 0)
      }
    }
  }
  return kept.sort((one, other) => one - other)
}

/**
 * Gives the most nodes of which none reaches another. By Dilworth (1950) that is the fewest chains that cover all nodes,
 * and these are found as a largest matching of each node with a later one of its chain (Fulkerson 1956). Chains may leap
 * over nodes of others, so that the closure is never built: a search passes through matched nodes as well.
 * The graph must have no circle.
 */
export function computeWidth(graph: Digraph): number {
  const { count, starts, targets } = graph
  const flow = makeFlow(graph)
  // A first matching along single arcs; what it misses is found by searches.
  let matched = 0
  for (let node = 0; node < count; node += 1)
    for (let arc = starts[node] ?? 0; arc < (starts[node + 1] ?? 0); arc += 1)
      if (flow.isEntered[targets[arc] ?? 0] === 0) {
        flow.use(node, arc)
        matched += 1
        break
      }
  for (let found = flow.augment(); found > 0; found = flow.augment()) matched += found
  return count - matched
}

/**
 * The network of `computeWidth`. Each node has a left and a right side: left to right along an arc, right to left within
 * a node as often as needed. A unit that starts at a left side and ends at a right side matches the two nodes.
 */
function makeFlow({ count, starts, targets }: Digraph): {
  readonly isEntered: Uint8Array
  readonly use: (node: number, arc: number) => void
  readonly augment: () => number
} {
  const isLeft = new Uint8Array(count)
  const isEntered = new Uint8Array(count)
  const alongArc = new Int32Array(targets.length)
  const throughNode = new Int32Array(count)
  const sourceOf = new Int32Array(targets.length)
  for (let node = 0; node < count; node += 1) sourceOf.fill(node, starts[node], starts[node + 1])
  const arcIds = Int32Array.from(targets, (_, arc) => arc)
  const incoming = buildDigraph(count, targets, arcIds)
  const use = (node: number, arc: number): void => {
    isLeft[node] = 1
    isEntered[targets[arc] ?? 0] = 1
    alongArc[arc] = (alongArc[arc] ?? 0) + 1
  }
  /** One search from every node whose left side is free; sides seen in one round are not entered again in it. */
  const augment = (): number => {
    // Sides: the left one of a node is its number, the right one its number + count. `cameBy` tells how a side was reached:
    // along an arc (arc), back along an arc (-2 - arc), within a node (within).
    const within = targets.length
    const cameBy = new Int32Array(2 * count).fill(-1)
    const before = new Int32Array(2 * count).fill(-1)
    const stack: number[] = []
    let found = 0
    const reach = (side: number, from: number, by: number): boolean => {
      if (cameBy[side] !== -1) return false
      cameBy[side] = by
      before[side] = from
      stack.push(side)
      return true
    }
    for (let root = 0; root < count; root += 1) {
      if (isLeft[root] === 1 || cameBy[root] !== -1) continue
      stack.length = 0
      reach(root, -1, within)
      let end = -1
      for (let side = stack.pop(); side !== undefined && end < 0; side = stack.pop()) {
        if (side < count) {
          for (let arc = starts[side] ?? 0; arc < (starts[side + 1] ?? 0); arc += 1) {
            const right = count + (targets[arc] ?? 0)
            if (reach(right, side, arc) && isEntered[targets[arc] ?? 0] === 0) {
              end = right
              break
            }
          }
          if (end < 0 && (throughNode[side] ?? 0) > 0) reach(count + side, side, within)
        } else {
          const node = side - count
          reach(node, side, within)
          for (let index = incoming.starts[node] ?? 0; index < (incoming.starts[node + 1] ?? 0); index += 1) {
            const arc = incoming.targets[index] ?? 0
            if ((alongArc[arc] ?? 0) > 0) reach(sourceOf[arc] ?? 0, side, -2 - arc)
          }
        }
      }
      if (end < 0) continue
      found += 1
      isLeft[root] = 1
      isEntered[end - count] = 1
      for (let side = end; side !== root; side = before[side] ?? root) {
        const by = cameBy[side] ?? within
        if (by === within) {
          const node = side < count ? side : side - count
          throughNode[node] = (throughNode[node] ?? 0) + (side < count ? 1 : -1)
        } else if (by >= 0) alongArc[by] = (alongArc[by] ?? 0) + 1
        else alongArc[-2 - by] = (alongArc[-2 - by] ?? 0) - 1
      }
    }
    return found
  }
  return { isEntered, use, augment }
}
