/** From a scene and a view to a drawing on paper: lines, tints, arrows, references, turn cue. */
import { findAnchors } from "./anchors.ts"
import { type PaperArrow, placeArrow } from "./arrows.ts"
import { chainLines } from "./chain-lines.ts"
import { type FlatScene, flattenScene } from "./flatten.ts"
import { makePaperGrid, type PaperGrid, type Placing, takeLine } from "./free-space.ts"
import { type Segments, traceLines, type Wire } from "./hidden-lines.ts"
import { type Box2, boundsOf, fillItemBuffer, type ItemBuffer } from "./item-buffer.ts"
import { drawReferences } from "./label-strokes.ts"
import { makeLineSet } from "./merge-lines.ts"
import { projectDirection, projectPoint, type View } from "./projection.ts"
import { type Candidate, placeReferences } from "./references.ts"
import { groupOf, type StepScene, type Thing, type Turn } from "./things.ts"
import { traceTint } from "./tints.ts"
import { drawTurnCue } from "./triad.ts"
import { placeTurn } from "./turn-arrows.ts"
import type { DrawnReference, Fill, LineRole, Stroke } from "./types.ts"

/** Raster for culling, tints and anchors: about a fifth of a millimetre on paper. */
const longSidePx = 640
/** Paper kept for numbers round the picture. */
const sideMm = 13
const endMm = 2
/** The same above and below when an arrow must find a place. */
const arrowEndMm = 3.5
/** Small things are not blown up further than this. */
const largestScale = 1.6

/** The most paper a figure may take. */
export type Room = { readonly widthMm: number; readonly heightMm: number }

export type Paper = {
  readonly widthMm: number
  readonly heightMm: number
  readonly strokes: readonly Stroke[]
  readonly fills: readonly Fill[]
  readonly references: readonly DrawnReference[]
  /** True when a number found no place. */
  readonly lacksRoom: boolean
}

/** Largest scale at which the scene fits the column with its numbers. */
export function fitScale(scene: StepScene, view: View, room: Room): number {
  const box = sceneBox(scene, flattenScene(scene.things, view, "faces"), view)
  const hasNumbers = scene.wanted.length > 0
  const width = room.widthMm - 2 * (hasNumbers ? sideMm : 1)
  const height = room.heightMm - 2 * (scene.motions.length > 0 ? arrowEndMm : hasNumbers ? endMm : 1)
  return Math.min(largestScale, width / Math.max(1, box.right - box.left), height / Math.max(1, box.bottom - box.top))
}

/** A scene as seen from one side, before it is set on paper. */
export type TracedScene = {
  readonly scene: StepScene
  readonly view: View
  readonly box: Box2
  readonly buffer: ItemBuffer
  readonly visible: Segments
}

/** Finds the lines of a scene that are seen: what costs most, and is the same at every scale. */
export function traceScene(scene: StepScene, view: View): TracedScene {
  const flat = flattenScene(scene.things, view)
  const box = sceneBox(scene, flat, view)
  const buffer = fillItemBuffer(flat, longSidePx)
  const wires = scene.paths.map(({ from, to }): Wire => {
    const [a, b] = [projectPoint(view, from), projectPoint(view, to)]
    return [a.x, a.y, a.depth, b.x, b.y, b.depth]
  })
  return { scene, view, box, buffer, visible: traceLines(flat, buffer, wires).visible }
}

/**
 * Sets a scene on paper within a room. `before` is the view of the drawing before when this one is turned against it.
 * Numbers, arrows and the turn cue stand wherever the paper is free.
 */
export function drawScene(traced: TracedScene, scale: number, room: Room, before: View | undefined): Paper {
  const { scene, view, box, buffer, visible } = traced
  const placing: Placing = { scale, leftMm: box.left, topMm: box.top }
  const strokes = placeLines(visible, scene, placing)
  const fills = scene.things.some(({ role }) => role === "new") ? tintNew(scene.things, buffer, placing) : []
  const grid = makePaperGrid(paperFor(box, scale, room), buffer, placing, (item) => scene.things[item]?.role === "new")
  for (const { points } of strokes) takeLine(grid, points)
  addTurns(scene, buffer, view, placing, grid, strokes)
  addArrows(scene, view, placing, grid, strokes)
  if (before !== undefined) strokes.push(...drawTurnCue(grid, before, view))
  const { references, lacksRoom } = addReferences(scene, buffer, visible, placing, grid, strokes)
  return trim({ strokes, fills, references, lacksRoom })
}

