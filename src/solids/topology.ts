/** What hangs together in a mesh: edges, their triangles, separate shells, the way round. */
import { signedVolumeMm3, vertexAt } from "./bounds.ts"
import { isPointInside } from "./rays.ts"
import type { Mesh, Vec3 } from "./types.ts"

/**
 * For each half edge (index `triangle * 3 + corner`, running from that corner to the next) the half edge of the
 * neighbour across it, or -1 when the edge has one triangle or more than two.
 */
export type Neighbours = Int32Array

/** What keeps a mesh from being one or several closed solids. */
export type EdgeFaults = {
  /** Edges with one triangle. */
  readonly openCount: number
  /** Edges with more than two. */
  readonly crowdedCount: number
  /** Middle of the first edge at fault, or undefined when all is well. */
  readonly near: Vec3 | undefined
}

/** Finds the neighbour across each edge, whichever way round the two triangles are, and counts the edges that lack a pair. */
export function pairEdges(mesh: Mesh): { readonly neighbours: Neighbours; readonly faults: EdgeFaults } {
  const { triangles } = mesh
  const firstOf = findFirstHalves(triangles)
  const neighbours = new Int32Array(triangles.length).fill(-1)
  const useCount = new Int32Array(triangles.length)
  for (let half = 0; half < triangles.length; half += 1) {
    const first = firstOf[half] ?? half
    useCount[first] = (useCount[first] ?? 0) + 1
    if (first === half) continue
    neighbours[half] = first
    neighbours[first] = half
  }
  let [openCount, crowdedCount] = [0, 0]
  let near: Vec3 | undefined
  for (let half = 0; half < triangles.length; half += 1) {
    const first = firstOf[half] ?? half
    const count = useCount[first] ?? 0
    if (count === 2) continue
    neighbours[half] = -1
    near ??= middleOf(mesh, half)
    if (first !== half) continue
    if (count === 1) openCount += 1
    else crowdedCount += 1
  }
  return { neighbours, faults: { openCount, crowdedCount, near } }
}

/** Gives for each half edge the first one between the same two vertices; a hash table on plain arrays, since meshes are large. */
export function findFirstHalves(triangles: Uint32Array): Int32Array {
  const bits = Math.max(4, Math.ceil(Math.log2(triangles.length + 1)) + 1)
  const table = new Int32Array(2 ** bits).fill(-1)
  const mask = 2 ** bits - 1
  const firstOf = new Int32Array(triangles.length)
  for (let half = 0; half < triangles.length; half += 1) {
    const from = triangles[half] ?? 0
    const to = triangles[nextHalf(half)] ?? 0
    const [low, high] = from < to ? [from, to] : [to, from]
    const mixed = Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b)
    let slot = (mixed ^ (mixed >>> 15)) & mask
    for (;;) {
      const first = table[slot] ?? -1
      if (first === -1) {
        table[slot] = half
        firstOf[half] = half
        break
      }
      const [one = 0, other = 0] = [triangles[first], triangles[nextHalf(first)]]
      if ((one === low && other === high) || (one === high && other === low)) {
        firstOf[half] = first
        break
      }
      slot = (slot + 1) & mask
    }
  }
  return firstOf
}

/** Gives for each triangle the number of its shell; shells are counted in the order of their first triangle. */
export function shellOfTriangles(
  mesh: Mesh,
  neighbours: Neighbours,
): { readonly shells: Int32Array; readonly count: number } {
  const shells = new Int32Array(mesh.triangles.length / 3).fill(-1)
  let count = 0
  for (let seed = 0; seed < shells.length; seed += 1) {
    if (shells[seed] !== -1) continue
    const queue = [seed]
    shells[seed] = count
    for (let triangle = queue.pop(); triangle !== undefined; triangle = queue.pop()) {
      for (let corner = 0; corner < 3; corner += 1) {
        const other = neighbours[triangle * 3 + corner] ?? -1
        if (other < 0) continue
        const next = Math.floor(other / 3)
        if (shells[next] !== -1) continue
        shells[next] = count
        queue.push(next)
      }
    }
    count += 1
  }
  return { shells, count }
}

/**
 * Splits a mesh into its separate solids, in the order of their first triangle. A shell that is inside out is a
 * void and goes with the smallest outer shell that it lies in.
 */
export function splitShells(mesh: Mesh): readonly Mesh[] {
  const { neighbours } = pairEdges(mesh)
  const { shells, count } = shellOfTriangles(mesh, neighbours)
  const lists: number[][] = Array.from({ length: count }, () => [])
  shells.forEach((shell, triangle) => {
    lists[shell]?.push(triangle)
  })
  const pieces = lists.map((list) => pickTriangles(mesh, list))
  const isVoid = pieces.map((piece) => signedVolumeMm3(piece) < 0)
  const owners = pieces.map((piece, index) => (isVoid[index] ? ownerOfVoid(piece, pieces, isVoid) : index))
  return pieces.flatMap((_, index) => {
    if (owners[index] !== index) return []
    return [pickTriangles(mesh, lists.filter((__, other) => owners[other] === index).flat())]
  })
}

/** Gives the mesh of some of the triangles, without the vertices that they do not use. */
export function pickTriangles(mesh: Mesh, picked: readonly number[]): Mesh {
  const renumbered = new Map<number, number>()
  const positions: number[] = []
  const triangles = new Uint32Array(picked.length * 3)
  picked.forEach((triangle, index) => {
    for (let corner = 0; corner < 3; corner += 1) {
      const vertex = mesh.triangles[triangle * 3 + corner] ?? 0
      let number = renumbered.get(vertex)
      if (number === undefined) {
        number = positions.length / 3
        renumbered.set(vertex, number)
        positions.push(...vertexAt(mesh, vertex))
      }
      triangles[index * 3 + corner] = number
    }
  })
  return { positions: Float64Array.from(positions), triangles }
}

function ownerOfVoid(hollow: Mesh, pieces: readonly Mesh[], isVoid: readonly boolean[]): number {
  const point = vertexAt(hollow, 0)
  let [owner, smallestMm3] = [-1, Infinity]
  pieces.forEach((piece, index) => {
    if (isVoid[index] || !isPointInside(piece, point)) return
    const volumeMm3 = signedVolumeMm3(piece)
    if (volumeMm3 >= smallestMm3) return
    owner = index
    smallestMm3 = volumeMm3
  })
  return owner === -1 ? pieces.indexOf(hollow) : owner
}

/** Gives the half edge after this one, round the same triangle. */
export function nextHalf(half: number): number {
  return half % 3 === 2 ? half - 2 : half + 1
}

function middleOf(mesh: Mesh, half: number): Vec3 {
  const from = vertexAt(mesh, mesh.triangles[half] ?? 0)
  const to = vertexAt(mesh, mesh.triangles[nextHalf(half)] ?? 0)
  return [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2]
}
