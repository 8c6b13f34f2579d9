/** Simple closed meshes: outlines stacked along an axis, and a profile swept along a path. */
import { signedVolumeMm3 } from "../solids/bounds.ts"
import type { Mesh, Vec3 } from "../solids/types.ts"
import { add, cross, dot, scale, subtract, unit } from "../solids/vectors.ts"
import { squareTo } from "./vector.ts"

/** A closed outline at one height: x y x y ..., counter-clockwise round the z axis and star-shaped from it. */
export type Ring = { readonly zMm: number; readonly points: readonly number[] }

/** Corners of a circle; 48 keeps facets well below the crease angle. */
export function circle(radiusMm: number, sideCount = 48): readonly number[] {
  return polar(sideCount, () => radiusMm)
}

/** Corners of a regular hexagon of a width across flats. */
export function hexagon(acrossFlatsMm: number): readonly number[] {
  return polar(6, () => acrossFlatsMm / Math.sqrt(3))
}

/** Points at equal angles whose distance from the axis is given by `radiusAt` (angle in rad). */
export function polar(count: number, radiusAt: (angle: number) => number): readonly number[] {
  return Array.from({ length: count }, (_, index) => {
    const angle = (2 * Math.PI * index) / count
    return [radiusAt(angle) * Math.cos(angle), radiusAt(angle) * Math.sin(angle)]
  }).flat()
}

/**
 * Skins a stack of rings, from the first to the last, and closes both ends towards the axis. Going up outside and
 * down again inside makes a recess. The mesh is closed and outward when the first ring is the lowest.
 */
export function loftRings(rings: readonly Ring[]): Mesh {
  const positions: number[] = []
  const triangles: number[] = []
  const starts = rings.map(({ zMm, points }) => {
    const start = positions.length / 3
    for (let index = 0; index < points.length; index += 2)
      positions.push(points[index] ?? 0, points[index + 1] ?? 0, zMm)
    return start
  })
  rings.forEach((ring, index) => {
    const next = rings[index + 1]
    if (next !== undefined) zipRings(triangles, ring.points, starts[index] ?? 0, next.points, starts[index + 1] ?? 0)
  })
  const first = rings[0]
  const last = rings.at(-1)
  if (first !== undefined && last !== undefined) {
    closeRing(positions, triangles, first, starts[0] ?? 0, false)
    closeRing(positions, triangles, last, starts.at(-1) ?? 0, true)
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) }
}

/** As `loftRings`, but the last ring runs back into the first: a washer, a nut. */
export function loftLoop(rings: readonly Ring[]): Mesh {
  const positions: number[] = []
  const triangles: number[] = []
  const starts = rings.map(({ zMm, points }) => {
    const start = positions.length / 3
    for (let index = 0; index < points.length; index += 2)
      positions.push(points[index] ?? 0, points[index + 1] ?? 0, zMm)
    return start
  })
  rings.forEach((ring, index) => {
    const follower = (index + 1) % rings.length
    const next = rings[follower]
    if (next !== undefined) zipRings(triangles, ring.points, starts[index] ?? 0, next.points, starts[follower] ?? 0)
  })
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) }
}

/** Fills the band between two rings by walking both by angle. */
function zipRings(
  triangles: number[],
  lower: readonly number[],
  lowerStart: number,
  upper: readonly number[],
  upperStart: number,
): void {
  const lowerCount = lower.length / 2
  const upperCount = upper.length / 2
  let one = 0
  let other = 0
  while (one < lowerCount || other < upperCount) {
    const takesLower =
      other >= upperCount || (one < lowerCount && turnOf(lower, one + 1) <= turnOf(upper, other + 1) + 1e-9)
    const a = lowerStart + (one % lowerCount)
    const b = upperStart + (other % upperCount)
    if (takesLower) {
      triangles.push(a, lowerStart + ((one + 1) % lowerCount), b)
      one += 1
    } else {
      triangles.push(a, upperStart + ((other + 1) % upperCount), b)
      other += 1
    }
  }
}

