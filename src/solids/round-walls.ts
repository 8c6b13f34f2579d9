/** Finds the walls of round holes: facets that bend inward all the way round an axis. */
import { vertexAt } from "./bounds.ts"
import { type Bend, type Facets, listBends, middle } from "./facets.ts"
import { fitCircle } from "./fit-circle.ts"
import { fitCylinder } from "./fit-cylinder.ts"
import type { Mesh, Vec3 } from "./types.ts"
import { add, cross, crossDirections, dot, lengthOf, scale, subtract, unit } from "./vectors.ts"

/** A wall of fewer strips is no circle: six are a hexagon, for a nut or a key. */
const leastStrips = 7
/** Sharpest bend between two strips: that of a circle of seven. */
const sharpestDeg = 360 / leastStrips + 0.5
/** Edges of one wall are parallel within this angle; slim strips of 32-bit coordinates are off by up to 0.1 degrees. */
const parallelDeg = 0.5
/** How far a corner of the wall may be off the circle: this, or 0.2 % of the diameter. */
const offCircleMm = 0.01
const offCircleShare = 0.002
/** Edges shorter than this have no reliable direction. */
const shortestEdgeMm = 0.02

/** A wall that goes all the way round its axis. */
export type RoundWall = {
  readonly strips: ReadonlySet<number>
  readonly axis: Vec3
  /** A point of the axis. */
  readonly centre: Vec3
  readonly radiusMm: number
}

/**
 * Finds all round walls: first those of strips that run along the axis, then, among the facets that are left, those
 * whose triangles lean.
 */
export function findRoundWalls(mesh: Mesh, facets: Facets): readonly RoundWall[] {
  const bends = listBends(mesh, facets)
  const straight = gatherWalls(bends).flatMap((wall) => readStraightWall(wall) ?? [])
  const isUsed = new Set(straight.flatMap(({ strips }) => [...strips]))
  const hollows = gatherHollows(bends, isUsed)
  return [...straight, ...hollows.flatMap((strips) => readTwistedWall(mesh, facets, bends, strips) ?? [])]
}

/** Edges between strips that bend inward and run parallel, gathered over the strips that they share. */
function gatherWalls(bends: readonly Bend[]): readonly (readonly Bend[])[] {
  const edges = bends.filter(
    ({ hollowDeg, from, to }) =>
      hollowDeg > 0 && hollowDeg <= sharpestDeg && lengthOf(subtract(to, from)) >= shortestEdgeMm,
  )
  const edgesOfFacet = new Map<number, number[]>()
  edges.forEach(({ one, other }, index) => {
    for (const facet of [one, other]) {
      const list = edgesOfFacet.get(facet)
      if (list === undefined) edgesOfFacet.set(facet, [index])
      else list.push(index)
    }
  })
  const directions = edges.map(({ from, to }) => unit(subtract(to, from)))
  const sinParallel = Math.sin((parallelDeg * Math.PI) / 180)
  const wallOf = new Int32Array(edges.length).fill(-1)
  const walls: Bend[][] = []
  edges.forEach((_, seed) => {
    if (wallOf[seed] !== -1) return
    const wall: Bend[] = []
    const isSeen = new Set<number>()
    const queue = [seed]
    wallOf[seed] = walls.length
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
      const [edge, direction] = [edges[at], directions[at]]
      if (edge === undefined || direction === undefined) continue
      wall.push(edge)
      for (const facet of [edge.one, edge.other]) {
        if (isSeen.has(facet)) continue
        isSeen.add(facet)
        for (const next of edgesOfFacet.get(facet) ?? []) {
          const otherDirection = directions[next]
          if (wallOf[next] !== -1 || otherDirection === undefined) continue
          if (lengthOf(cross(direction, otherDirection)) > sinParallel) continue
          wallOf[next] = walls.length
          queue.push(next)
        }
      }
    }
    walls.push(wall)
  })
  return walls.filter((wall) => wall.length >= leastStrips)
}

/** One corner of the wall seen along its axis, and the edges that end in it. */
type Corner = { readonly x: number; readonly y: number; readonly edges: Bend[] }

/** A wall of strips that run along the axis. */
function readStraightWall(wall: readonly Bend[]): RoundWall | undefined {
  const axis = axisOf(wall)
  const [first, second] = crossDirections(axis)
  const corners = gatherCorners(wall, first, second)
  if (corners.length < leastStrips) return undefined
  const circle = fitCircle(corners)
  if (circle === undefined) return undefined
  const { radius: radiusMm } = circle
  const isOff = ({ x, y }: Corner): boolean =>
    Math.abs(Math.hypot(x - circle.x, y - circle.y) - radiusMm) > allowedOffMm(radiusMm)
  if (corners.some(isOff) || !goesRound(corners, circle)) return undefined
  const strips = new Set(wall.flatMap(({ one, other }) => [one, other]))
  return { strips, axis, centre: add(scale(first, circle.x), scale(second, circle.y)), radiusMm }
}

/**
 * A wall whose triangles lean, since its two ends are cut differently (a hole in a curved face): all corners of its
 * facets must lie on one cylinder.
 */
