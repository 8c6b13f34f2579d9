/** What is already covered on paper, in cells, with quick counts over boxes. */
import type { ItemBuffer } from "./item-buffer.ts"

/** How the thing's mm land on paper. */
export type Placing = { readonly scale: number; readonly leftMm: number; readonly topMm: number }

export type PaperGrid = {
  readonly cellMm: number
  readonly columns: number
  readonly rows: number
  readonly leftMm: number
  readonly topMm: number
  /** Thing seen at a cell, -1 for none. */
  readonly item: Int32Array
  /** 1 where a thing, a line or an arrow is. */
  readonly isTaken: Uint8Array
  /** How much a cell is worth keeping clear: 0 free, 1 a face of something already there, 4 a new thing or a line. */
  readonly weight: Uint8Array
}

/** Paper of a given box in cells of half a millimetre, filled from the item buffer. */
export function makePaperGrid(
  box: { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number },
  buffer: ItemBuffer,
  placing: Placing,
  isNew: (item: number) => boolean,
): PaperGrid {
  const cellMm = 0.5
  const columns = Math.ceil((box.right - box.left) / cellMm)
  const rows = Math.ceil((box.bottom - box.top) / cellMm)
  const item = new Int32Array(columns * rows).fill(-1)
  const isTaken = new Uint8Array(columns * rows)
  const weight = new Uint8Array(columns * rows)
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const x = (box.left + (column + 0.5) * cellMm) / placing.scale + placing.leftMm
      const y = (box.top + (row + 0.5) * cellMm) / placing.scale + placing.topMm
      const px = Math.floor((x - buffer.leftMm) * buffer.pxPerMm)
      const py = Math.floor((y - buffer.topMm) * buffer.pxPerMm)
      if (px < 0 || py < 0 || px >= buffer.widthPx || py >= buffer.heightPx) continue
      const seen = buffer.item[py * buffer.widthPx + px] ?? -1
      item[row * columns + column] = seen
      if (seen < 0) continue
      isTaken[row * columns + column] = 1
      weight[row * columns + column] = isNew(seen) ? 4 : 1
    }
  }
  return { cellMm, columns, rows, leftMm: box.left, topMm: box.top, item, isTaken, weight }
}

/** Cell at a point, -1 outside. */
export function paperCell({ cellMm, columns, rows, leftMm, topMm }: PaperGrid, x: number, y: number): number {
  const column = Math.floor((x - leftMm) / cellMm)
  const row = Math.floor((y - topMm) / cellMm)
  return column < 0 || row < 0 || column >= columns || row >= rows ? -1 : row * columns + column
}

/** Marks a polyline as taken. */
export function takeLine(grid: PaperGrid, points: readonly number[]): void {
  for (let index = 0; index + 3 < points.length; index += 2) {
    walkLine(
      grid,
      points[index] ?? 0,
      points[index + 1] ?? 0,
      points[index + 2] ?? 0,
      points[index + 3] ?? 0,
      (cell) => {
        grid.isTaken[cell] = 1
        grid.weight[cell] = 4
      },
    )
  }
}

/** Visits the cells along a line, each at least once. */
export function walkLine(
  grid: PaperGrid,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  visit: (cell: number) => void,
): void {
  const stepCount = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / (grid.cellMm * 0.7)))
  for (let step = 0; step <= stepCount; step += 1) {
    const cell = paperCell(grid, ax + ((bx - ax) * step) / stepCount, ay + ((by - ay) * step) / stepCount)
    if (cell >= 0) visit(cell)
  }
}

/** Gives a function that counts taken cells in a box in constant time; cells outside the grid are free. */
export function countTaken(grid: PaperGrid): (left: number, top: number, right: number, bottom: number) => number {
  const { columns, rows, cellMm } = grid
  const sums = new Uint32Array((columns + 1) * (rows + 1))
  for (let row = 0; row < rows; row += 1) {
    let line = 0
    for (let column = 0; column < columns; column += 1) {
      line += grid.isTaken[row * columns + column] ?? 0
      sums[(row + 1) * (columns + 1) + column + 1] = line + (sums[row * (columns + 1) + column + 1] ?? 0)
    }
  }
  const clamp = (value: number, limit: number): number => Math.min(limit, Math.max(0, value))
  return (left, top, right, bottom) => {
    const a = clamp(Math.floor((left - grid.leftMm) / cellMm), columns)
    const b = clamp(Math.ceil((right - grid.leftMm) / cellMm), columns)
    const c = clamp(Math.floor((top - grid.topMm) / cellMm), rows)
    const d = clamp(Math.ceil((bottom - grid.topMm) / cellMm), rows)
    const at = (row: number, column: number): number => sums[row * (columns + 1) + column] ?? 0
    return at(d, b) - at(c, b) - at(d, a) + at(c, a)
  }
}
