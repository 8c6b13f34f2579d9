/** Where the boxes and lines of a graph of steps stand on paper: rows from top to bottom, every line going down. */

import { placeInRows } from "./graph-places.ts"
import { crossingsBetween, type LayoutLink, orderRows, type RowNode } from "./graph-rows.ts"

export type LayoutBox = { readonly node: number; readonly xMm: number; readonly yMm: number }

/**
 * A line from box to box as points; from one row to the next it may be drawn as a curve that leaves and arrives upright.
 * Lines of one kind to one box join on their way: their last points are the same from where they have met.
 */
export type LayoutLine = { readonly link: number; readonly points: readonly (readonly [number, number])[] }

export type Layout = {
  readonly widthMm: number
  readonly heightMm: number
  /** `xMm`, `yMm` are the middle of the upper edge. */
  readonly boxes: readonly LayoutBox[]
  readonly lines: readonly LayoutLine[]
}

/** Sizes of the boxes by node, and links from lower to higher nodes: nodes stand in an order in which links go forward. */
export type LayoutInput = {
  readonly boxes: readonly { readonly widthMm: number; readonly heightMm: number }[]
  readonly links: readonly LayoutLink[]
  /** Rows get no wider where that can be helped. */
  readonly widthMm: number
}

/** Space between boxes of a row, and beside a line that passes between them. */
const gapMm = 5
const laneGapMm = 2.8
/** Height between rows: the least, more for each crossing, and the most. */
const rowGapMm = 9
const gapForCrossingMm = 0.5
const mostRowGapMm = 16

/**
 * Lays a graph out in layers (Sugiyama, Tagawa, Toda 1981): a node stands below all it follows, in the row of its longest
 * chain unless that row is full; lines over several rows pass through lanes of their own; rows are ordered for few
 * crossings and then moved so that lines run straight. Equal input gives equal output.
 */
export function layOutGraph(input: LayoutInput): Layout {
  const rows = fillRows(input)
  const ordered = orderRows(rows, input.links)
  const widthOf = (node: RowNode): number => (node.box === undefined ? 0 : (input.boxes[node.box]?.widthMm ?? 0))
  const isLane = (node: RowNode): boolean => node.box === undefined
  const gapOf = (one: RowNode, other: RowNode): number => (isLane(one) || isLane(other) ? laneGapMm : gapMm)
  const places = placeInRows(ordered, (one, other) => (widthOf(one) + widthOf(other)) / 2 + gapOf(one, other))
  const tops: number[] = []
  const heights = ordered.rows.map((row) =>
    Math.max(0, ...row.map(({ box }) => (box === undefined ? 0 : (input.boxes[box]?.heightMm ?? 0)))),
  )
  let heightMm = 0
  for (const [index, height] of heights.entries()) {
    if (index > 0) {
      const crossings = crossingsBetween(ordered, index - 1)
      heightMm += Math.min(mostRowGapMm, rowGapMm + gapForCrossingMm * crossings)
    }
    tops.push(heightMm)
    heightMm += height
  }
  const edges = ordered.rows.flat().map((node) => ({ at: places.get(node) ?? 0, half: widthOf(node) / 2 }))
  const left = Math.min(0, ...edges.map(({ at, half }) => at - half))
  const right = Math.max(0, ...edges.map(({ at, half }) => at + half))
  const xOf = (node: RowNode): number => (places.get(node) ?? 0) - left
  const boxes = ordered.rows.flatMap((row, index) =>
    row.flatMap((node): readonly LayoutBox[] =>
      node.box === undefined ? [] : [{ node: node.box, xMm: xOf(node), yMm: tops[index] ?? 0 }],
    ),
  )
  boxes.sort((one, other) => one.node - other.node)
  const ports = findPorts(ordered.ways, xOf, widthOf)
  const lines = ordered.ways.map((way, link): LayoutLine => {
    const points = way.flatMap((node, index): readonly (readonly [number, number])[] => {
      const top = tops[node.row] ?? 0
      const bottom = top + (node.box === undefined ? (heights[node.row] ?? 0) : (input.boxes[node.box]?.heightMm ?? 0))
      const x = xOf(node)
      if (index === 0) return [[x + (ports.out.get(link) ?? 0), bottom]]
      if (index === way.length - 1) return [[x + (ports.in.get(link) ?? 0), top]]
      return [
        [x, top],
        [x, bottom],
      ]
    })
    return { link, points }
  })
  return { widthMm: right - left, heightMm, boxes, lines }
}