function readTwistedWall(
  mesh: Mesh,
  facets: Facets,
  bends: readonly Bend[],
  strips: ReadonlySet<number>,
): RoundWall | undefined {
  const vertices = new Set(
    [...strips].flatMap((facet) =>
      (facets.trianglesOf[facet] ?? []).flatMap((triangle) =>
        [0, 1, 2].map((corner) => mesh.triangles[triangle * 3 + corner] ?? 0),
      ),
    ),
  )
  const points = [...vertices].sort((one, other) => one - other).map((vertex) => vertexAt(mesh, vertex))
  const guess = axisOfNormals(facets, bends, strips)
  const cylinder = guess === undefined ? undefined : fitCylinder(points, guess)
  if (cylinder === undefined || cylinder.offMm > allowedOffMm(cylinder.radiusMm)) return undefined
  const { at: centre, axis, radiusMm } = cylinder
  const [first, second] = crossDirections(axis)
  const angles = points
    .map((point) => subtract(point, centre))
    .map((from) => (Math.atan2(dot(from, second), dot(from, first)) * 180) / Math.PI)
    .sort((one, other) => one - other)
  const isRound = angles.every((angle, index) => {
    const next = angles[index + 1] ?? (angles[0] ?? 0) + 360
    return next - angle <= sharpestDeg
  })
  return isRound ? { strips, axis, centre, radiusMm } : undefined
}

/** Facets that hang together over edges that bend inward, without those of `isUsed`. */
function gatherHollows(bends: readonly Bend[], isUsed: ReadonlySet<number>): readonly ReadonlySet<number>[] {
  const neighbours = new Map<number, number[]>()
  for (const { hollowDeg, one, other } of bends) {
    if (hollowDeg <= 0 || hollowDeg > sharpestDeg || isUsed.has(one) || isUsed.has(other)) continue
    neighbours.set(one, [...(neighbours.get(one) ?? []), other])
    neighbours.set(other, [...(neighbours.get(other) ?? []), one])
  }
  const isSeen = new Set<number>()
  const hollows: Set<number>[] = []
  for (const seed of neighbours.keys()) {
    if (isSeen.has(seed)) continue
    isSeen.add(seed)
    const hollow = new Set([seed])
    for (const facet of hollow) {
      for (const next of neighbours.get(facet) ?? []) {
        isSeen.add(next)
        hollow.add(next)
      }
    }
    hollows.push(hollow)
  }
  return hollows.filter(({ size }) => size >= leastStrips)
}

/** Mean of the cross products of neighbouring normals: nearly the axis, since the leaning evens out. */
function axisOfNormals(facets: Facets, bends: readonly Bend[], strips: ReadonlySet<number>): Vec3 | undefined {
  let sum: Vec3 = [0, 0, 0]
  for (const { one, other, hollowDeg, from, to } of bends) {
    const [here, there] = [facets.normals[one], facets.normals[other]]
    if (hollowDeg <= 0 || !strips.has(one) || !strips.has(other) || here === undefined || there === undefined) continue
    const turn = scale(cross(here, there), lengthOf(subtract(to, from)))
    sum = dot(sum, turn) < 0 ? subtract(sum, turn) : add(sum, turn)
  }
  return lengthOf(sum) === 0 ? undefined : unit(sum)
}

function allowedOffMm(radiusMm: number): number {
  return Math.max(offCircleMm, offCircleShare * 2 * radiusMm)
}

/** Mean direction of the edges, weighted by length. */
function axisOf(wall: readonly Bend[]): Vec3 {
  let sum: Vec3 = [0, 0, 0]
  for (const { from, to } of wall) {
    const edge = subtract(to, from)
    sum = dot(sum, edge) < 0 ? subtract(sum, edge) : add(sum, edge)
  }
  return unit(sum)
}

function gatherCorners(wall: readonly Bend[], first: Vec3, second: Vec3): readonly Corner[] {
  const corners: Corner[] = []
  const cells = new Map<string, Corner>()
  for (const edge of wall) {
    const point = middle(edge.from, edge.to)
    const [x, y] = [dot(point, first), dot(point, second)]
    const known = cornerNear(cells, x, y)
    if (known !== undefined) {
      known.edges.push(edge)
      continue
    }
    const corner: Corner = { x, y, edges: [edge] }
    corners.push(corner)
    cells.set(`${Math.round(x / cellMm)},${Math.round(y / cellMm)}`, corner)
  }
  return corners
}

/** Edges whose middles are nearer than this, seen along the axis, are pieces of one. */
const cellMm = 0.004

function cornerNear(cells: ReadonlyMap<string, Corner>, x: number, y: number): Corner | undefined {
  for (let stepX = -1; stepX <= 1; stepX += 1) {
    for (let stepY = -1; stepY <= 1; stepY += 1) {
      const corner = cells.get(`${Math.round(x / cellMm) + stepX},${Math.round(y / cellMm) + stepY}`)
      if (corner !== undefined && Math.hypot(corner.x - x, corner.y - y) < cellMm) return corner
    }
  }
  return undefined
}

/** True when the corners, in order of their angle, are linked by strips all the way round. */
function goesRound(corners: readonly Corner[], circle: { readonly x: number; readonly y: number }): boolean {
  const sorted = corners
    .map(({ x, y, edges }) => ({
      angleDeg: (Math.atan2(y - circle.y, x - circle.x) * 180) / Math.PI,
      facets: new Set(edges.flatMap(({ one, other }) => [one, other])),
    }))
    .sort((one, other) => one.angleDeg - other.angleDeg)
  return sorted.every((corner, index) => {
    const next = sorted[(index + 1) % sorted.length]
    if (next === undefined) return false
    const stepDeg = (next.angleDeg - corner.angleDeg + 360) % 360
    return stepDeg <= sharpestDeg && [...corner.facets].some((facet) => next.facets.has(facet))
  })
}
