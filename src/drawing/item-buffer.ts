/**
 * A raster of which piece is seen at each pixel and how near it is. Used to cull what is certainly hidden, to choose
 * views, for tints, anchors and free space; it never decides by itself whether a line is seen.
 */
import type { FlatScene } from "./flatten.ts"

export type ItemBuffer = {
  readonly widthPx: number
  readonly heightPx: number
  readonly pxPerMm: number
  /** Paper coordinates (mm of the thing) of the corner of pixel (0, 0). */
  readonly leftMm: number
  readonly topMm: number
  /** Nearest depth at the pixel's centre; -Infinity where nothing is. */
  readonly depth: Float32Array
  /** Index of the nearest piece, -1 where nothing is. */
  readonly item: Int32Array
}

export type Box2 = { readonly left: number; readonly top: number; readonly right: number; readonly bottom: number }

/** Bounds of all vertices on paper; undefined for an empty scene. */
export function boundsOf({ x, y }: { readonly x: Float64Array; readonly y: Float64Array }): Box2 | undefined {
  if (x.length === 0) return undefined
  let left = Number.POSITIVE_INFINITY
  let right = Number.NEGATIVE_INFINITY
  let top = Number.POSITIVE_INFINITY
  let bottom = Number.NEGATIVE_INFINITY
  for (let vertex = 0; vertex < x.length; vertex += 1) {
    const px = x[vertex] ?? 0
    const py = y[vertex] ?? 0
    if (px < left) left = px
    if (px > right) right = px
    if (py < top) top = py
    if (py > bottom) bottom = py
  }
  return { left, top, right, bottom }
}

/** Draws all triangles that can hide something; the longer side of the scene gets `longSidePx` pixels. */
export function fillItemBuffer(scene: FlatScene, longSidePx: number): ItemBuffer {
  const bounds = boundsOf(scene) ?? { left: 0, top: 0, right: 1, bottom: 1 }
  const longSideMm = Math.max(bounds.right - bounds.left, bounds.bottom - bounds.top, 1e-6)
  const pxPerMm = longSidePx / longSideMm
  const widthPx = Math.ceil((bounds.right - bounds.left) * pxPerMm) + 4
  const heightPx = Math.ceil((bounds.bottom - bounds.top) * pxPerMm) + 4
  const buffer: ItemBuffer = {
    widthPx,
    heightPx,
    pxPerMm,
    leftMm: bounds.left - 2 / pxPerMm,
    topMm: bounds.top - 2 / pxPerMm,
    depth: new Float32Array(widthPx * heightPx).fill(Number.NEGATIVE_INFINITY),
    item: new Int32Array(widthPx * heightPx).fill(-1),
  }
  for (let triangle = 0; triangle < scene.hides.length; triangle += 1) {
    if (scene.hides[triangle] === 1) fillTriangle(scene, triangle, buffer)
  }
  return buffer
}

/**
 * Pixels of each piece that are seen, and pixels it would show if nothing stood before it. The latter are counted only for
 * those of `isCounted`, by piece.
 */
export function countPixels(
  scene: FlatScene,
  buffer: ItemBuffer,
  isCounted: readonly boolean[],
): { visible: Float64Array; whole: Float64Array } {
  const visible = new Float64Array(scene.pieceCount)
  for (const item of buffer.item) if (item >= 0) visible[item] = (visible[item] ?? 0) + 1
  const whole = new Float64Array(scene.pieceCount)
  const stamp = new Int32Array(buffer.item.length).fill(-1)
  // Triangles of a piece stand together, so that one stamp a pixel is enough to count it once.
  for (let triangle = 0; triangle < scene.hides.length; triangle += 1) {
    if (scene.hides[triangle] !== 1) continue
    const piece = scene.trianglePiece[triangle] ?? 0
    if (isCounted[piece] !== true) continue
    spanTriangle(scene, triangle, buffer, (row, from, to) => {
      for (let pixel = row * buffer.widthPx + from; pixel <= row * buffer.widthPx + to; pixel += 1) {
        if (stamp[pixel] === piece) continue
        stamp[pixel] = piece
        whole[piece] = (whole[piece] ?? 0) + 1
      }
    })
  }
  return { visible, whole }
}

