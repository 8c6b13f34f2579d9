/** A two-dimensional grid that tells which triangles or segments may touch a place on paper. */
import type { Box2 } from "./item-buffer.ts"

export type CellGrid = {
  readonly left: number
  readonly top: number
  readonly cellMm: number
  readonly columns: number
  readonly rows: number
  /** Members of cell `k` are `members[starts[k]]` up to `members[starts[k + 1]]`, exclusive. */
  readonly starts: Uint32Array
  readonly members: Uint32Array
}

/** A convex polygon on paper, as x y x y ...: three corners for a triangle, two for a segment. */
type Corners = readonly number[]

/**
 * Sorts `count` things into cells; `cornersOf` gives their corners, or undefined to leave one out. Each thing is
 * entered in every cell it touches, and in few more (rows are clipped exactly, with a hair of margin).
 */
export function buildCellGrid(
  bounds: Box2,
  count: number,
  cornersOf: (index: number) => Corners | undefined,
): CellGrid {
  const widthMm = Math.max(bounds.right - bounds.left, 1e-3)
  const heightMm = Math.max(bounds.bottom - bounds.top, 1e-3)
  const wanted = Math.min(65536, Math.max(16, 2 * count))
  const cellMm = Math.max(Math.sqrt((widthMm * heightMm) / wanted), Math.max(widthMm, heightMm) / 1024)
  const columns = Math.floor(widthMm / cellMm) + 1
  const rows = Math.floor(heightMm / cellMm) + 1
  const frame = { left: bounds.left, top: bounds.top, cellMm, columns, rows }
  const starts = new Uint32Array(columns * rows + 1)
  for (let index = 0; index < count; index += 1) {
    const corners = cornersOf(index)
    if (corners !== undefined) coverCells(frame, corners, (cell) => (starts[cell + 1] = (starts[cell + 1] ?? 0) + 1))
  }
  for (let cell = 0; cell < columns * rows; cell += 1) starts[cell + 1] = (starts[cell + 1] ?? 0) + (starts[cell] ?? 0)
  const members = new Uint32Array(starts[columns * rows] ?? 0)
  const next = starts.slice()
  for (let index = 0; index < count; index += 1) {
    const corners = cornersOf(index)
    if (corners === undefined) continue
    coverCells(frame, corners, (cell) => {
      const place = next[cell] ?? 0
      members[place] = index
      next[cell] = place + 1
    })
  }
  return { ...frame, starts, members }
}

type Frame = Pick<CellGrid, "left" | "top" | "cellMm" | "columns" | "rows">

/** Index of the cell at a point, -1 outside the grid. */
export function cellAt({ left, top, cellMm, columns, rows }: Frame, x: number, y: number): number {
  const column = Math.floor((x - left) / cellMm)
  const row = Math.floor((y - top) / cellMm)
  return column < 0 || row < 0 || column >= columns || row >= rows ? -1 : row * columns + column
}

/** Calls `visit` for each cell a convex polygon or segment touches. */
export function coverCells(frame: Frame, corners: Corners, visit: (cell: number) => void): void {
  const { left, top, cellMm, columns, rows } = frame
  const margin = 1e-6 * cellMm
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  let near = Number.POSITIVE_INFINITY
  let far = Number.NEGATIVE_INFINITY
  for (let index = 0; index < corners.length; index += 2) {
    const x = corners[index] ?? 0
    const y = corners[index + 1] ?? 0
    if (x < near) near = x
    if (x > far) far = x
    if (y < low) low = y
    if (y > high) high = y
  }
  const firstRow = Math.max(0, Math.floor((low - margin - top) / cellMm))
  const lastRow = Math.min(rows - 1, Math.floor((high + margin - top) / cellMm))
  const column = Math.floor((near - margin - left) / cellMm)
  if (firstRow === lastRow && column === Math.floor((far + margin - left) / cellMm)) {
    if (column >= 0 && column < columns) visit(firstRow * columns + column)
    return
  }
  for (let row = firstRow; row <= lastRow; row += 1) {
    const bandTop = top + row * cellMm - margin
    const bandBottom = top + (row + 1) * cellMm + margin
    let from = Number.POSITIVE_INFINITY
    let to = Number.NEGATIVE_INFINITY
    for (let index = 0; index < corners.length; index += 2) {
      const follower = index + 2 === corners.length ? 0 : index + 2
      const ax = corners[index] ?? 0
      const ay = corners[index + 1] ?? 0
      const bx = corners[follower] ?? 0
      const by = corners[follower + 1] ?? 0
      if (Math.max(ay, by) < bandTop || Math.min(ay, by) > bandBottom) continue
      const slope = by === ay ? 0 : (bx - ax) / (by - ay)
      const start = ay < bandTop ? ax + slope * (bandTop - ay) : ay > bandBottom ? ax + slope * (bandBottom - ay) : ax
      const end = by < bandTop ? ax + slope * (bandTop - ay) : by > bandBottom ? ax + slope * (bandBottom - ay) : bx
      from = Math.min(from, start, end)
      to = Math.max(to, start, end)
    }
    if (from > to) continue
    const firstColumn = Math.max(0, Math.floor((from - margin - left) / cellMm))
    const lastColumn = Math.min(columns - 1, Math.floor((to + margin - left) / cellMm))
    for (let column = firstColumn; column <= lastColumn; column += 1) visit(row * columns + column)
  }
}
