/** Arithmetic of points and directions as triples. */
import type { Vec3 } from "./types.ts"

/** Gives `one + other`. */
export function add(one: Vec3, other: Vec3): Vec3 {
  return [one[0] + other[0], one[1] + other[1], one[2] + other[2]]
}

/** Gives `one - other`. */
export function subtract(one: Vec3, other: Vec3): Vec3 {
  return [one[0] - other[0], one[1] - other[1], one[2] - other[2]]
}

/** Gives `vector` stretched by `factor`. */
export function scale(vector: Vec3, factor: number): Vec3 {
  return [vector[0] * factor, vector[1] * factor, vector[2] * factor]
}

/** Gives `from + direction * by`. */
export function along(from: Vec3, direction: Vec3, by: number): Vec3 {
  return [from[0] + direction[0] * by, from[1] + direction[1] * by, from[2] + direction[2] * by]
}

/** Gives the dot product. */
export function dot(one: Vec3, other: Vec3): number {
  return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]
}

/** Gives the cross product. */
export function cross(one: Vec3, other: Vec3): Vec3 {
  return [
    one[1] * other[2] - one[2] * other[1],
    one[2] * other[0] - one[0] * other[2],
    one[0] * other[1] - one[1] * other[0],
  ]
}

/** Gives the length of a vector. */
export function lengthOf(vector: Vec3): number {
  return Math.hypot(vector[0], vector[1], vector[2])
}

/** Gives the vector with length 1; the zero vector stays as it is. */
export function unit(vector: Vec3): Vec3 {
  const length = lengthOf(vector)
  return length === 0 ? vector : scale(vector, 1 / length)
}

/**
 * Gives two directions square to `direction` and to each other, for a profile that is drawn flat: x and y for a
 * `direction` near z, x and z near y, y and z near x (each made square to it).
 */
export function crossDirections(direction: Vec3): readonly [Vec3, Vec3] {
  const axis = unit(direction)
  const [x, y, z] = [Math.abs(axis[0]), Math.abs(axis[1]), Math.abs(axis[2])]
  const isNearX = x > y && x > z
  const wanted: Vec3 = isNearX ? [0, 1, 0] : [1, 0, 0]
  const first = unit(along(wanted, axis, -dot(wanted, axis)))
  const second = unit(cross(axis, first))
  const isNearZ = !isNearX && z >= y
  const shouldPointUp = isNearZ ? second[1] < 0 : second[2] < 0
  return [first, shouldPointUp ? scale(second, -1) : second]
}