/** Bounds of all things and path lines on paper, in mm of the thing. */
function sceneBox(scene: StepScene, flat: FlatScene, view: View): Box2 {
  const box = boundsOf(flat) ?? { left: 0, top: 0, right: 1, bottom: 1 }
  const ends = scene.paths.flatMap(({ from, to }) => [projectPoint(view, from), projectPoint(view, to)])
  return {
    left: Math.min(box.left, ...ends.map(({ x }) => x)),
    right: Math.max(box.right, ...ends.map(({ x }) => x)),
    top: Math.min(box.top, ...ends.map(({ y }) => y)),
    bottom: Math.max(box.bottom, ...ends.map(({ y }) => y)),
  }
}

/** The largest paper a figure may take, with the picture in its middle; the picture's corner is (0, 0). */
function paperFor(box: Box2, scale: number, room: Room): Box2 {
  const width = (box.right - box.left) * scale
  const height = (box.bottom - box.top) * scale
  const side = Math.max(1, Math.min((room.widthMm - width) / 2 - 1, 40))
  const end = Math.max(1, (room.heightMm - height) / 2 - 1)
  return { left: -side, top: -end, right: width + side, bottom: height + end }
}

/** Scales, merges and chains the seen stretches, thing by thing; new things first, so that shared edges are theirs. */
function placeLines({ points, pieces }: Segments, scene: StepScene, placing: Placing): Stroke[] {
  const byPiece = new Map<number, number[]>()
  pieces.forEach((piece, index) => {
    const list = byPiece.get(piece) ?? []
    if (!byPiece.has(piece)) byPiece.set(piece, list)
    for (let place = 0; place < 4; place += 2) {
      list.push(
        ((points[4 * index + place] ?? 0) - placing.leftMm) * placing.scale,
        ((points[4 * index + place + 1] ?? 0) - placing.topMm) * placing.scale,
      )
    }
  })
  const roleOf = (piece: number): LineRole => scene.things[piece]?.role ?? "path"
  const idOf = (piece: number): string | undefined =>
    scene.things[piece]?.id ?? scene.paths[piece - scene.things.length]?.of
  const rank: Partial<Record<LineRole, number>> = { new: 0, context: 1, host: 2, phantom: 3, path: 4 }
  const order = [...byPiece.keys()].sort(
    (one, other) => (rank[roleOf(one)] ?? 9) - (rank[roleOf(other)] ?? 9) || one - other,
  )
  const drawn = makeLineSet()
  return order.flatMap((piece) => {
    const segments = byPiece.get(piece) ?? []
    const fresh: number[] = []
    for (let index = 0; index < segments.length; index += 4) {
      fresh.push(
        ...drawn.add(
          segments[index] ?? 0,
          segments[index + 1] ?? 0,
          segments[index + 2] ?? 0,
          segments[index + 3] ?? 0,
        ),
      )
    }
    return chainLines(fresh)
      .filter((chain) => chainLengthMm(chain.points) > 0.15)
      .map(
        (chain): Stroke => ({ role: roleOf(piece), points: chain.points, isClosed: chain.isClosed, of: idOf(piece) }),
      )
  })
}

function chainLengthMm(points: readonly number[]): number {
  let sum = 0
  for (let index = 2; index + 1 < points.length; index += 2) {
    sum += Math.hypot(
      (points[index] ?? 0) - (points[index - 2] ?? 0),
      (points[index + 1] ?? 0) - (points[index - 1] ?? 0),
    )
  }
  return sum
}

function tintNew(things: readonly Thing[], buffer: ItemBuffer, placing: Placing): Fill[] {
  const polygon = traceTint(buffer, (item) => things[item]?.role === "new")
  if (polygon === undefined) return []
  const points = polygon.map(
    (value, index) => (value - (index % 2 === 0 ? placing.leftMm : placing.topMm)) * placing.scale,
  )
  return [{ role: "new", points }]
}

function addArrows(scene: StepScene, view: View, placing: Placing, grid: PaperGrid, strokes: Stroke[]): void {
  for (const motion of scene.motions) {
    const start = projectPoint(view, motion.from)
    const [dx, dy] = projectDirection(view, motion.direction)
    const flatLength = Math.hypot(dx, dy)
    if (flatLength < 0.1) continue
    const direction = [dx / flatLength, dy / flatLength] as const
    const x = (start.x - placing.leftMm) * placing.scale
    const y = (start.y - placing.topMm) * placing.scale
    const arrow = placeArrow(
      grid,
      x,
      y,
      direction,
      motion.lengthMm * flatLength * placing.scale,
      motion.behindMm * flatLength * placing.scale,
    )
    pushArrow(arrow, motion.of, grid, strokes)
  }
}

