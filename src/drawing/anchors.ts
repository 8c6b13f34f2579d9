/** Where leaders may end on a thing: in the middle of faces that are seen, away from lines. */

import type { Segments } from "./hidden-lines.ts"
import type { ItemBuffer } from "./item-buffer.ts"

export type Anchor = {
  readonly item: number
  /** In mm of the thing. */
  readonly x: number
  readonly y: number
  /** Distance to the nearest line or border, in mm of the thing. */
  readonly clearMm: number
}

/** Anchors are looked for in squares of this size, so that a long thing has several. */
const squarePx = 80
/** An anchor is as clear as this share of the clearest one of its item, or left out. */
const leastShare = 0.7

/** Gives some anchors for each item that is seen at all, far apart and away from lines. */
export function findAnchors(buffer: ItemBuffer, lines: Segments): readonly Anchor[] {
  const { widthPx, heightPx, pxPerMm, leftMm, topMm, item } = buffer
  const away = distanceToLines(buffer, lines)
  const squares = Math.ceil(widthPx / squarePx) * Math.ceil(heightPx / squarePx)
  const best = new Map<number, { owner: number; pixel: number; value: number }>()
  const clearest = new Map<number, number>()
  for (let pixel = 0; pixel < widthPx * heightPx; pixel += 1) {
    const owner = item[pixel] ?? -1
    const value = away[pixel] ?? 0
    if (owner < 0 || value === 0) continue
    const square = Math.floor(Math.floor(pixel / widthPx) / squarePx) * Math.ceil(widthPx / squarePx)
    const key = owner * squares + square + Math.floor((pixel % widthPx) / squarePx)
    const known = best.get(key)
    if (known === undefined || value > known.value) best.set(key, { owner, pixel, value })
    if (value > (clearest.get(owner) ?? 0)) clearest.set(owner, value)
  }
  return [...best.values()]
    .filter(({ owner, value }) => value >= leastShare * (clearest.get(owner) ?? 0))
    .map(({ owner, pixel, value }) => ({
      item: owner,
      x: leftMm + ((pixel % widthPx) + 0.5) / pxPerMm,
      y: topMm + (Math.floor(pixel / widthPx) + 0.5) / pxPerMm,
      clearMm: value / pxPerMm,
    }))
}

/** Distance in pixels to the nearest line or border between two items (chamfer 3-4, Borgefors 1986). */
function distanceToLines(buffer: ItemBuffer, lines: Segments): Float32Array {
  const { widthPx, heightPx, item } = buffer
  const away = new Float32Array(widthPx * heightPx).fill(1e6)
  for (let pixel = 0; pixel < away.length; pixel += 1) {
    const own = item[pixel]
    if (own !== item[pixel + 1] || own !== item[pixel + widthPx]) away[pixel] = 0
  }
  drawBarriers(buffer, lines, away)
  const diagonal = 4 / 3
  for (let row = 1; row < heightPx - 1; row += 1) {
    for (let pixel = row * widthPx + 1; pixel < (row + 1) * widthPx - 1; pixel += 1) {
      away[pixel] = Math.min(
        away[pixel] ?? 0,
        (away[pixel - 1] ?? 0) + 1,
        (away[pixel - widthPx] ?? 0) + 1,
        (away[pixel - widthPx - 1] ?? 0) + diagonal,
        (away[pixel - widthPx + 1] ?? 0) + diagonal,
      )
    }
  }
  for (let row = heightPx - 2; row > 0; row -= 1) {
    for (let pixel = (row + 1) * widthPx - 2; pixel > row * widthPx; pixel -= 1) {
      away[pixel] = Math.min(
        away[pixel] ?? 0,
        (away[pixel + 1] ?? 0) + 1,
        (away[pixel + widthPx] ?? 0) + 1,
        (away[pixel + widthPx + 1] ?? 0) + diagonal,
        (away[pixel + widthPx - 1] ?? 0) + diagonal,
      )
    }
  }
  return away
}

function drawBarriers(
  { widthPx, heightPx, pxPerMm, leftMm, topMm }: ItemBuffer,
  { points }: Segments,
  away: Float32Array,
): void {
  for (let index = 0; index < points.length; index += 4) {
    const ax = ((points[index] ?? 0) - leftMm) * pxPerMm
    const ay = ((points[index + 1] ?? 0) - topMm) * pxPerMm
    const bx = ((points[index + 2] ?? 0) - leftMm) * pxPerMm
    const by = ((points[index + 3] ?? 0) - topMm) * pxPerMm
    const stepCount = Math.max(1, Math.ceil(Math.max(Math.abs(bx - ax), Math.abs(by - ay))))
    for (let step = 0; step <= stepCount; step += 1) {
      const column = Math.floor(ax + ((bx - ax) * step) / stepCount)
      const row = Math.floor(ay + ((by - ay) * step) / stepCount)
      if (column >= 0 && row >= 0 && column < widthPx && row < heightPx) away[row * widthPx + column] = 0
    }
  }
}
