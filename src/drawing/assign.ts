/** Optimal assignment. */

/**
 * Gives each row a column of its own so that the sum of costs is least (Kuhn 1955, in the form with potentials of Jonker
 * and Volgenant 1987). Needs at least as many columns as rows; Infinity forbids a pair. Undefined when nothing is allowed.
 */
export function assignLeastCost(
  costs: readonly (readonly number[])[],
): { columns: readonly number[]; cost: number } | undefined {
  const rowCount = costs.length
  const columnCount = costs[0]?.length ?? 0
  if (rowCount === 0) return { columns: [], cost: 0 }
  if (columnCount < rowCount) return undefined
  const forbidden = 1e9
  const costOf = (row: number, column: number): number => Math.min(forbidden, costs[row - 1]?.[column - 1] ?? forbidden)
  const rowPotential = new Float64Array(rowCount + 1)
  const columnPotential = new Float64Array(columnCount + 1)
  const rowAt = new Int32Array(columnCount + 1)
  for (let row = 1; row <= rowCount; row += 1) {
    rowAt[0] = row
    let column = 0
    const least = new Float64Array(columnCount + 1).fill(Number.POSITIVE_INFINITY)
    const before = new Int32Array(columnCount + 1)
    const isDone = new Uint8Array(columnCount + 1)
    do {
      isDone[column] = 1
      const owner = rowAt[column] ?? 0
      let step = Number.POSITIVE_INFINITY
      let next = 0
      for (let other = 1; other <= columnCount; other += 1) {
        if (isDone[other] === 1) continue
        const reduced = costOf(owner, other) - (rowPotential[owner] ?? 0) - (columnPotential[other] ?? 0)
        if (reduced < (least[other] ?? 0)) {
          least[other] = reduced
          before[other] = column
        }
        if ((least[other] ?? 0) < step) {
          step = least[other] ?? 0
          next = other
        }
      }
      for (let other = 0; other <= columnCount; other += 1) {
        if (isDone[other] === 1) {
          const held = rowAt[other] ?? 0
          rowPotential[held] = (rowPotential[held] ?? 0) + step
          columnPotential[other] = (columnPotential[other] ?? 0) - step
        } else least[other] = (least[other] ?? 0) - step
      }
      column = next
    } while ((rowAt[column] ?? 0) !== 0)
    while (column !== 0) {
      const earlier = before[column] ?? 0
      rowAt[column] = rowAt[earlier] ?? 0
      column = earlier
    }
  }
  const columns = new Array<number>(rowCount).fill(-1)
  for (let column = 1; column <= columnCount; column += 1) {
    const row = rowAt[column] ?? 0
    if (row > 0) columns[row - 1] = column - 1
  }
  let cost = 0
  for (const [row, column] of columns.entries()) {
    const own = costs[row]?.[column] ?? Number.POSITIVE_INFINITY
    if (own >= forbidden) return undefined
    cost += own
  }
  return { columns, cost }
}
