/** Outlines of what is seen of a thing, as tint polygons under the lines. */
import { straighten } from "./chain-lines.ts"
import type { ItemBuffer } from "./item-buffer.ts"

/**
 * Traces the border of the pixels for which `isWanted` holds, in mm of the thing. All loops are joined to one polygon by
 * bridges of no width, so that holes stay open under the even-odd rule; undefined when nothing is seen.
 */
export function traceTint(buffer: ItemBuffer, isWanted: (item: number) => boolean): readonly number[] | undefined {
  const { widthPx, heightPx, pxPerMm, leftMm, topMm, item } = buffer
  const isInside = new Uint8Array(item.length)
  for (let pixel = 0; pixel < item.length; pixel += 1) {
    const seen = item[pixel] ?? -1
    if (seen >= 0 && isWanted(seen)) isInside[pixel] = 1
  }
  // Nothing touches the border of the buffer, so a neighbour's index never leaves it.
  const isIn = (column: number, row: number): boolean => isInside[row * widthPx + column] === 1
  // Border pieces run with the inside on their right; keyed by the corner they start at.
  const corners = widthPx + 1
  const starts = new Map<number, number[]>()
  const addPiece = (fromColumn: number, fromRow: number, toColumn: number, toRow: number): void => {
    const from = fromRow * corners + fromColumn
    const list = starts.get(from)
    const to = toRow * corners + toColumn
    if (list === undefined) starts.set(from, [to])
    else list.push(to)
  }
  for (let row = 0; row < heightPx; row += 1) {
    for (let column = 0; column < widthPx; column += 1) {
      if (isInside[row * widthPx + column] === 0) continue
      if (!isIn(column, row - 1)) addPiece(column, row, column + 1, row)
      if (!isIn(column + 1, row)) addPiece(column + 1, row, column + 1, row + 1)
      if (!isIn(column, row + 1)) addPiece(column + 1, row + 1, column, row + 1)
      if (!isIn(column - 1, row)) addPiece(column, row + 1, column, row)
    }
  }
  const polygon: number[] = []
  for (const [start] of starts) {
    while ((starts.get(start)?.length ?? 0) > 0) {
      const loop = walkLoop(starts, start, corners)
      if (loop.length < 16) continue
      const smooth = straighten(loop, true, 0.75)
      if (smooth.length < 6) continue
      const placed = smooth.map((value, index) => (index % 2 === 0 ? leftMm : topMm) + value / pxPerMm)
      const [homeX, homeY] = [polygon[0], polygon[1]]
      polygon.push(...placed, placed[0] ?? 0, placed[1] ?? 0)
      if (homeX !== undefined && homeY !== undefined) polygon.push(homeX, homeY)
    }
  }
  return polygon.length === 0 ? undefined : polygon
}

function walkLoop(starts: Map<number, number[]>, start: number, corners: number): readonly number[] {
  const points: number[] = []
  let at = start
  do {
    points.push(at % corners, Math.floor(at / corners))
    const next = starts.get(at)?.pop()
    if (next === undefined) break
    at = next
  } while (at !== start)
  return points
}
