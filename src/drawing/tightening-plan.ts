/**
 * The face of a joint as the person with the driver sees it: outline of the clamped piece, and in the place of each screw a ring
 * with its number in the order of tightening.
 */
import type { Fit, TighteningFace } from "../fit/types.ts"
import type { Joint } from "../kit/joint-types.ts"
import type { Kit } from "../kit/types.ts"
import { dot, scale as stretch } from "../solids/vectors.ts"
import { chainLines } from "./chain-lines.ts"
import { clipOutside, type Disc } from "./clip-outside.ts"
import { flattenScene } from "./flatten.ts"
import { measureLettering, strokeLettering } from "./glyphs.ts"
import { traceLines } from "./hidden-lines.ts"
import { fillItemBuffer } from "./item-buffer.ts"
import { makeLineSet } from "./merge-lines.ts"
import type { View } from "./projection.ts"
import type { SolidStore } from "./solid-store.ts"
import type { Drawing, Stroke } from "./types.ts"

type Pattern = Pick<Joint, "id" | "points">

/** Fewer screws than this need no picture. */
const leastScrews = 4
/** Usual size on paper, and the largest where screws stand close together. */
const usualMm = { width: 46, height: 28 }
const largestMm = { width: 90, height: 50 }
/** ISO 3098-1: smallest lettering 2.5 mm; the ring leaves room for two digits. */
const digitMm = 2.5
const ringMm = 2.4
const clearMm = 0.5
const marginMm = 0.5
const bufferPx = 500

/** Plans of each joint, also of a unit's own, with a face of four screws or more, by its id; one for each such face. */
export function drawTighteningPlans(
  kit: Kit,
  { joints, ownJoints }: Pick<Fit, "joints" | "ownJoints">,
  store: SolidStore,
): Readonly<Record<string, readonly Drawing[]>> {
  const plans: Record<string, readonly Drawing[]> = {}
  const known: readonly Pattern[] = [...kit.joints, ...kit.ownJoints]
  const fits = [
    ...joints.map(({ joint, tightening }) => ({ id: joint, tightening })),
    ...ownJoints.map(({ ownJoint, tightening }) => ({ id: ownJoint, tightening })),
  ]
  for (const { id, tightening } of fits) {
    const joint = known.find((each) => each.id === id)
    const faces = (tightening?.faces ?? []).filter(({ order }) => order.length >= leastScrews)
    if (joint === undefined || faces.length === 0) continue
    const drawn = faces.flatMap((face, index) => drawFace(kit, joint, face, `plan-${id}-${index + 1}`, store) ?? [])
    if (drawn.length > 0) plans[id] = drawn
  }
  return plans
}

/** One face; undefined when its screws stand too close together for their numbers. */
function drawFace(kit: Kit, joint: Pattern, face: TighteningFace, id: string, store: SolidStore): Drawing | undefined {
  const view: View = { name: "plan", from: stretch(face.along, -1), right: face.right, up: face.up }
  const screws = face.order.map((screw) => {
    const at = joint.points[screw]?.at ?? [0, 0, 0]
    return { x: dot(face.right, at), y: -dot(face.up, at) }
  })
  const lines = traceOutline(kit, face, view, store)
  const xs = [...screws.map(({ x }) => x), ...lines.filter((_, index) => index % 2 === 0)]
  const ys = [...screws.map(({ y }) => y), ...lines.filter((_, index) => index % 2 === 1)]
  const [left, top] = [Math.min(...xs), Math.min(...ys)]
  const [wide, high] = [Math.max(...xs) - left, Math.max(...ys) - top]
  const scale = chooseScale(wide, high, nearestMm(screws))
  if (scale === undefined) return undefined
  const edge = ringMm + marginMm
  const put = (x: number, y: number): readonly [number, number] => [(x - left) * scale + edge, (y - top) * scale + edge]
  const discs = screws.map(({ x, y }): Disc => {
    const [atX, atY] = put(x, y)
    return { x: atX, y: atY, radiusMm: ringMm }
  })
  const onPaper = lines.map((value, index) => (index % 2 === 0 ? put(value, 0)[0] : put(0, value)[1]))
  const free = clipOutside(
    onPaper,
    discs.map((disc) => ({ ...disc, radiusMm: ringMm + clearMm })),
  )
  return {
    id,
    step: undefined,
    widthMm: round(wide * scale + 2 * edge),
    heightMm: round(high * scale + 2 * edge),
    strokes: [
      ...chainLines(free).map(
        ({ points, isClosed }): Stroke => ({ role: "context", points, isClosed, of: face.instance }),
      ),
      ...discs.flatMap((disc, index) => drawScrew(disc, String(index + 1), `screw:${joint.id}.${index + 1}`)),
    ],
    fills: [],
    references: [],
    view: { name: view.name, from: view.from, up: view.up, isTurned: false },
    scale,
    shows: {
      placed: [],
      fastened: [{ joint: joint.id, count: face.order.length }],
      context: face.instance === undefined ? [] : [face.instance],
      exploded: false,
    },
  }
}

