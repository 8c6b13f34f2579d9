/** What the line engine needs of a mesh, independent of where it stands and from where it is seen. */
import { findFirstHalves, nextHalf } from "../solids/topology.ts"
import type { Mesh } from "../solids/types.ts"

/** Faces that meet at a larger angle than this make an edge that is drawn. Practice of line-art programs, no source. */
const creaseDeg = 25
/** A triangle flatter than this has no reliable normal. */
const sliverMm = 1e-3

/** Kinds of edges, whatever the view. */
export const edgeKind = { smooth: 0, crease: 1, boundary: 2 } as const

export type PreparedMesh = {
  readonly positions: Float64Array
  readonly triangles: Uint32Array
  /** Unit normal of each triangle, xyz xyz ... */
  readonly normals: Float64Array
  /** Two vertices an edge. */
  readonly edges: Uint32Array
  /** Two triangles an edge; the second is -1 where the mesh is open. */
  readonly faces: Int32Array
  /** One of `edgeKind` an edge. */
  readonly kinds: Uint8Array
  /** Every edge has exactly two triangles: the mesh is the skin of a solid. */
  readonly isClosed: boolean
}

/**
 * Finds the edges of a mesh with the two triangles at each, and marks creases and open edges. Contours depend on
 * the view and are found later among all edges. Slivers take the normal across their longest side, so that they
 * neither make nor hide a crease. An edge of more than two triangles counts as a crease.
 */
export function prepareMesh(mesh: Mesh): PreparedMesh {
  const { positions, triangles } = mesh
  const { edges, faces, extras } = findEdges(mesh)
  const normals = findNormals(mesh, edges, faces)
  const kinds = new Uint8Array(edges.length / 2)
  const limit = Math.cos((creaseDeg * Math.PI) / 180)
  let isClosed = extras.size === 0
  for (let edge = 0; edge < kinds.length; edge += 1) {
    const one = 3 * (faces[2 * edge] ?? 0)
    const other = 3 * (faces[2 * edge + 1] ?? 0)
    if (other < 0) {
      kinds[edge] = edgeKind.boundary
      isClosed = false
      continue
    }
    const cosine =
      (normals[one] ?? 0) * (normals[other] ?? 0) +
      (normals[one + 1] ?? 0) * (normals[other + 1] ?? 0) +
      (normals[one + 2] ?? 0) * (normals[other + 2] ?? 0)
    if (cosine < limit || extras.has(edge)) kinds[edge] = edgeKind.crease
  }
  return { positions, triangles, normals, edges, faces, kinds, isClosed }
}

/** Pairs up the sides of all triangles; `extras` are edges that more than two triangles share. */
function findEdges({ triangles }: Mesh): { edges: Uint32Array; faces: Int32Array; extras: Set<number> } {
  const firstOf = findFirstHalves(triangles)
  const edgeOf = new Int32Array(triangles.length).fill(-1)
  const edges = new Uint32Array(2 * triangles.length)
  const faces = new Int32Array(2 * triangles.length).fill(-1)
  const extras = new Set<number>()
  let count = 0
  for (let side = 0; side < triangles.length; side += 1) {
    const triangle = Math.floor(side / 3)
    const from = triangles[side] ?? 0
    const to = triangles[nextHalf(side)] ?? 0
    if (from === to) continue
    const edge = edgeOf[firstOf[side] ?? side] ?? -1
    if (edge < 0) {
      edgeOf[side] = count
      edges[2 * count] = from
      edges[2 * count + 1] = to
      faces[2 * count] = triangle
      count += 1
    } else if (faces[2 * edge + 1] === -1) faces[2 * edge + 1] = triangle
    else extras.add(edge)
  }
  return { edges: edges.slice(0, 2 * count), faces: faces.slice(0, 2 * count), extras }
}

function findNormals({ positions, triangles }: Mesh, edges: Uint32Array, faces: Int32Array): Float64Array {
  const normals = new Float64Array(triangles.length)
  const slivers: number[] = []
  for (let first = 0; first < triangles.length; first += 3) {
    const a = 3 * (triangles[first] ?? 0)
    const b = 3 * (triangles[first + 1] ?? 0)
    const c = 3 * (triangles[first + 2] ?? 0)
    const ax = positions[a] ?? 0
    const ay = positions[a + 1] ?? 0
    const az = positions[a + 2] ?? 0
    const ux = (positions[b] ?? 0) - ax
    const uy = (positions[b + 1] ?? 0) - ay
    const uz = (positions[b + 2] ?? 0) - az
    const vx = (positions[c] ?? 0) - ax
    const vy = (positions[c + 1] ?? 0) - ay
    const vz = (positions[c + 2] ?? 0) - az
    const nx = uy * vz - uz * vy
    const ny = uz * vx - ux * vz
    const nz = ux * vy - uy * vx
    const doubleArea = Math.hypot(nx, ny, nz)
    const longest = Math.max(Math.hypot(ux, uy, uz), Math.hypot(vx, vy, vz), Math.hypot(ux - vx, uy - vy, uz - vz))
    if (doubleArea <= sliverMm * longest) {
      slivers.push(first / 3)
      continue
    }
    normals[first] = nx / doubleArea
    normals[first + 1] = ny / doubleArea
    normals[first + 2] = nz / doubleArea
  }
  if (slivers.length > 0) lendNormals(slivers, normals, { positions, triangles }, edges, faces)
  return normals
}

/** Gives each sliver the normal of the triangle beyond its longest side; a few rounds reach rows of slivers. */
function lendNormals(
  slivers: readonly number[],
  normals: Float64Array,
  { positions }: Mesh,
  edges: Uint32Array,
  faces: Int32Array,
): void {
  const longest = new Map<number, { lengthMm: number; beyond: number }>(
    slivers.map((sliver) => [sliver, { lengthMm: -1, beyond: -1 }]),
  )
  for (let edge = 0; edge < edges.length / 2; edge += 1) {
    const pair = [faces[2 * edge] ?? -1, faces[2 * edge + 1] ?? -1] as const
    for (const [self, beyond] of [pair, [pair[1], pair[0]] as const]) {
      const best = longest.get(self)
      if (best === undefined) continue
      const a = 3 * (edges[2 * edge] ?? 0)
      const b = 3 * (edges[2 * edge + 1] ?? 0)
      const lengthMm = Math.hypot(
        (positions[a] ?? 0) - (positions[b] ?? 0),
        (positions[a + 1] ?? 0) - (positions[b + 1] ?? 0),
        (positions[a + 2] ?? 0) - (positions[b + 2] ?? 0),
      )
      if (lengthMm > best.lengthMm) longest.set(self, { lengthMm, beyond })
    }
  }
  for (let round = 0; round < 4; round += 1) {
    for (const sliver of slivers) {
      const beyond = longest.get(sliver)?.beyond ?? -1
      if (beyond < 0) continue
      for (let axis = 0; axis < 3; axis += 1) normals[3 * sliver + axis] = normals[3 * beyond + axis] ?? 0
    }
  }
}
