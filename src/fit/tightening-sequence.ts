/**
 * In which order the screws of a joint are tightened, and in how many passes: crosswise on a ring, from the middle outwards
 * where screws stand at different distances from it. Screws on different faces, or through different copies, are patterns of their own.
 */
import type { BorePoint, Joint } from "../kit/joint-types.ts"
import type { Instance, Kit } from "../kit/types.ts"
import { boundsOf } from "../solids/index.ts"
import type { Pose, Vec3 } from "../solids/types.ts"
import { along, cross, dot, lengthOf, subtract, unit } from "../solids/vectors.ts"
import type { TighteningFace, TighteningSequence } from "./types.ts"

/** Driving directions no further apart than this (cosine of 5 degrees) belong to one face. */
const sameFace = Math.cos((5 * Math.PI) / 180)
/** Distances from the middle that differ by less than this share of the largest are one ring. Rule of thumb, no source. */
const sameRing = 0.15
/** Screws no further than this share of the pattern's length from a straight line stand in a row. Rule of thumb, no source. */
const straight = 0.05
/**
 * From so many screws on a face on, the first ones would lose part of their clamping force while the last ones pull the part
 * down; hence a second pass. ASME PCC-1 takes three (about 30, 70, 100 %) for gaskets, which these joints lack: two of them are
 * common practice, no source.
 */
const leastForPasses = 4

/** Gives the tightening sequence of a joint; undefined when the place of a screw is not known. */
export function computeTighteningSequence(kit: Kit, joint: Joint): TighteningSequence | undefined {
  const { points, count } = joint
  if (points.length !== count || count === 0) return undefined
  const faces = splitFaces(kit, joint).map(({ instance, screws }) => orderFace(points, screws, instance))
  const isMany = faces.some(({ order }) => order.length >= leastForPasses)
  return {
    faces,
    passes: isMany ? 2 : 1,
    firstPass: !isMany ? undefined : joint.bore.kind === "pilot" ? "until-seated" : "half-torque",
  }
}

/**
 * The order of `count` screws round a ring, counted from 0 the way round. Multiples of four go by quarters, other even numbers by
 * opposite pairs, odd ones in steps of nearly half a turn. For 4, 8, 12, 16, 20 and 24 this is the cross pattern of ASME PCC-1
 * (from memory: 1 3 2 4; 1 5 3 7 2 6 4 8; 1 7 4 10 2 8 5 11 3 9 6 12); the rest is common practice, no source.
 */
export function crossOrder(count: number): readonly number[] {
  if (count % 2 === 1) return Array.from({ length: count }, (_, index) => (index * Math.floor(count / 2)) % count)
  if (count % 4 !== 0) return spread(count / 2).flatMap((first) => [first, first + count / 2])
  const quarter = count / 4
  return spread(quarter).flatMap((first) => [first, first + 2 * quarter, first + quarter, first + 3 * quarter])
}

/** 0 ... count - 1 so that neighbours seldom follow each other: 0 1 2; 0 2 1 3; 0 2 4 1 3; 0 3 1 4 2 5. */
function spread(count: number): readonly number[] {
  const all = Array.from({ length: count }, (_, index) => index)
  if (count <= 3) return all
  if (count % 2 === 1) return all.map((index) => (2 * index) % count)
  return all.slice(0, count / 2).flatMap((index) => [index, index + count / 2])
}

type Face = { readonly instance: string | undefined; readonly screws: readonly number[] }

/** Screws that clamp one piece from one side, by their index. */
function splitFaces(kit: Kit, { points, through }: Joint): readonly Face[] {
  const pieces = kit.instances.filter(({ id, of }) => id === through[0] || of === through[0])
  const faces: { instance: string | undefined; along: Vec3; screws: number[] }[] = []
  points.forEach((point, screw) => {
    const instance = pieces.length > 1 ? findNearest(kit, pieces, point.at) : pieces[0]?.id
    const face = faces.find((each) => each.instance === instance && dot(each.along, unit(point.along)) >= sameFace)
    if (face === undefined) faces.push({ instance, along: unit(point.along), screws: [screw] })
    else face.screws.push(screw)
  })
  return faces
}

/** The copy whose bounding box is nearest to a point; the first one without meshes. */
function findNearest(kit: Kit, pieces: readonly Instance[], at: Vec3): string | undefined {
  let best: { readonly id: string; readonly awayMm: number } | undefined
  for (const { id, mesh: key, pose } of pieces) {
    const mesh = key === undefined ? undefined : kit.meshes[key]
    const bounds = mesh === undefined ? undefined : boundsOf(mesh)
    if (bounds === undefined) continue
    const local = asExported(pose, at)
    const outside = ([0, 1, 2] as const).map((axis) =>
      Math.max(bounds.min[axis] - local[axis], local[axis] - bounds.max[axis], 0),
    )
    const awayMm = Math.hypot(...outside)
    if (best === undefined || awayMm < best.awayMm) best = { id, awayMm }
  }
  return best?.id ?? pieces[0]?.id
}