/** Puts each node in the first row below all it follows that has room; the longest chain behind a node goes first. */
function fillRows({ boxes, links, widthMm }: LayoutInput): readonly (readonly number[])[] {
  const before: number[][] = boxes.map(() => [])
  const behind: number[][] = boxes.map(() => [])
  for (const { from, to } of links) {
    before[to]?.push(from)
    behind[from]?.push(to)
  }
  const chain = boxes.map(() => 0)
  for (let node = boxes.length - 1; node >= 0; node -= 1)
    chain[node] = Math.max(0, ...(behind[node] ?? []).map((next) => 1 + (chain[next] ?? 0)))
  const rowOf = new Int32Array(boxes.length).fill(-1)
  const widths: number[] = []
  const widthFor = (node: number): number => (boxes[node]?.widthMm ?? 0) + gapMm
  const hasRoom = (row: number, node: number): boolean => {
    const used = widths[row] ?? 0
    return used === 0 || used + widthFor(node) <= widthMm + gapMm
  }
  const put = (node: number, row: number): void => {
    if ((rowOf[node] ?? -1) >= 0) widths[rowOf[node] ?? 0] = (widths[rowOf[node] ?? 0] ?? 0) - widthFor(node)
    rowOf[node] = row
    widths[row] = (widths[row] ?? 0) + widthFor(node)
  }
  let waiting = boxes.map((_, node) => node)
  for (let row = 0; waiting.length > 0; row += 1) {
    const ready = waiting.filter((node) =>
      (before[node] ?? []).every((one) => (rowOf[one] ?? -1) >= 0 && (rowOf[one] ?? -1) < row),
    )
    ready.sort((one, other) => (chain[other] ?? 0) - (chain[one] ?? 0) || one - other)
    for (const node of ready) if (hasRoom(row, node)) put(node, row)
    waiting = waiting.filter((node) => (rowOf[node] ?? -1) < 0)
  }
  // A node that few lines lead to and more leave stands close to what follows, so that fewer lines are long.
  for (let node = boxes.length - 1; node >= 0; node -= 1) {
    const next = behind[node] ?? []
    if (next.length === 0 || next.length < (before[node] ?? []).length) continue
    const lowest = Math.min(...next.map((one) => rowOf[one] ?? 0)) - 1
    for (let row = lowest; row > (rowOf[node] ?? 0); row -= 1)
      if (hasRoom(row, node)) {
        put(node, row)
        break
      }
  }
  const rows: number[][] = []
  for (const [node, row] of rowOf.entries()) {
    const known = rows[row] ?? []
    known.push(node)
    rows[row] = known
  }
  return Array.from(rows, (row) => row ?? []).filter((row) => row.length > 0)
}

/** Lines that leave or enter one box side by side, in the order of where they go; offsets from its middle in mm. */
function findPorts(
  ways: readonly (readonly RowNode[])[],
  xOf: (node: RowNode) => number,
  widthOf: (node: RowNode) => number,
): { readonly out: ReadonlyMap<number, number>; readonly in: ReadonlyMap<number, number> } {
  const spread = (pick: (way: readonly RowNode[]) => readonly [RowNode | undefined, RowNode | undefined]) => {
    const groups = new Map<RowNode, { link: number; next: RowNode }[]>()
    for (const [link, way] of ways.entries()) {
      const [node, next] = pick(way)
      if (node === undefined || next === undefined) continue
      groups.set(node, [...(groups.get(node) ?? []), { link, next }])
    }
    const offsets = new Map<number, number>()
    for (const [node, group] of groups) {
      const nexts = [...new Set(group.map(({ next }) => next))].sort((one, other) => xOf(one) - xOf(other))
      const step = Math.min(3.5, (widthOf(node) - 6) / Math.max(1, nexts.length - 1))
      for (const { link, next } of group) offsets.set(link, (nexts.indexOf(next) - (nexts.length - 1) / 2) * step)
    }
    return offsets
  }
  return { out: spread((way) => [way[0], way[1]]), in: spread((way) => [way.at(-1), way.at(-2)]) }
}