/** One arrow for each joint, at the head round which it covers least of those that are seen. */
function addTurns(
  scene: StepScene,
  buffer: ItemBuffer,
  view: View,
  placing: Placing,
  grid: PaperGrid,
  strokes: Stroke[],
): void {
  if (scene.turns.length === 0) return
  const seen = new Set<string | undefined>()
  for (const item of new Set(buffer.item)) seen.add(scene.things[item]?.id)
  const joints = new Map<string, Turn[]>()
  for (const turn of scene.turns.filter(({ of }) => seen.has(of))) {
    const joint = groupOf(turn.of)
    joints.set(joint, [...(joints.get(joint) ?? []), turn])
  }
  for (const turns of joints.values()) {
    const placed = placeTurn(turns, view, placing, grid)
    if (placed !== undefined) pushArrow(placed.arrow, placed.of, grid, strokes)
  }
}

function pushArrow({ shaft, heads }: PaperArrow, of: string, grid: PaperGrid, strokes: Stroke[]): void {
  strokes.push({ role: "arrow", points: shaft, isClosed: false, of })
  takeLine(grid, shaft)
  for (const points of heads) {
    strokes.push({ role: "arrow", points, isClosed: true, of })
    takeLine(grid, [...points, points[0] ?? 0, points[1] ?? 0])
  }
}

function addReferences(
  scene: StepScene,
  buffer: ItemBuffer,
  visible: Segments,
  placing: Placing,
  grid: PaperGrid,
  strokes: Stroke[],
): { references: readonly DrawnReference[]; lacksRoom: boolean } {
  const anchors = findAnchors(buffer, visible)
  const candidates = scene.wanted.flatMap(({ itemReference, count, of }): Candidate[] => {
    const own = anchors.filter(({ item }) => of.includes(scene.things[item]?.id ?? ""))
    const best = Math.max(0, ...own.map(({ clearMm }) => clearMm))
    const good = own
      .filter(({ clearMm }) => clearMm >= 0.6 * best)
      .map(({ x, y, item, clearMm }) => ({
        x: (x - placing.leftMm) * placing.scale,
        y: (y - placing.topMm) * placing.scale,
        item,
        roomMm: clearMm * placing.scale,
      }))
    return good.length === 0 ? [] : [{ itemReference, count, anchors: good }]
  })
  const placed = placeReferences(candidates, grid)
  if (placed === undefined) return { references: [], lacksRoom: true }
  const drawn = drawReferences(placed, candidates, grid, (item) => scene.things[item]?.id ?? "")
  strokes.push(...drawn.strokes)
  return { references: drawn.references, lacksRoom: false }
}

/** Shifts everything so that the paper ends a millimetre beyond the lines. */
function trim({ strokes, fills, references, lacksRoom }: Omit<Paper, "widthMm" | "heightMm">): Paper {
  let left = Number.POSITIVE_INFINITY
  let top = Number.POSITIVE_INFINITY
  let right = Number.NEGATIVE_INFINITY
  let bottom = Number.NEGATIVE_INFINITY
  for (const { points } of [...strokes, ...fills]) {
    for (let index = 0; index + 1 < points.length; index += 2) {
      left = Math.min(left, points[index] ?? 0)
      right = Math.max(right, points[index] ?? 0)
      top = Math.min(top, points[index + 1] ?? 0)
      bottom = Math.max(bottom, points[index + 1] ?? 0)
    }
  }
  if (left > right) return { widthMm: 1, heightMm: 1, strokes, fills, references, lacksRoom }
  const dx = 1 - left
  const dy = 1 - top
  const move = (points: readonly number[]): readonly number[] =>
    points.map((value, index) => Math.round((value + (index % 2 === 0 ? dx : dy)) * 1000) / 1000)
  return {
    widthMm: Math.round((right - left + 2) * 100) / 100,
    heightMm: Math.round((bottom - top + 2) * 100) / 100,
    strokes: strokes.map((stroke) => ({ ...stroke, points: move(stroke.points) })),
    fills: fills.map((fill) => ({ ...fill, points: move(fill.points) })),
    references: references.map((reference) => ({
      ...reference,
      at: [reference.at[0] + dx, reference.at[1] + dy],
      anchor: [reference.anchor[0] + dx, reference.anchor[1] + dy],
    })),
    lacksRoom,
  }
}
