/** Turns triangles so that the right hand points outward. */
import { signedVolumeMm3, vertexAt } from "./bounds.ts"
import { isPointInside } from "./rays.ts"
import { type Neighbours, nextHalf, pairEdges, pickTriangles, shellOfTriangles } from "./topology.ts"
import type { Mesh } from "./types.ts"

/**
 * Gives a closed mesh with all triangles outward. Where neighbours disagree the way round is spread from triangle to
 * triangle, and a shell is taken for a void when it lies inside an odd number of others. Where all agree, only a mesh
 * that is inside out as a whole is turned. `turnedCount` is 0 for a mesh that was right already.
 */
export function orientOutward(mesh: Mesh): { readonly mesh: Mesh; readonly turnedCount: number } {
  const { neighbours } = pairEdges(mesh)
  const triangles = mesh.triangles.slice()
  const { shells, count } = shellOfTriangles(mesh, neighbours)
  const spreadCount = spreadWayRound(triangles, neighbours)
  const turned: Mesh = { positions: mesh.positions, triangles }
  if (spreadCount === 0) {
    if (signedVolumeMm3(turned) >= 0) return { mesh, turnedCount: 0 }
    for (let triangle = 0; triangle < shells.length; triangle += 1) turnTriangle(triangles, triangle)
    return { mesh: turned, turnedCount: shells.length }
  }
  const lists: number[][] = Array.from({ length: count }, () => [])
  shells.forEach((shell, triangle) => {
    lists[shell]?.push(triangle)
  })
  const pieces = lists.map((list) => pickTriangles(turned, list))
  pieces.forEach((piece, index) => {
    const depth = pieces.filter((other, at) => at !== index && isPointInside(other, vertexAt(piece, 0))).length
    const isOutward = signedVolumeMm3(piece) > 0
    if (isOutward === (depth % 2 === 0)) return
    for (const triangle of lists[index] ?? []) turnTriangle(triangles, triangle)
  })
  let turnedCount = 0
  for (let start = 0; start < triangles.length; start += 3) {
    if (triangles[start + 1] !== mesh.triangles[start + 1]) turnedCount += 1
  }
  return { mesh: turned, turnedCount }
}

/** Turns the triangles that disagree with the first of their shell; gives their number. */
function spreadWayRound(triangles: Uint32Array, neighbours: Neighbours): number {
  const isSeen = new Uint8Array(triangles.length / 3)
  const isTurned = new Uint8Array(triangles.length / 3)
  const original = triangles.slice()
  let turnedCount = 0
  for (let seed = 0; seed < isSeen.length; seed += 1) {
    if (isSeen[seed] === 1) continue
    isSeen[seed] = 1
    const queue = [seed]
    for (let triangle = queue.pop(); triangle !== undefined; triangle = queue.pop()) {
      for (let half = triangle * 3; half < triangle * 3 + 3; half += 1) {
        const other = neighbours[half] ?? -1
        const next = Math.floor(other / 3)
        if (other < 0 || isSeen[next] === 1) continue
        isSeen[next] = 1
        // Two triangles agree when they run along their common edge in opposite directions.
        const agrees = original[half] === original[nextHalf(other)]
        isTurned[next] = agrees ? (isTurned[triangle] ?? 0) : 1 - (isTurned[triangle] ?? 0)
        if (isTurned[next] === 1) {
          turnTriangle(triangles, next)
          turnedCount += 1
        }
        queue.push(next)
      }
    }
  }
  return turnedCount
}

function turnTriangle(triangles: Uint32Array, triangle: number): void {
  const kept = triangles[triangle * 3 + 1] ?? 0
  triangles[triangle * 3 + 1] = triangles[triangle * 3 + 2] ?? 0
  triangles[triangle * 3 + 2] = kept
}
