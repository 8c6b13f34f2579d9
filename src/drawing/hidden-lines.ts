/**
 * Which stretches of the candidate edges are seen. An item buffer only drops edges that are certainly hidden; the
 * rest are split where a contour in front crosses them, and each stretch is tested against the triangles above it.
 * Where samples of one stretch disagree (pieces that pierce each other), the change is found by bisection.
 */
import { buildCellGrid, type CellGrid, cellAt, coverCells } from "./cell-grid.ts"
import type { FlatScene } from "./flatten.ts"
import { boundsOf, depthPlane, type ItemBuffer } from "./item-buffer.ts"

/** A surface hides what lies more than this behind it; touching faces hide nothing. */
const depthEpsMm = 0.05
/** The buffer must be this much nearer before it culls. */
const cullMm = 0.3
const bisectionMm = 1e-3

/** Stretches of edges on paper: x y x y of each, in mm of the thing, and the piece each belongs to. */
export type Segments = { readonly points: readonly number[]; readonly pieces: readonly number[] }
export type TracedLines = { readonly visible: Segments; readonly hidden: Segments }

type Collector = { points: number[]; pieces: number[] }

/**
 * Gives the seen and the hidden stretches of all candidate edges. Every edge that has a length on paper comes back
 * exactly once, whole or in stretches, so seen plus hidden lengths are the total length. `wires` are further lines
 * (x y depth x y depth) that hide nothing, such as paths of insertion; their piece index starts after the pieces.
 */
export function traceLines(scene: FlatScene, buffer: ItemBuffer, wires: readonly Wire[] = []): TracedLines {
  const visible: Collector = { points: [], pieces: [] }
  const hidden: Collector = { points: [], pieces: [] }
  const bounds = boundsOf(scene)
  if (bounds === undefined) return { visible, hidden }
  const nearest = erode(buffer)
  const tester = makeTester(scene, buildTriangleGrid(scene, bounds))
  const crossings = makeCrossings(scene, bounds)
  const trace = (edge: Edge): void => {
    const lengthMm = Math.hypot(edge.bx - edge.ax, edge.by - edge.ay)
    if (lengthMm < 1e-9) return
    if (edge.isBehind || isCulled(buffer, nearest, edge, lengthMm)) push(hidden, edge, 0, 1)
    else splitEdge(edge, lengthMm, crossings(edge), tester, visible, hidden)
  }
  for (let index = 0; index < scene.edgePiece.length; index += 1) trace(edgeOf(scene, index))
  wires.forEach((wire, index) => {
    const [ax, ay, aDepth, bx, by, bDepth] = wire
    const piece = scene.pieceCount + index
    trace({ index: -1, ax, ay, aDepth, bx, by, bDepth, piece, faceOne: -1, faceOther: -1, isBehind: false })
  })
  return { visible, hidden }
}

/** A straight line in view coordinates: x y depth of both ends. */
export type Wire = readonly [number, number, number, number, number, number]

type Edge = {
  readonly index: number
  readonly ax: number
  readonly ay: number
  readonly aDepth: number
  readonly bx: number
  readonly by: number
  readonly bDepth: number
  readonly piece: number
  readonly faceOne: number
  readonly faceOther: number
  readonly isBehind: boolean
}

function edgeOf(scene: FlatScene, index: number): Edge {
  const a = scene.edges[2 * index] ?? 0
  const b = scene.edges[2 * index + 1] ?? 0
  return {
    index,
    ax: scene.x[a] ?? 0,
    ay: scene.y[a] ?? 0,
    aDepth: scene.depth[a] ?? 0,
    bx: scene.x[b] ?? 0,
    by: scene.y[b] ?? 0,
    bDepth: scene.depth[b] ?? 0,
    piece: scene.edgePiece[index] ?? 0,
    faceOne: scene.edgeFaces[2 * index] ?? -1,
    faceOther: scene.edgeFaces[2 * index + 1] ?? -1,
    isBehind: scene.isBehind[index] === 1,
  }
}

function push(target: Collector, edge: Edge, from: number, to: number): void {
  const dx = edge.bx - edge.ax
  const dy = edge.by - edge.ay
  target.points.push(edge.ax + dx * from, edge.ay + dy * from, edge.ax + dx * to, edge.ay + dy * to)
  target.pieces.push(edge.piece)
}

