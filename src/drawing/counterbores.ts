/** How deep heads, washers and nuts sink in holes that are wider than they are: counterbores, nut pockets. */
import { hitsOfRay } from "../solids/index.ts"
import type { Mesh, Pose, Vec3 } from "../solids/types.ts"
import { add, along, crossDirections, dot, scale } from "../solids/vectors.ts"
import { extentAlong, placedPoints } from "./things.ts"

/** A wall further from the axis than this, in widths of the head, is not the wall of a counterbore. */
const reachShare = 1.5
const rayCount = 8
/** So many of the rays across the axis meet the wall of a counterbore: one may leave through a slot. */
const leastHitCount = 7
/** Height over the floor at which the wall is looked for, and how exactly its end is found. */
const floorMm = 0.3
const exactMm = 0.1

/**
 * Gives the depth in mm of the counterbore in whose floor a head, washer or nut of `headMm` bears at `at`; `out` is the unit
 * vector out of it. 0 when the face lies open, and when the piece closes over it.
 */
export function counterboreDepthMm(mesh: Mesh, pose: Pose, at: Vec3, out: Vec3, headMm: number): number {
  const topMm = extentAlong(mesh, pose, out).max - dot(at, out)
  if (topMm < 2 * floorMm) return 0
  const near = keepNearAxis(mesh, pose, at, along(at, out, topMm), reachShare * headMm)
  // A hair beside the axis, which often runs along the edges of facets.
  const [sideways, upward] = crossDirections(out)
  const beside = along(along(at, sideways, 0.0071), upward, 0.0043)
  if (hitsOfRay(near, along(beside, out, floorMm), out).length > 0) return 0
  const isWalled = (heightMm: number): boolean => {
    const from = along(beside, out, heightMm)
    const hits = Array.from({ length: rayCount }, (_, index) => {
      const angle = (2 * Math.PI * (index + 0.37)) / rayCount
      const ray = add(scale(sideways, Math.cos(angle)), scale(upward, Math.sin(angle)))
      return hitsOfRay(near, from, ray)[0]?.distanceMm ?? Number.POSITIVE_INFINITY
    })
    return hits.filter((distanceMm) => distanceMm <= reachShare * headMm).length >= leastHitCount
  }
  if (!isWalled(floorMm)) return 0
  let [lowMm, highMm] = [floorMm, topMm]
  while (highMm - lowMm > exactMm) {
    const middleMm = (lowMm + highMm) / 2
    if (isWalled(middleMm)) lowMm = middleMm
    else highMm = middleMm
  }
  return highMm
}

/** The triangles of a piece in its place whose boxes come within `reachMm` of the line between two points. */
function keepNearAxis(mesh: Mesh, pose: Pose, from: Vec3, to: Vec3, reachMm: number): Mesh {
  const points = placedPoints(mesh, pose)
  const triangles: number[] = []
  for (let first = 0; first < mesh.triangles.length; first += 3) {
    const vertices = [...mesh.triangles.subarray(first, first + 3)]
    const isNear = [0, 1, 2].every((axis) => {
      const values = vertices.map((vertex) => points[vertex]?.[axis] ?? 0)
      const ends = [from[axis] ?? 0, to[axis] ?? 0]
      return Math.max(...values) >= Math.min(...ends) - reachMm && Math.min(...values) <= Math.max(...ends) + reachMm
    })
    if (isNear) triangles.push(...vertices)
  }
  return { positions: Float64Array.from(points.flat()), triangles: Uint32Array.from(triangles) }
}
