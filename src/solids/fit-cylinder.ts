/** The cylinder through points in space. */
import type { Vec3 } from "./types.ts"
import { add, along, crossDirections, dot, scale, subtract, unit } from "./vectors.ts"

export type Cylinder = { readonly at: Vec3; readonly axis: Vec3; readonly radiusMm: number; readonly offMm: number }

/** Four rounds reach the rounding error from an axis that is 10 degrees off (tried). */
const rounds = 6

/**
 * Gives the cylinder that comes nearest to the points by least squares (Gauss and Newton), from a first guess of its
 * axis. `offMm` is the largest distance of a point from it. Fewer than six points, or points that do not go round an
 * axis, give undefined.
 */
export function fitCylinder(points: readonly Vec3[], guess: Vec3): Cylinder | undefined {
  if (points.length < 6) return undefined
  let at = scale(points.reduce(add, [0, 0, 0]), 1 / points.length)
  let axis = unit(guess)
  let radiusMm = meanDistance(points, at, axis)
  for (let round = 0; round < rounds; round += 1) {
    const [first, second] = crossDirections(axis)
    // Unknowns: shift of the centre along first and second, tilt of the axis towards them, change of the radius.
    const sums = Array.from({ length: 5 }, () => [0, 0, 0, 0, 0, 0])
    for (const point of points) {
      const from = subtract(point, at)
      const [x, y, z] = [dot(from, first), dot(from, second), dot(from, axis)]
      const distance = Math.hypot(x, y)
      if (distance === 0) return undefined
      const [cos, sin] = [x / distance, y / distance]
      const row = [cos, sin, cos * z, sin * z, 1]
      const off = distance - radiusMm
      for (const [line, factor] of row.entries()) {
        const sum = sums[line] ?? []
        for (const [column, other] of [...row, off].entries()) sum[column] = (sum[column] ?? 0) + factor * other
      }
    }
    const solved = solve(sums)
    if (solved === undefined) return undefined
    const [shiftX = 0, shiftY = 0, tiltX = 0, tiltY = 0, grow = 0] = solved
    at = along(along(at, first, shiftX), second, shiftY)
    axis = unit(along(along(axis, first, tiltX), second, tiltY))
    radiusMm += grow
  }
  const offMm = Math.max(...points.map((point) => Math.abs(distanceFrom(point, at, axis) - radiusMm)))
  return Number.isFinite(offMm) && radiusMm > 0 ? { at, axis, radiusMm, offMm } : undefined
}

/** Distance of a point from the line through `at` along `axis`. */
function distanceFrom(point: Vec3, at: Vec3, axis: Vec3): number {
  const from = subtract(point, at)
  const by = dot(from, axis)
  return Math.hypot(...subtract(from, scale(axis, by)))
}

function meanDistance(points: readonly Vec3[], at: Vec3, axis: Vec3): number {
  return points.reduce((sum, point) => sum + distanceFrom(point, at, axis), 0) / points.length
}

/** Solves linear equations, the right side in the last column, by elimination with the largest pivot. */
function solve(rows: readonly number[][]): readonly number[] | undefined {
  const size = rows.length
  const left = rows.map((row) => [...row])
  for (let column = 0; column < size; column += 1) {
    const rest = left.slice(column)
    const largest = Math.max(...rest.map((row) => Math.abs(row[column] ?? 0)))
    const pivotAt = column + rest.findIndex((row) => Math.abs(row[column] ?? 0) === largest)
    const pivot = left[pivotAt]
    const here = left[column]
    if (pivot === undefined || here === undefined || largest < 1e-9) return undefined
    left[pivotAt] = here
    left[column] = pivot
    for (const [index, row] of left.entries()) {
      if (index === column) continue
      const factor = (row[column] ?? 0) / (pivot[column] ?? 1)
      for (let at = column; at <= size; at += 1) row[at] = (row[at] ?? 0) - factor * (pivot[at] ?? 0)
    }
  }
  return left.map((row, index) => (row[size] ?? 0) / (row[index] ?? 1))
}