/** Where a place of the assembly lies in the piece as exported: the turn undone, which for a rotation is its transpose. */
function asExported({ rotation: [a, b, c, d, e, f, g, h, i], at }: Pose, place: Vec3): Vec3 {
  const from = subtract(place, at)
  return [dot([a, d, g], from), dot([b, e, h], from), dot([c, f, i], from)]
}

type Flat = { readonly screw: number; readonly x: number; readonly y: number }

function orderFace(
  points: readonly BorePoint[],
  screws: readonly number[],
  instance: string | undefined,
): TighteningFace {
  const [first = 0] = screws
  const direction = unit(points[first]?.along ?? [0, 0, -1])
  const up = uprightOf(direction)
  const right = unit(cross(direction, up))
  const flat = screws.map((screw): Flat => {
    const at = points[screw]?.at ?? [0, 0, 0]
    return { screw, x: dot(right, at), y: -dot(up, at) }
  })
  const middle = middleOf(flat)
  const ordered = orderFlat(flat, middle)
  return {
    instance,
    along: direction,
    right,
    up,
    pattern: ordered.pattern,
    order: ordered.screws.map(({ screw }) => screw),
  }
}

/** What is drawn upright when one looks along a direction: up, or to the back where that is the direction itself. */
function uprightOf(direction: Vec3): Vec3 {
  const wanted: Vec3 = Math.abs(direction[2]) > 0.9 ? [0, 1, 0] : [0, 0, 1]
  return unit(along(wanted, direction, -dot(wanted, direction)))
}

/** Middle of the box round the screws: where a ring has gaps, their mean would lie off it. */
function middleOf(flat: readonly Flat[]): { readonly x: number; readonly y: number } {
  const xs = flat.map(({ x }) => x)
  const ys = flat.map(({ y }) => y)
  return { x: (Math.min(...xs) + Math.max(...xs)) / 2, y: (Math.min(...ys) + Math.max(...ys)) / 2 }
}

function orderFlat(
  flat: readonly Flat[],
  middle: { readonly x: number; readonly y: number },
): { readonly pattern: TighteningFace["pattern"]; readonly screws: readonly Flat[] } {
  const isRow = flat.length >= 3 && isStraight(flat)
  if (flat.length < 4 && !isRow) return { pattern: "plain", screws: sortRound(flat, middle) }
  const rings = splitRings(flat, middle)
  const screws = rings.flatMap((ring) => {
    const round = sortRound(ring, middle)
    return crossOrder(round.length).flatMap((index) => round[index] ?? [])
  })
  return { pattern: isRow ? "row" : rings.length === 1 ? "cross" : "outwards", screws }
}

function isStraight(flat: readonly Flat[]): boolean {
  const [first] = flat
  if (first === undefined) return false
  const last = flat.reduce((best, one) => (away(first, one) > away(first, best) ? one : best), first)
  const lengthMm = away(first, last)
  const offMm = ({ x, y }: Flat): number =>
    Math.abs((last.x - first.x) * (y - first.y) - (last.y - first.y) * (x - first.x)) / Math.max(lengthMm, 1e-9)
  return flat.every((one) => offMm(one) <= straight * lengthMm)
}

/** Screws by their distance from the middle, the nearest first. */
function splitRings(
  flat: readonly Flat[],
  middle: { readonly x: number; readonly y: number },
): readonly (readonly Flat[])[] {
  const sorted = [...flat].sort((one, other) => away(middle, one) - away(middle, other) || one.screw - other.screw)
  const largest = away(middle, sorted.at(-1) ?? middle)
  const rings: Flat[][] = []
  sorted.forEach((one, index) => {
    const before = sorted[index - 1]
    const isNew = before === undefined || away(middle, one) - away(middle, before) > sameRing * largest
    if (isNew) rings.push([one])
    else rings.at(-1)?.push(one)
  })
  return rings
}

/** Clockwise as the person with the driver sees it, from the left, so that of four corners the upper left one is the first. */
function sortRound(flat: readonly Flat[], middle: { readonly x: number; readonly y: number }): readonly Flat[] {
  const halfOf = (values: readonly number[]): number => Math.max(...values.map(Math.abs)) || 1
  const half = { x: halfOf(flat.map(({ x }) => x - middle.x)), y: halfOf(flat.map(({ y }) => y - middle.y)) }
  const angleOf = ({ x, y }: Flat): number => {
    // Angles grow clockwise since y goes down, from 0 at the left. A screw just before it by rounding begins the round, too.
    const turned = Math.atan2((y - middle.y) / half.y, (x - middle.x) / half.x) + Math.PI + 1e-6
    return turned % (2 * Math.PI)
  }
  return [...flat].sort((one, other) => angleOf(one) - angleOf(other) || one.screw - other.screw)
}

function away(
  from: { readonly x: number; readonly y: number },
  to: { readonly x: number; readonly y: number },
): number {
  return lengthOf(subtract([to.x, to.y, 0], [from.x, from.y, 0]))
}
