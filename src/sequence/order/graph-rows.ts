/** The order within the rows of a layered graph: barycenter sweeps and swaps of neighbours, the best seen is kept. */

/** Lines of one kind to one box share their lanes. */
export type LayoutLink = { readonly from: number; readonly to: number; readonly kind: string }

/** A box, or a lane of lines that pass a row. */
export type RowNode = { readonly box: number | undefined; readonly row: number }

export type Rows = {
  readonly rows: readonly (readonly RowNode[])[]
  /** For each link its nodes from box to box, one in each row. */
  readonly ways: readonly (readonly RowNode[])[]
  readonly above: ReadonlyMap<RowNode, readonly RowNode[]>
  readonly below: ReadonlyMap<RowNode, readonly RowNode[]>
}

const sweepCount = 24

/** Gives rows that hold lanes as well, ordered for few crossings. */
export function orderRows(boxRows: readonly (readonly number[])[], links: readonly LayoutLink[]): Rows {
  const rows: RowNode[][] = boxRows.map((row, index) => row.map((box) => ({ box, row: index })))
  const nodeOf = new Map(rows.flat().map((node) => [node.box ?? -1, node]))
  const above = new Map<RowNode, RowNode[]>()
  const below = new Map<RowNode, RowNode[]>()
  const lanes = new Map<string, RowNode>()
  const ways = links.map(({ from, to, kind }): readonly RowNode[] => {
    const [start, end] = [nodeOf.get(from), nodeOf.get(to)]
    if (start === undefined || end === undefined) throw new Error("a link of a graph ends at no box")
    const way: RowNode[] = [start]
    for (let row = start.row + 1; row < end.row; row += 1) {
      const key = `${to} ${kind} ${row}`
      const lane = lanes.get(key) ?? { box: undefined, row }
      if (!lanes.has(key)) rows[row]?.push(lane)
      lanes.set(key, lane)
      way.push(lane)
    }
    way.push(end)
    for (const [index, node] of way.slice(1).entries()) {
      const previous = way[index]
      if (previous === undefined || below.get(previous)?.includes(node) === true) continue
      above.set(node, [...(above.get(node) ?? []), previous])
      below.set(previous, [...(below.get(previous) ?? []), node])
    }
    return way
  })
  const parts = { ways, above, below }
  let best: readonly (readonly RowNode[])[] = rows
  let fewest = countAll({ rows, ...parts })
  let current: readonly (readonly RowNode[])[] = rows
  for (let sweep = 0; sweep < sweepCount && fewest > 0; sweep += 1) {
    current = sweepRows(current, sweep % 2 === 0 ? above : below, sweep % 2 === 0)
    current = swapNeighbours({ rows: current, ...parts })
    const crossings = countAll({ rows: current, ...parts })
    if (crossings < fewest) {
      fewest = crossings
      best = current
    }
  }
  return { rows: best, ...parts }
}

/** Crossings of the lines between a row and the next one. */
export function crossingsBetween({ rows, below }: Rows, index: number): number {
  const places = new Map((rows[index + 1] ?? []).map((node, place) => [node, place]))
  const ends = (rows[index] ?? []).flatMap((node) =>
    (below.get(node) ?? []).map((next) => places.get(next) ?? 0).sort((one, other) => one - other),
  )
  let crossings = 0
  for (const [later, end] of ends.entries())
    for (let earlier = 0; earlier < later; earlier += 1) if ((ends[earlier] ?? 0) > end) crossings += 1
  return crossings
}

function countAll(rows: Rows): number {
  return rows.rows.reduce((sum, _, index) => sum + crossingsBetween(rows, index), 0)
}

/** Sorts each row by the mean place of its neighbours in the row before; nodes without any keep their place. */
function sweepRows(
  rows: readonly (readonly RowNode[])[],
  neighbours: ReadonlyMap<RowNode, readonly RowNode[]>,
  isDown: boolean,
): readonly (readonly RowNode[])[] {
  const swept = [...rows]
  const indexes = rows.map((_, index) => (isDown ? index : rows.length - 1 - index))
  for (const index of indexes) {
    const fixed = swept[isDown ? index - 1 : index + 1]
    const row = swept[index] ?? []
    if (fixed === undefined) continue
    const places = new Map(fixed.map((node, place) => [node, place]))
    const scale = fixed.length / Math.max(1, row.length)
    const rank = new Map(
      row.map((node, place) => {
        const others = (neighbours.get(node) ?? []).map((other) => places.get(other) ?? 0)
        const mean = others.reduce((sum, one) => sum + one, 0) / others.length
        return [node, others.length === 0 ? place * scale : mean]
      }),
    )
    swept[index] = row
      .map((node, place) => ({ node, place }))
      .sort((one, other) => (rank.get(one.node) ?? 0) - (rank.get(other.node) ?? 0) || one.place - other.place)
      .map(({ node }) => node)
  }
  return swept
}

/** Swaps neighbours of a row where that crosses fewer lines, until nothing is gained. */
function swapNeighbours({ rows, above, below, ways }: Rows): readonly (readonly RowNode[])[] {
  const swapped = rows.map((row) => [...row])
  const placeOf = new Map<RowNode, number>()
  for (const row of swapped) for (const [place, node] of row.entries()) placeOf.set(node, place)
  const cost = (one: RowNode, other: RowNode): number => {
    let crossings = 0
    for (const neighbours of [above, below])
      for (const left of neighbours.get(one) ?? [])
        for (const right of neighbours.get(other) ?? [])
          if ((placeOf.get(left) ?? 0) > (placeOf.get(right) ?? 0)) crossings += 1
    return crossings
  }
  for (let isGained = ways.length > 0, round = 0; isGained && round < 20; round += 1) {
    isGained = false
    for (const row of swapped)
      for (let place = 0; place + 1 < row.length; place += 1) {
        const [one, other] = [row[place], row[place + 1]]
        if (one === undefined || other === undefined || cost(one, other) <= cost(other, one)) continue
        row[place] = other
        row[place + 1] = one
        placeOf.set(other, place)
        placeOf.set(one, place + 1)
        isGained = true
      }
  }
  return swapped
}
