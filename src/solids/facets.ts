/** Flat facets of a mesh: triangles that lie in one plane and hang together. */
import { cornersOf } from "./bounds.ts"
import { type Neighbours, nextHalf, pairEdges } from "./topology.ts"
import type { Mesh, Vec3 } from "./types.ts"
import { add, cross, dot, lengthOf, scale, subtract, unit } from "./vectors.ts"

/** Facets of a mesh and how they meet. */
export type Facets = {
  readonly neighbours: Neighbours
  /** Number of the facet of each triangle. */
  readonly facetOf: Int32Array
  /** Triangles of each facet. */
  readonly trianglesOf: readonly (readonly number[])[]
  /** Unit normal of each facet, weighted by area. */
  readonly normals: readonly Vec3[]
}

/**
 * Triangles within this angle of their neighbour are flat together: above the rounding of 32-bit coordinates on a
 * slim strip, below the step of a circle of 700 segments.
 */
const flatDeg = 0.4
/** Triangles lower than this have no reliable normal; they go with the neighbour across their longest side. */
const slimMm = 1e-3

/** Gathers the triangles of a closed mesh into flat facets. */
export function gatherFacets(mesh: Mesh): Facets {
  const { neighbours } = pairEdges(mesh)
  const count = mesh.triangles.length / 3
  const areas: Vec3[] = []
  const isSlim = new Uint8Array(count)
  const longestHalf = new Int32Array(count)
  for (let triangle = 0; triangle < count; triangle += 1) {
    const [a, b, c] = cornersOf(mesh, triangle)
    const area = cross(subtract(b, a), subtract(c, a))
    const sides = [lengthOf(subtract(b, a)), lengthOf(subtract(c, b)), lengthOf(subtract(a, c))]
    const longest = Math.max(...sides)
    areas.push(area)
    longestHalf[triangle] = triangle * 3 + sides.indexOf(longest)
    if (lengthOf(area) < slimMm * longest) isSlim[triangle] = 1
  }
  const parents = Int32Array.from({ length: count }, (_, index) => index)
  const join = (one: number, other: number): void => {
    const [a, b] = [rootOf(parents, one), rootOf(parents, other)]
    if (a !== b) parents[Math.max(a, b)] = Math.min(a, b)
  }
  const cosFlat = Math.cos((flatDeg * Math.PI) / 180)
  const directions = areas.map(unit)
  for (let triangle = 0; triangle < count; triangle += 1) {
    if (isSlim[triangle] === 1) {
      const across = neighbours[longestHalf[triangle] ?? 0] ?? -1
      if (across >= 0) join(triangle, Math.floor(across / 3))
      continue
    }
    for (let half = triangle * 3; half < triangle * 3 + 3; half += 1) {
      const other = Math.floor((neighbours[half] ?? -1) / 3)
      if (other <= triangle || isSlim[other] === 1) continue
      const [one, two] = [directions[triangle], directions[other]]
      if (one !== undefined && two !== undefined && dot(one, two) >= cosFlat) join(triangle, other)
    }
  }
  const numbers = new Map<number, number>()
  const facetOf = new Int32Array(count)
  const sums: Vec3[] = []
  const trianglesOf: number[][] = []
  for (let triangle = 0; triangle < count; triangle += 1) {
    const root = rootOf(parents, triangle)
    const facet = numbers.get(root) ?? numbers.size
    numbers.set(root, facet)
    facetOf[triangle] = facet
    const list = trianglesOf[facet]
    if (list === undefined) trianglesOf[facet] = [triangle]
    else list.push(triangle)
    sums[facet] = add(sums[facet] ?? [0, 0, 0], isSlim[triangle] === 1 ? [0, 0, 0] : (areas[triangle] ?? [0, 0, 0]))
  }
  return { neighbours, facetOf, trianglesOf, normals: sums.map(unit) }
}

/** How two facets meet at an edge: the angle between their normals, below 0 where the material is on the inside of the bend. */
export type Bend = {
  /** Half edge, from the side of facet `one`. */
  readonly half: number
  readonly one: number
  readonly other: number
  readonly from: Vec3
  readonly to: Vec3
  /** Above 0 where the facets face each other (a groove, the wall of a hole), below 0 at an outer edge. */
  readonly hollowDeg: number
}

/** Gives each edge at which two facets meet, once. */
export function listBends(mesh: Mesh, facets: Facets): readonly Bend[] {
  const bends: Bend[] = []
  for (let half = 0; half < mesh.triangles.length; half += 1) {
    const across = facets.neighbours[half] ?? -1
    if (across < half) continue
    const one = facets.facetOf[Math.floor(half / 3)] ?? 0
    const other = facets.facetOf[Math.floor(across / 3)] ?? 0
    const [normalOne, normalOther] = [facets.normals[one], facets.normals[other]]
    if (one === other || normalOne === undefined || normalOther === undefined) continue
    const corners = cornersOf(mesh, Math.floor(half / 3))
    const from = corners[half % 3]
    const to = corners[nextHalf(half) % 3]
    if (from === undefined || to === undefined) continue
    // Walking along the edge with facet `one` on the left, the normals turn towards each other where it is hollow.
    const turn = dot(cross(normalOther, normalOne), unit(subtract(to, from)))
    const angleDeg = (Math.atan2(turn, dot(normalOne, normalOther)) * 180) / Math.PI
    bends.push({ half, one, other, from, to, hollowDeg: angleDeg })
  }
  return bends
}

/** Middle of two points. */
export function middle(one: Vec3, other: Vec3): Vec3 {
  return scale(add(one, other), 0.5)
}

function rootOf(parents: Int32Array, start: number): number {
  let root = start
  while (parents[root] !== root) root = parents[root] ?? root
  for (let at = start; parents[at] !== root; ) {
    const next = parents[at] ?? root
    parents[at] = root
    at = next
  }
  return root
}
