/** Finds the round holes of a mesh from the flat strips that their walls consist of. */

import { type Bend, type Facets, gatherFacets, listBends, middle } from "./facets.ts"
import { fitCircle } from "./fit-circle.ts"
import { endsOfWall } from "./hole-ends.ts"
import type { Mesh, RoundHole, Vec3 } from "./types.ts"
import { add, along, cross, crossDirections, dot, lengthOf, scale, subtract, unit } from "./vectors.ts"

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
  const bends = listBends(mesh, facets)
  const walls = gatherWalls(bends)
  const holes = walls.flatMap((wall) => readHole(mesh, facets, wall))
  return holes.sort(
    (one, other) =>
      compareMm(one.diameterMm, other.diameterMm) ||
      compareMm(one.at[0], other.at[0]) ||
      compareMm(one.at[1], other.at[1]) ||
      compareMm(one.at[2], other.at[2]),
  )
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
    const queue = [seed]
    wallOf[seed] = walls.length
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
      const [edge, direction] = [edges[at], directions[at]]
      if (edge === undefined || direction === undefined) continue
      wall.push(edge)
      for (const facet of [edge.one, edge.other]) {
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

function readHole(mesh: Mesh, facets: Facets, wall: readonly Bend[]): readonly RoundHole[] {
  const axis = axisOf(wall)
  const [first, second] = crossDirections(axis)
  const corners = gatherCorners(wall, first, second)
  if (corners.length < leastStrips) return []
  const circle = fitCircle(corners)
  if (circle === undefined) return []
  const allowedMm = Math.max(offCircleMm, offCircleShare * 2 * circle.radius)
  if (corners.some(({ x, y }) => Math.abs(Math.hypot(x - circle.x, y - circle.y) - circle.radius) > allowedMm))
    return []
  if (!goesRound(corners, circle)) return []
  const centre = add(scale(first, circle.x), scale(second, circle.y))
  const strips = new Set(wall.flatMap(({ one, other }) => [one, other]))
  const ends = endsOfWall(mesh, facets, strips, axis, centre)
  if (ends === undefined || !(ends.low.isOpen || ends.high.isOpen)) return []
  const isThrough = ends.low.isOpen && ends.high.isOpen
  const isHighMouth = isThrough ? isUpper(axis) : ends.high.isOpen
  const mouthMm = isHighMouth ? ends.high.atMm : ends.low.atMm
  return [
    {
      diameterMm: rounded(2 * circle.radius),
      at: roundedPoint(along(centre, axis, mouthMm)),
      along: isHighMouth ? plainZero(scale(axis, -1)) : plainZero(axis),
      depthMm: rounded(ends.high.atMm - ends.low.atMm),
      through: isThrough,
    },
  ]
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

/** True when an axis points up; level ones to the back, else to the right. */
function isUpper(axis: Vec3): boolean {
  const small = 1e-6
  if (Math.abs(axis[2]) > small) return axis[2] > 0
  if (Math.abs(axis[1]) > small) return axis[1] > 0
  return axis[0] > 0
}

/** Below 0.0005 mm two numbers are the same for sorting; 32-bit files do not hold more. */
function compareMm(one: number, other: number): number {
  return Math.abs(one - other) < 5e-4 ? 0 : one - other
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