/** Smallest depth in the 3 x 3 pixels round each pixel. */
function erode({ widthPx, heightPx, depth }: ItemBuffer): Float32Array {
  const rows = new Float32Array(depth.length).fill(Number.NEGATIVE_INFINITY)
  for (let pixel = 1; pixel < depth.length - 1; pixel += 1) {
    rows[pixel] = Math.min(depth[pixel - 1] ?? 0, depth[pixel] ?? 0, depth[pixel + 1] ?? 0)
  }
  const least = new Float32Array(depth.length).fill(Number.NEGATIVE_INFINITY)
  for (let pixel = widthPx; pixel < widthPx * (heightPx - 1); pixel += 1) {
    least[pixel] = Math.min(rows[pixel - widthPx] ?? 0, rows[pixel] ?? 0, rows[pixel + widthPx] ?? 0)
  }
  return least
}

/** True when something clearly nearer covers the neighbourhood of every pixel along the edge. */
function isCulled(buffer: ItemBuffer, nearest: Float32Array, edge: Edge, lengthMm: number): boolean {
  const { pxPerMm, leftMm, topMm, widthPx } = buffer
  const stepCount = Math.max(1, Math.ceil(lengthMm * pxPerMm))
  for (let step = 0; step <= stepCount; step += 1) {
    const at = step / stepCount
    const column = Math.floor((edge.ax + (edge.bx - edge.ax) * at - leftMm) * pxPerMm)
    const row = Math.floor((edge.ay + (edge.by - edge.ay) * at - topMm) * pxPerMm)
    const before = nearest[row * widthPx + column] ?? Number.NEGATIVE_INFINITY
    if (!(before > edge.aDepth + (edge.bDepth - edge.aDepth) * at + cullMm)) return false
  }
  return true
}

function buildTriangleGrid(scene: FlatScene, bounds: NonNullable<ReturnType<typeof boundsOf>>): CellGrid {
  const { x, y, triangles, hides } = scene
  return buildCellGrid(bounds, hides.length, (triangle) => {
    if (hides[triangle] !== 1) return undefined
    const a = triangles[3 * triangle] ?? 0
    const b = triangles[3 * triangle + 1] ?? 0
    const c = triangles[3 * triangle + 2] ?? 0
    return [x[a] ?? 0, y[a] ?? 0, x[b] ?? 0, y[b] ?? 0, x[c] ?? 0, y[c] ?? 0]
  })
}

type Tester = (edge: Edge, at: number) => boolean

/** Tells whether the point at fraction `at` of an edge is hidden by a triangle that is not the edge's own. */
function makeTester(scene: FlatScene, grid: CellGrid): Tester {
  const { x, y, depth, triangles } = scene
  const triangleCount = triangles.length / 3
  const planes = new Float64Array(3 * triangleCount)
  const highest = new Float64Array(triangleCount)
  for (let triangle = 0; triangle < triangleCount; triangle += 1) {
    const plane = depthPlane(scene, triangle)
    const a = triangles[3 * triangle] ?? 0
    const b = triangles[3 * triangle + 1] ?? 0
    const c = triangles[3 * triangle + 2] ?? 0
    // A triangle seen from its edge hides nothing.
    highest[triangle] =
      plane === undefined ? Number.NEGATIVE_INFINITY : Math.max(depth[a] ?? 0, depth[b] ?? 0, depth[c] ?? 0)
    if (plane !== undefined) planes.set(plane, 3 * triangle)
  }
  return (edge, at) => {
    const px = edge.ax + (edge.bx - edge.ax) * at
    const py = edge.ay + (edge.by - edge.ay) * at
    const level = edge.aDepth + (edge.bDepth - edge.aDepth) * at + depthEpsMm
    const cell = cellAt(grid, px, py)
    if (cell < 0) return false
    const end = grid.starts[cell + 1] ?? 0
    for (let member = grid.starts[cell] ?? 0; member < end; member += 1) {
      const triangle = grid.members[member] ?? 0
      if ((highest[triangle] ?? 0) <= level || triangle === edge.faceOne || triangle === edge.faceOther) continue
      const before =
        (planes[3 * triangle] ?? 0) * px + (planes[3 * triangle + 1] ?? 0) * py + (planes[3 * triangle + 2] ?? 0)
      if (before <= level) continue
      const a = triangles[3 * triangle] ?? 0
      const b = triangles[3 * triangle + 1] ?? 0
      const c = triangles[3 * triangle + 2] ?? 0
      if (isInside(px, py, x[a] ?? 0, y[a] ?? 0, x[b] ?? 0, y[b] ?? 0, x[c] ?? 0, y[c] ?? 0)) return true
    }
    return false
  }
}