/** Visible edges of the clamped piece as x y x y of each stretch, in mm of the thing; none without a mesh. */
function traceOutline(kit: Kit, face: TighteningFace, view: View, store: SolidStore): readonly number[] {
  const piece = kit.instances.find(({ id }) => id === face.instance)
  const mesh = piece?.mesh === undefined ? undefined : kit.meshes[piece.mesh]
  if (piece?.mesh === undefined || mesh === undefined) return []
  const flat = flattenScene(
    [{ id: piece.id, mesh: store.get(`mesh ${piece.mesh}`, () => mesh), pose: piece.pose }],
    view,
  )
  const { visible } = traceLines(flat, fillItemBuffer(flat, bufferPx))
  const set = makeLineSet()
  const fresh: number[] = []
  for (let index = 0; index < visible.points.length; index += 4) {
    const [ax = 0, ay = 0, bx = 0, by = 0] = visible.points.slice(index, index + 4)
    fresh.push(...set.add(ax, ay, bx, by))
  }
  return fresh
}

/** The usual size, or as much larger as the numbers need; undefined when that is too large. */
function chooseScale(wideMm: number, highMm: number, nearest: number): number | undefined {
  const fitIn = (room: { readonly width: number; readonly height: number }): number =>
    Math.min((room.width - 2 * ringMm) / Math.max(wideMm, 1), (room.height - 2 * ringMm) / Math.max(highMm, 1))
  const needed = (2 * ringMm + 2 * clearMm) / nearest
  const scale = Math.max(Math.min(fitIn(usualMm), 1), needed)
  return scale <= Math.max(fitIn(largestMm), Math.min(fitIn(usualMm), 1)) ? scale : undefined
}

/** Distance of the two screws that are nearest to each other. */
function nearestMm(screws: readonly { readonly x: number; readonly y: number }[]): number {
  let least = Infinity
  screws.forEach((one, index) => {
    for (const other of screws.slice(index + 1)) least = Math.min(least, Math.hypot(one.x - other.x, one.y - other.y))
  })
  return Math.max(least, 1e-3)
}

function drawScrew({ x, y, radiusMm }: Disc, number: string, of: string): readonly Stroke[] {
  const steps = 32
  const ring = Array.from({ length: steps }, (_, step) => {
    const angle = (2 * Math.PI * step) / steps
    return [x + radiusMm * Math.cos(angle), y + radiusMm * Math.sin(angle)]
  }).flat()
  const left = x - measureLettering(number, digitMm) / 2
  return [
    { role: "new", points: ring, isClosed: true, of },
    ...strokeLettering(number, digitMm, left, y + digitMm / 2).map(
      (points): Stroke => ({ role: "triad", points, isClosed: false, of }),
    ),
  ]
}

function round(value: number): number {
  return Math.round(value * 100) / 100
}
