/**
 * What lies round the axis of a screw: rays along the axis, on rings round it, through one piece in its place. Distances
 * along the axis count from the point, forward in the driving direction. All in mm.
 */
import type { BorePoint } from "../kit/joint-types.ts"
import type { Instance, Kit } from "../kit/types.ts"
import { cornersOf, hitsOfRay, turnDirection } from "../solids/index.ts"
import type { Mesh, Pose, Vec3 } from "../solids/types.ts"
import { along, crossDirections, dot, subtract } from "../solids/vectors.ts"

/** Rays on one ring. */
export const rayCount = 12

/** Material on one ray, from where it begins to where it ends. */
export type Layer = { readonly fromMm: number; readonly toMm: number }

/** The axis in the coordinates of one piece, with the triangles that lie near it; kept between the questions. */
export type AxisInPiece = { readonly mesh: Mesh; readonly at: Vec3; readonly along: Vec3; readonly backMm: number }

/** Sees the axis from one piece; undefined without a mesh, or when all of the mesh lies further than `nearMm` from it. */
export function seeAxis(kit: Kit, instance: Instance, point: BorePoint, nearMm: number): AxisInPiece | undefined {
  const mesh = instance.mesh === undefined ? undefined : kit.meshes[instance.mesh]
  if (mesh === undefined) return undefined
  const at = turnBack(instance.pose, subtract(point.at, instance.pose.at))
  const axis = turnBack(instance.pose, point.along)
  const near = trianglesNear(mesh, at, axis, nearMm)
  return near === undefined ? undefined : { ...near, at, along: axis }
}

/** Layers of the piece on each ray of a ring; a ray that meets nothing has none. */
export function layersOnRing(axis: AxisInPiece, ringMm: number): readonly (readonly Layer[])[] {
  const [sideways, upward] = crossDirections(axis.along)
  return Array.from({ length: rayCount }, (_, index) => {
    // Part of a step off, so that rays do not run along the seams of facets that start at angle 0.
    const angle = (2 * Math.PI * (index + 0.37)) / rayCount
    const onRing = along(along(axis.at, sideways, ringMm * Math.cos(angle)), upward, ringMm * Math.sin(angle))
    return layersOnRay(axis, onRing)
  })
}

/** Half the width of what is free round the axis between two places on it; 0 where the axis runs through material. */
export function freeRadiusMm(axis: AxisInPiece, { fromMm, toMm }: Layer): number {
  // A hair beside the axis, which often runs exactly along the edges of facets.
  const [sideways, upward] = crossDirections(axis.along)
  const beside = along(along(axis.at, sideways, 0.0071), upward, 0.0043)
  const isSolid = layersOnRay(axis, beside).some((layer) => overlapMm(layer, { fromMm, toMm }) > 0.02)
  if (isSolid) return 0
  let leastMm = Number.POSITIVE_INFINITY
  for (let triangle = 0; triangle < axis.mesh.triangles.length / 3; triangle += 1) {
    const flat = cornersOf(axis.mesh, triangle).map((corner): Vec3 => {
      const offset = subtract(corner, axis.at)
      return [dot(offset, sideways), dot(offset, upward), dot(offset, axis.along)]
    })
    const inside = cutAt(cutAt(flat, fromMm, 1), toMm, -1)
    for (const [index, corner] of inside.entries()) {
      leastMm = Math.min(leastMm, distanceFromOrigin(corner, inside[index - 1] ?? inside.at(-1) ?? corner))
    }
  }
  return leastMm
}

/** Length that two stretches of the axis have in common; 0 when they lie apart. */
export function overlapMm(one: Layer, other: Layer): number {
  return Math.max(0, Math.min(one.toMm, other.toMm) - Math.max(one.fromMm, other.fromMm))
}