/** Inside or on the border, with a hair of margin, so that nothing leaks between two triangles. */
function isInside(
  px: number,
  py: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
): boolean {
  const one = (bx - ax) * (py - ay) - (by - ay) * (px - ax)
  const two = (cx - bx) * (py - by) - (cy - by) * (px - bx)
  const three = (ax - cx) * (py - cy) - (ay - cy) * (px - cx)
  const margin = 1e-9
  return (one >= -margin && two >= -margin && three >= -margin) || (one <= margin && two <= margin && three <= margin)
}

/** Gives the fractions of an edge at which a contour in front of it crosses it, in order. */
function makeCrossings(scene: FlatScene, bounds: NonNullable<ReturnType<typeof boundsOf>>): (edge: Edge) => number[] {
  const contours: number[] = []
  for (let index = 0; index < scene.isContour.length; index += 1) if (scene.isContour[index] === 1) contours.push(index)
  const contourEdges = contours.map((index) => edgeOf(scene, index))
  const grid = buildCellGrid(bounds, contourEdges.length, (index) => {
    const edge = contourEdges[index]
    return edge === undefined ? undefined : [edge.ax, edge.ay, edge.bx, edge.by]
  })
  const seenBy = new Float64Array(contourEdges.length).fill(-1)
  let round = 0
  return (edge) => {
    round += 1
    const found: number[] = []
    coverCells(grid, [edge.ax, edge.ay, edge.bx, edge.by], (cell) => {
      const end = grid.starts[cell + 1] ?? 0
      for (let member = grid.starts[cell] ?? 0; member < end; member += 1) {
        const index = grid.members[member] ?? 0
        if (seenBy[index] === round) continue
        seenBy[index] = round
        const contour = contourEdges[index]
        if (contour === undefined || contour.index === edge.index) continue
        const at = crossingAt(edge, contour)
        if (at !== undefined) found.push(at)
      }
    })
    return found.sort((one, other) => one - other)
  }
}

/** Fraction of `edge` where `contour` crosses in front of it on paper. */
function crossingAt(edge: Edge, contour: Edge): number | undefined {
  const dx = edge.bx - edge.ax
  const dy = edge.by - edge.ay
  const ex = contour.bx - contour.ax
  const ey = contour.by - contour.ay
  const area = dx * ey - dy * ex
  if (Math.abs(area) < 1e-12) return undefined
  const sx = contour.ax - edge.ax
  const sy = contour.ay - edge.ay
  const at = (sx * ey - sy * ex) / area
  const on = (sx * dy - sy * dx) / area
  if (at <= 0 || at >= 1 || on < -1e-9 || on > 1 + 1e-9) return undefined
  const own = edge.aDepth + (edge.bDepth - edge.aDepth) * at
  const before = contour.aDepth + (contour.bDepth - contour.aDepth) * on
  return before > own ? at : undefined
}

/** Sorts the stretches of one edge into seen and hidden. */
function splitEdge(
  edge: Edge,
  lengthMm: number,
  crossings: readonly number[],
  isHidden: Tester,
  visible: Collector,
  hidden: Collector,
): void {
  const leastAt = 1e-6 / lengthMm
  let start = 0
  let startHidden: boolean | undefined
  const close = (at: number, state: boolean): void => {
    if (startHidden === undefined) startHidden = state
    if (startHidden === state) return
    push(startHidden ? hidden : visible, edge, start, at)
    start = at
    startHidden = state
  }
  let from = 0
  for (const to of [...crossings, 1]) {
    if (to - from < leastAt && to !== 1) continue
    const sampleCount = Math.min(7, Math.max(1, Math.ceil(((to - from) * lengthMm) / 4)))
    let lastAt = from
    let last: boolean | undefined
    for (let sample = 0; sample < sampleCount; sample += 1) {
      const at = from + ((to - from) * (sample + 0.5)) / sampleCount
      const state = isHidden(edge, at)
      close(last === undefined ? from : last === state ? at : bisect(edge, lengthMm, lastAt, at, last, isHidden), state)
      last = state
      lastAt = at
    }
    from = to
  }
  push(startHidden === true ? hidden : visible, edge, start, 1)
}

/** Where the state changes between two samples. */
function bisect(
  edge: Edge,
  lengthMm: number,
  lowAt: number,
  highAt: number,
  lowState: boolean,
  isHidden: Tester,
): number {
  let low = lowAt
  let high = highAt
  while ((high - low) * lengthMm > bisectionMm) {
    const middle = (low + high) / 2
    if (isHidden(edge, middle) === lowState) low = middle
    else high = middle
  }
  return (low + high) / 2
}