function fillTriangle(scene: FlatScene, triangle: number, buffer: ItemBuffer): void {
  const { widthPx, pxPerMm, leftMm, topMm, depth, item } = buffer
  const plane = depthPlane(scene, triangle)
  if (plane === undefined) return
  const [slopeX, slopeY, base] = plane
  const piece = scene.trianglePiece[triangle] ?? 0
  const stepX = slopeX / pxPerMm
  spanTriangle(scene, triangle, buffer, (row, from, to) => {
    let value = base + slopeX * (leftMm + (from + 0.5) / pxPerMm) + slopeY * (topMm + (row + 0.5) / pxPerMm)
    const end = row * widthPx + to
    for (let pixel = row * widthPx + from; pixel <= end; pixel += 1) {
      if (value > (depth[pixel] ?? 0)) {
        depth[pixel] = value
        item[pixel] = piece
      }
      value += stepX
    }
  })
}

/** Depth as a linear function of x and y; undefined for a triangle seen from its edge. */
export function depthPlane(
  { x, y, depth, triangles }: FlatScene,
  triangle: number,
): readonly [number, number, number] | undefined {
  const a = triangles[3 * triangle] ?? 0
  const b = triangles[3 * triangle + 1] ?? 0
  const c = triangles[3 * triangle + 2] ?? 0
  const ux = (x[b] ?? 0) - (x[a] ?? 0)
  const uy = (y[b] ?? 0) - (y[a] ?? 0)
  const vx = (x[c] ?? 0) - (x[a] ?? 0)
  const vy = (y[c] ?? 0) - (y[a] ?? 0)
  const area = ux * vy - uy * vx
  if (Math.abs(area) < 1e-9) return undefined
  const ud = (depth[b] ?? 0) - (depth[a] ?? 0)
  const vd = (depth[c] ?? 0) - (depth[a] ?? 0)
  const slopeX = (ud * vy - vd * uy) / area
  const slopeY = (vd * ux - ud * vx) / area
  return [slopeX, slopeY, (depth[a] ?? 0) - slopeX * (x[a] ?? 0) - slopeY * (y[a] ?? 0)]
}

/** Calls `span` with the first and last pixel of each row whose centres lie in the triangle. */
function spanTriangle(
  { x, y, triangles }: FlatScene,
  triangle: number,
  { widthPx, heightPx, pxPerMm, leftMm, topMm }: ItemBuffer,
  span: (row: number, from: number, to: number) => void,
): void {
  const a = triangles[3 * triangle] ?? 0
  const b = triangles[3 * triangle + 1] ?? 0
  const c = triangles[3 * triangle + 2] ?? 0
  const ax = ((x[a] ?? 0) - leftMm) * pxPerMm - 0.5
  const ay = ((y[a] ?? 0) - topMm) * pxPerMm - 0.5
  const bx = ((x[b] ?? 0) - leftMm) * pxPerMm - 0.5
  const by = ((y[b] ?? 0) - topMm) * pxPerMm - 0.5
  const cx = ((x[c] ?? 0) - leftMm) * pxPerMm - 0.5
  const cy = ((y[c] ?? 0) - topMm) * pxPerMm - 0.5
  const firstRow = Math.max(0, Math.ceil(Math.min(ay, by, cy)))
  const lastRow = Math.min(heightPx - 1, Math.floor(Math.max(ay, by, cy)))
  // Most triangles of a fine mesh cover the centre of no pixel.
  if (firstRow > lastRow || Math.ceil(Math.min(ax, bx, cx)) > Math.floor(Math.max(ax, bx, cx))) return
  for (let row = firstRow; row <= lastRow; row += 1) {
    let low = Number.POSITIVE_INFINITY
    let high = Number.NEGATIVE_INFINITY
    if (ay <= row !== by <= row) {
      const at = ax + ((bx - ax) * (row - ay)) / (by - ay)
      if (at < low) low = at
      if (at > high) high = at
    }
    if (by <= row !== cy <= row) {
      const at = bx + ((cx - bx) * (row - by)) / (cy - by)
      if (at < low) low = at
      if (at > high) high = at
    }
    if (cy <= row !== ay <= row) {
      const at = cx + ((ax - cx) * (row - cy)) / (ay - cy)
      if (at < low) low = at
      if (at > high) high = at
    }
    const from = Math.max(0, Math.ceil(low))
    const to = Math.min(widthPx - 1, Math.floor(high))
    if (from <= to) span(row, from, to)
  }
}
