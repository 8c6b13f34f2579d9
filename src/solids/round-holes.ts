/** Finds the round holes of a mesh. */
import { type Facets, gatherFacets } from "./facets.ts"
import { endsOfWall } from "./hole-ends.ts"
import { findRoundWalls, type RoundWall } from "./round-walls.ts"
import type { Mesh, RoundHole, Vec3 } from "./types.ts"
import { along, scale, unit } from "./vectors.ts"

/**
 * Finds all round holes: cylindrical walls that bend inward and go all the way round, in any direction. The diameter is
 * that of the circle through the corners of the wall, as exported by programs that put the corners of a circle on it;
 * a wall of 7 to 360 strips is taken. Steps of a hole (a counterbore, a pilot below it) are holes of their own that
 * share an axis; the wider one of a step counts as blind, the cone of a countersink is not listed. `depthMm` is the
 * length of the wall. Slots, fillets, open grooves, cones, hexagons and the outsides of bosses are left out, and so are
 * voids without a mouth. The mouth of a hole that goes through is its upper end, or else its rear, or else its right one.
 * Sorted by diameter, then by x, y, z of the mouth.
 */
export function findRoundHoles(mesh: Mesh): readonly RoundHole[] {
  const facets = gatherFacets(mesh)
  const holes = findRoundWalls(mesh, facets).flatMap((wall) => readHole(mesh, facets, wall))
  return holes.sort(
    (one, other) =>
      compareMm(one.diameterMm, other.diameterMm) ||
      compareMm(one.at[0], other.at[0]) ||
      compareMm(one.at[1], other.at[1]) ||
      compareMm(one.at[2], other.at[2]),
  )
}

function readHole(mesh: Mesh, facets: Facets, { strips, axis, centre, radiusMm }: RoundWall): readonly RoundHole[] {
  const ends = endsOfWall(mesh, facets, strips, axis, centre)
  if (ends === undefined || !(ends.low.isOpen || ends.high.isOpen)) return []
  const isThrough = ends.low.isOpen && ends.high.isOpen
  const isHighMouth = isThrough ? isUpper(axis) : ends.high.isOpen
  const mouthMm = isHighMouth ? ends.high.atMm : ends.low.atMm
  return [
    {
      diameterMm: rounded(2 * radiusMm),
      at: roundedPoint(along(centre, axis, mouthMm)),
      along: isHighMouth ? plainZero(scale(axis, -1)) : plainZero(axis),
      depthMm: rounded(ends.high.atMm - ends.low.atMm),
      through: isThrough,
    },
  ]
}

/** True when an axis points up; level ones to the back, else to the right. */
function isUpper(axis: Vec3): boolean {
  const small = 1e-6
  if (Math.abs(axis[2]) > small) return axis[2] > 0
  if (Math.abs(axis[1]) > small) return axis[1] > 0
  return axis[0] > 0
}

/** Numbers are sorted to 0.001 mm, so that the last digits of 32-bit files do not decide. */
function compareMm(one: number, other: number): number {
  return Math.round(one * 1000) - Math.round(other * 1000)
}

function rounded(value: number): number {
  return Math.round(value * 1e4) / 1e4 + 0
}

function roundedPoint([x, y, z]: Vec3): Vec3 {
  return [rounded(x), rounded(y), rounded(z)]
}

/** Directions within 1e-6 of a plain one are that one, so that a level hole is level. */
function plainZero([x, y, z]: Vec3): Vec3 {
  const plain = (value: number): number => {
    if (Math.abs(value) < 1e-6) return 0
    return Math.abs(Math.abs(value) - 1) < 1e-9 ? Math.sign(value) : value
  }
  return unit([plain(x), plain(y), plain(z)])
}