/** Angle of a corner, counted on past a full turn. */
function turnOf(points: readonly number[], index: number): number {
  const count = points.length / 2
  const corner = index % count
  const angle = Math.atan2(points[2 * corner + 1] ?? 0, points[2 * corner] ?? 0)
  const first = Math.atan2(points[1] ?? 0, points[0] ?? 0)
  const turn = angle < first - 1e-9 ? angle + 2 * Math.PI : angle
  return turn + (index >= count ? 2 * Math.PI : 0)
}

function closeRing(positions: number[], triangles: number[], ring: Ring, start: number, isTop: boolean): void {
  const centre = positions.length / 3
  positions.push(0, 0, ring.zMm)
  const count = ring.points.length / 2
  for (let index = 0; index < count; index += 1) {
    const here = start + index
    const next = start + ((index + 1) % count)
    if (isTop) triangles.push(centre, here, next)
    else triangles.push(centre, next, here)
  }
}

/**
 * Sweeps a flat profile (x y x y ..., counter-clockwise) along a path. Profile x stays square to `side` where given
 * (a strap lies flat), else it is carried along without twist. A closed path makes a loop, an open one gets end caps.
 */
export function sweepProfile(profile: readonly number[], path: readonly Vec3[], isClosed: boolean, side?: Vec3): Mesh {
  const count = path.length
  const corners = profile.length / 2
  const positions: number[] = []
  const triangles: number[] = []
  let carried: Vec3 | undefined
  path.forEach((point, index) => {
    const before = path[isClosed ? (index - 1 + count) % count : Math.max(0, index - 1)] ?? point
    const after = path[isClosed ? (index + 1) % count : Math.min(count - 1, index + 1)] ?? point
    const into = unit(subtract(point, before))
    const out = unit(subtract(after, point))
    const along = unit(index === 0 && !isClosed ? out : index === count - 1 && !isClosed ? into : add(into, out))
    const wanted = side ?? carried ?? squareTo(along)
    const u = unit(subtract(wanted, scale(along, dot(wanted, along))))
    const v = cross(along, u)
    carried = u
    // At a corner the section is stretched so that the strap keeps its width.
    const stretch = 1 / Math.max(0.5, Math.sqrt((1 + dot(into, out)) / 2))
    const factor = isClosed || (index > 0 && index < count - 1) ? stretch : 1
    for (let corner = 0; corner < corners; corner += 1) {
      const px = (profile[2 * corner] ?? 0) * (side === undefined ? 1 : 1)
      const py = (profile[2 * corner + 1] ?? 0) * (side === undefined ? 1 : factor)
      positions.push(...add(point, add(scale(u, px), scale(v, py))))
    }
  })
  const bandCount = isClosed ? count : count - 1
  for (let band = 0; band < bandCount; band += 1) {
    const here = band * corners
    const there = ((band + 1) % count) * corners
    for (let corner = 0; corner < corners; corner += 1) {
      const next = (corner + 1) % corners
      triangles.push(here + corner, here + next, there + next, here + corner, there + next, there + corner)
    }
  }
  if (!isClosed) {
    for (let corner = 1; corner < corners - 1; corner += 1) {
      const last = (count - 1) * corners
      triangles.push(0, corner + 1, corner, last, last + corner, last + corner + 1)
    }
  }
  const mesh = { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) }
  return signedVolumeMm3(mesh) < 0 ? turnInsideOut(mesh) : mesh
}

function turnInsideOut({ positions, triangles }: Mesh): Mesh {
  const turned = triangles.slice()
  for (let first = 0; first < turned.length; first += 3)
    turned.set([triangles[first] ?? 0, triangles[first + 2] ?? 0, triangles[first + 1] ?? 0], first)
  return { positions, triangles: turned }
}