/** Middle value; of an even number the mean of the middle two. Callers give at least one. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other)
  const half = Math.floor(sorted.length / 2)
  const upper = sorted[half] ?? 0
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[half - 1] ?? upper)) / 2
}

function layersOnRay({ mesh, along: axis, backMm }: AxisInPiece, through: Vec3): readonly Layer[] {
  const hits = hitsOfRay(mesh, along(through, axis, -backMm), axis)
  return hits.flatMap((hit, index): readonly Layer[] => {
    const next = hits[index + 1]
    if (!hit.isEntering || next === undefined || next.isEntering) return []
    return [{ fromMm: hit.distanceMm - backMm, toMm: next.distanceMm - backMm }]
  })
}

/** Only the triangles that come within `nearMm` of the axis, so that each ray is cheap; and how far back rays must start. */
function trianglesNear(
  mesh: Mesh,
  at: Vec3,
  axis: Vec3,
  nearMm: number,
): { readonly mesh: Mesh; readonly backMm: number } | undefined {
  const [sideways, upward] = crossDirections(axis)
  const vertexCount = mesh.positions.length / 3
  const [x, y, depth] = [sideways, upward, axis].map((direction) => {
    const shift = dot(at, direction)
    const [a, b, c] = direction
    return Float64Array.from({ length: vertexCount }, (_, vertex) => {
      const start = vertex * 3
      const [px = 0, py = 0, pz = 0] = [mesh.positions[start], mesh.positions[start + 1], mesh.positions[start + 2]]
      return px * a + py * b + pz * c - shift
    })
  })
  if (x === undefined || y === undefined || depth === undefined) return undefined
  const kept: number[] = []
  let backMm = 0
  for (let start = 0; start < mesh.triangles.length; start += 3) {
    const [a = 0, b = 0, c = 0] = [mesh.triangles[start], mesh.triangles[start + 1], mesh.triangles[start + 2]]
    if (isBeyond(x, a, b, c, nearMm) || isBeyond(y, a, b, c, nearMm)) continue
    kept.push(a, b, c)
    backMm = Math.max(backMm, -(depth[a] ?? 0), -(depth[b] ?? 0), -(depth[c] ?? 0))
  }
  if (kept.length === 0) return undefined
  return { mesh: { positions: mesh.positions, triangles: Uint32Array.from(kept) }, backMm: backMm + 1 }
}

/** True when three values all lie above `limit`, or all below `-limit`. */
function isBeyond(values: Float64Array, a: number, b: number, c: number, limit: number): boolean {
  const [one = 0, two = 0, three = 0] = [values[a], values[b], values[c]]
  return (one > limit && two > limit && three > limit) || (one < -limit && two < -limit && three < -limit)
}

/** The part of a polygon on one side of a depth: `side` 1 keeps what is deeper, -1 what is less deep. */
function cutAt(polygon: readonly Vec3[], depthMm: number, side: 1 | -1): readonly Vec3[] {
  return polygon.flatMap((corner, index) => {
    const before = polygon[index - 1] ?? polygon.at(-1) ?? corner
    const [here, there] = [side * (corner[2] - depthMm), side * (before[2] - depthMm)]
    const kept = here >= 0 ? [corner] : []
    if (here >= 0 === there >= 0) return kept
    const crossing = along(before, subtract(corner, before), there / (there - here))
    return [crossing, ...kept]
  })
}

/** Distance of the axis, the origin of a flat drawing, from the line between two corners. */
function distanceFromOrigin([x, y]: Vec3, [fromX, fromY]: Vec3): number {
  const [byX, byY] = [x - fromX, y - fromY]
  const length2 = byX ** 2 + byY ** 2
  const share = length2 === 0 ? 0 : Math.min(1, Math.max(0, -(fromX * byX + fromY * byY) / length2))
  return Math.hypot(fromX + byX * share, fromY + byY * share)
}

/** The inverse turn: the transpose, since rotations (mirrored ones too) are orthonormal. */
function turnBack(pose: Pose, direction: Vec3): Vec3 {
  const [a, b, c, d, e, f, g, h, i] = pose.rotation
  return turnDirection({ rotation: [a, d, g, b, e, h, c, f, i], at: [0, 0, 0] }, direction)
}
