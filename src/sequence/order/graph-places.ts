/** Where the nodes of ordered rows stand from left to right, so that lines run as straight as the order lets them. */
import type { RowNode, Rows } from "./graph-rows.ts"

const sweepCount = 16
/** How much straighter a line between two lanes is kept than one between two boxes, a lane and a box in between. */
const laneWeight = 8
const mixedWeight = 2

/** Gives the middle of each node in mm. Neighbours of a row keep their order and at least `apart` between their middles. */
export function placeInRows(
  { rows, above, below }: Rows,
  apart: (one: RowNode, other: RowNode) => number,
): ReadonlyMap<RowNode, number> {
  const places = new Map<RowNode, number>()
  for (const row of rows) {
    const offsets = offsetsOf(row, apart)
    for (const [index, node] of row.entries()) places.set(node, (offsets[index] ?? 0) - (offsets.at(-1) ?? 0) / 2)
  }
  for (let sweep = 0; sweep < sweepCount; sweep += 1) {
    const isDown = sweep % 2 === 0
    const isLast = sweep >= sweepCount - 2
    for (const row of isDown ? rows : [...rows].reverse()) {
      const wishes = row.map((node) => {
        const near = (isDown ? above : below).get(node) ?? []
        const far = (isDown ? below : above).get(node) ?? []
        return meanPlace(node, isLast || near.length === 0 ? [...near, ...far] : near, places)
      })
      settle(row, wishes, offsetsOf(row, apart), places)
    }
  }
  return places
}

function meanPlace(
  node: RowNode,
  others: readonly RowNode[],
  places: ReadonlyMap<RowNode, number>,
): { readonly at: number; readonly weight: number } {
  let sum = 0
  let weight = 0
  for (const other of others) {
    const isLane = Number(node.box === undefined) + Number(other.box === undefined)
    const one = isLane === 2 ? laneWeight : isLane === 1 ? mixedWeight : 1
    sum += one * (places.get(other) ?? 0)
    weight += one
  }
  return weight === 0 ? { at: places.get(node) ?? 0, weight: 0.1 } : { at: sum / weight, weight }
}

/**
 * Moves a row as near to its wishes as order and gaps allow, by least squares: neighbours whose wishes come too close
 * stand together at their common mean (pool adjacent violators; Barlow and others 1972, from memory).
 */
function settle(
  row: readonly RowNode[],
  wishes: readonly { readonly at: number; readonly weight: number }[],
  offsets: readonly number[],
  places: Map<RowNode, number>,
): void {
  const groups: { sum: number; weight: number; count: number }[] = []
  for (const [index, { at, weight }] of wishes.entries()) {
    let group = { sum: weight * (at - (offsets[index] ?? 0)), weight, count: 1 }
    for (let last = groups.at(-1); last !== undefined; last = groups.at(-1)) {
      if (last.sum / last.weight <= group.sum / group.weight) break
      groups.pop()
      group = { sum: last.sum + group.sum, weight: last.weight + group.weight, count: last.count + group.count }
    }
    groups.push(group)
  }
  let index = 0
  for (const { sum, weight, count } of groups)
    for (let member = 0; member < count; member += 1, index += 1) {
      const node = row[index]
      if (node !== undefined) places.set(node, sum / weight + (offsets[index] ?? 0))
    }
}

/** How far each node of a row stands from the first when all stand as close as they may. */
function offsetsOf(row: readonly RowNode[], apart: (one: RowNode, other: RowNode) => number): readonly number[] {
  let offset = 0
  return row.map((node, index) => {
    const previous = row[index - 1]
    if (previous !== undefined) offset += apart(previous, node)
    return offset
  })
}
