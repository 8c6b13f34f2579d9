/** Where a ray meets a mesh. */
import { cornersOf } from "./bounds.ts"
import type { Mesh, Vec3 } from "./types.ts"
import { cross, dot, lengthOf, subtract, unit } from "./vectors.ts"

/** One crossing of the surface, `distanceMm` along the ray; `isEntering` when the ray goes from outside to inside. */
export type RayHit = { readonly distanceMm: number; readonly isEntering: boolean; readonly triangle: number }

/** Hits nearer together than this, the same way through, are one: the ray met an edge that two triangles share. */
const sameHitMm = 1e-6

/**
 * Gives all crossings in front of `from` along `direction` (any length), nearest first. A ray through an edge or a
 * corner counts once for each crossing of the surface; one that only slides along a face does not count that face.
 */
export function hitsOfRay(mesh: Mesh, from: Vec3, direction: Vec3): readonly RayHit[] {
  const axis = unit(direction)
  const hits: RayHit[] = []
  for (let triangle = 0; triangle < mesh.triangles.length / 3; triangle += 1) {
    const [a, b, c] = cornersOf(mesh, triangle)
    const distanceMm = crossingOf(a, b, c, from, axis)
    if (distanceMm === undefined || distanceMm <= 0) continue
    const isEntering = dot(cross(subtract(b, a), subtract(c, a)), axis) < 0
    hits.push({ distanceMm, isEntering, triangle })
  }
  hits.sort((one, other) => one.distanceMm - other.distanceMm || one.triangle - other.triangle)
  return hits.filter(
    (hit, index) =>
      !hits
        .slice(0, index)
        .some((earlier) => earlier.isEntering === hit.isEntering && hit.distanceMm - earlier.distanceMm < sameHitMm),
  )
}

/** True when a point lies inside a closed mesh; points on the surface may fall on either side. */
export function isPointInside(mesh: Mesh, point: Vec3): boolean {
  // A direction without any pattern, so that edges and faces of made things are hardly ever met exactly.
  return hitsOfRay(mesh, point, [0.5351, 0.6421, 0.5489]).length % 2 === 1
}

/** Distance to the plane of the triangle when the ray meets the triangle or its rim; undefined otherwise. */
function crossingOf(a: Vec3, b: Vec3, c: Vec3, from: Vec3, axis: Vec3): number | undefined {
  const [toA, toB, toC] = [subtract(a, from), subtract(b, from), subtract(c, from)]
  // Volumes spanned by the ray and each side; equal signs mean that it passes inside. Zero is the rim.
  // Nearly all triangles of a mesh end here, so what costs more comes later.
  const overAB = spannedBy(axis, toA, toB)
  const overBC = spannedBy(axis, toB, toC)
  if ((overAB > 0 && overBC < 0) || (overAB < 0 && overBC > 0)) return undefined
  const overCA = spannedBy(axis, toC, toA)
  const isInside = (overAB >= 0 && overBC >= 0 && overCA >= 0) || (overAB <= 0 && overBC <= 0 && overCA <= 0)
  if (!isInside) return undefined
  const normal = cross(subtract(b, a), subtract(c, a))
  const twiceAreaMm2 = lengthOf(normal)
  const slope = dot(normal, axis)
  if (twiceAreaMm2 === 0 || Math.abs(slope) < 1e-9 * twiceAreaMm2) return undefined
  return dot(normal, toA) / slope
}

/** Gives `dot(axis, cross(one, other))`, without a triple between. */
function spannedBy(axis: Vec3, one: Vec3, other: Vec3): number {
  return (
    axis[0] * (one[1] * other[2] - one[2] * other[1]) +
    axis[1] * (one[2] * other[0] - one[0] * other[2]) +
    axis[2] * (one[0] * other[1] - one[1] * other[0])
  )
}
