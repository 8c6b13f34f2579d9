/** Cuts a long mesh short, with a wavy break line where it goes on. */
import type { Mesh, Vec3 } from "../solids/types.ts"
import { add, cross, dot, scale, subtract, unit } from "../solids/vectors.ts"
import { squareTo } from "./vector.ts"

/**
 * Keeps what lies between `fromMm` and `toMm` along the axis through `at`. The cut runs in a wave across the axis, so
 * that nobody takes it for the end of a tube. The cut stays open: only skins are kept. Ends inside the limits stay whole.
 */
export function clipAlong(mesh: Mesh, at: Vec3, along: Vec3, fromMm: number, toMm: number, waveMm: number): Mesh {
  const axis = unit(along)
  const across = squareTo(axis)
  const wave = (point: Vec3): number =>
    waveMm * Math.sin((2 * Math.PI * dot(subtract(point, at), across)) / (20 * waveMm))
  const position = (point: Vec3): number => dot(subtract(point, at), axis)
  const refined = refineAcross(mesh, at, axis)
  const lower = clipField(refined, (point) => fromMm + wave(point) - position(point))
  return dropUnused(clipField(lower, (point) => position(point) - toMm - wave(point)))
}

/** Leaves out vertices that no triangle has: they would still count in the bounds. */
function dropUnused({ positions, triangles }: Mesh): Mesh {
  const places = new Int32Array(positions.length / 3).fill(-1)
  const kept: number[] = []
  const renumbered = triangles.map((vertex) => {
    const known = places[vertex] ?? -1
    if (known >= 0) return known
    const place = kept.length / 3
    places[vertex] = place
    kept.push(positions[3 * vertex] ?? 0, positions[3 * vertex + 1] ?? 0, positions[3 * vertex + 2] ?? 0)
    return place
  })
  return { positions: Float64Array.from(kept), triangles: renumbered }
}

/** Splits broad flat sides in strips along the axis, so that a wave shows on them too. */
function refineAcross(mesh: Mesh, at: Vec3, axis: Vec3): Mesh {
  const across = squareTo(axis)
  const other = cross(axis, across)
  let refined = mesh
  for (const direction of [across, other]) {
    let low = Number.POSITIVE_INFINITY
    let high = Number.NEGATIVE_INFINITY
    for (let vertex = 0; vertex < mesh.positions.length / 3; vertex += 1) {
      const value = dot(subtract(pointOf(mesh, vertex), at), direction)
      low = Math.min(low, value)
      high = Math.max(high, value)
    }
    const stripCount = 16
    for (let strip = 1; strip < stripCount; strip += 1) {
      const level = low + ((high - low) * strip) / stripCount
      const field = (point: Vec3): number => dot(subtract(point, at), direction) - level
      refined = splitField(refined, field)
    }
  }
  return refined
}

/** Keeps the side where `field` is below zero. */
function clipField(mesh: Mesh, field: (point: Vec3) => number): Mesh {
  return cutField(mesh, field, false)
}

/** Keeps both sides; triangles end where `field` is zero. */
function splitField(mesh: Mesh, field: (point: Vec3) => number): Mesh {
  return cutField(mesh, field, true)
}

function cutField(mesh: Mesh, field: (point: Vec3) => number, keepsBoth: boolean): Mesh {
  const count = mesh.positions.length / 3
  const values = Array.from({ length: count }, (_, vertex) => {
    const value = field(pointOf(mesh, vertex))
    return Math.abs(value) < 1e-9 ? 0 : value
  })
  const positions = Array.from(mesh.positions)
  const triangles: number[] = []
  const cuts = new Map<number, number>()
  const cutPoint = (one: number, other: number): number => {
    const key = Math.min(one, other) * count + Math.max(one, other)
    const known = cuts.get(key)
    if (known !== undefined) return known
    const [low, high] = one < other ? [one, other] : [other, one]
    const from = values[low] ?? 0
    const share = from / (from - (values[high] ?? 0))
    const start = pointOf(mesh, low)
    const point = add(start, scale(subtract(pointOf(mesh, high), start), share))
    const index = positions.length / 3
    positions.push(...point)
    cuts.set(key, index)
    return index
  }
  const keep = (corners: readonly number[], sign: number): void => {
    const polygon: number[] = []
    corners.forEach((corner, index) => {
      const next = corners[(index + 1) % corners.length] ?? corner
      const here = sign * (values[corner] ?? 0)
      const there = sign * (values[next] ?? 0)
      if (here <= 0) polygon.push(corner)
      if ((here < 0 && there > 0) || (here > 0 && there < 0)) polygon.push(cutPoint(corner, next))
    })
    const first = polygon[0]
    if (first === undefined || corners.every((corner) => (values[corner] ?? 0) === 0 && sign > 0)) return
    for (let index = 1; index + 1 < polygon.length; index += 1) {
      triangles.push(first, polygon[index] ?? 0, polygon[index + 1] ?? 0)
    }
  }
  for (let first = 0; first < mesh.triangles.length; first += 3) {
    const corners = [mesh.triangles[first] ?? 0, mesh.triangles[first + 1] ?? 0, mesh.triangles[first + 2] ?? 0]
    const isAbove = corners.some((corner) => (values[corner] ?? 0) > 0)
    const isBelow = corners.some((corner) => (values[corner] ?? 0) < 0)
    if (!isAbove || (keepsBoth && !isBelow)) triangles.push(...corners)
    else if (keepsBoth) {
      keep(corners, 1)
      keep(corners, -1)
    } else if (isBelow) keep(corners, 1)
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) }
}

function pointOf({ positions }: Mesh, vertex: number): Vec3 {
  return [positions[3 * vertex] ?? 0, positions[3 * vertex + 1] ?? 0, positions[3 * vertex + 2] ?? 0]
}
