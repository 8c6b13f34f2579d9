/** Bounding boxes and plain measures of meshes. */
import type { Mesh, Vec3 } from "./types.ts"
import { cross, dot, lengthOf, subtract } from "./vectors.ts"

/** Smallest and largest coordinate along each axis. */
export type Bounds = { readonly min: Vec3; readonly max: Vec3 }

/** Gives the bounding box of a mesh; an empty mesh gives undefined. Only vertices used by a triangle count. */
export function boundsOf(mesh: Mesh): Bounds | undefined {
  if (mesh.triangles.length === 0) return undefined
  const min: [number, number, number] = [Infinity, Infinity, Infinity]
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity]
  for (const vertex of mesh.triangles) {
    const [x, y, z] = vertexAt(mesh, vertex)
    if (x < min[0]) min[0] = x
    if (x > max[0]) max[0] = x
    if (y < min[1]) min[1] = y
    if (y > max[1]) max[1] = y
    if (z < min[2]) min[2] = z
    if (z > max[2]) max[2] = z
  }
  return { min, max }
}

/** Gives the box round several boxes; none gives undefined. */
export function joinBounds(boxes: readonly Bounds[]): Bounds | undefined {
  const [first, ...others] = boxes
  if (first === undefined) return undefined
  return others.reduce(
    (joined, { min, max }) => ({
      min: [Math.min(joined.min[0], min[0]), Math.min(joined.min[1], min[1]), Math.min(joined.min[2], min[2])],
      max: [Math.max(joined.max[0], max[0]), Math.max(joined.max[1], max[1]), Math.max(joined.max[2], max[2])],
    }),
    first,
  )
}

/** Gives the lengths of the sides of a box. */
export function sizeOf(bounds: Bounds): Vec3 {
  return subtract(bounds.max, bounds.min)
}

/** Gives a vertex by its index. */
export function vertexAt(mesh: Mesh, vertex: number): Vec3 {
  const start = vertex * 3
  return [mesh.positions[start] ?? 0, mesh.positions[start + 1] ?? 0, mesh.positions[start + 2] ?? 0]
}

/** Gives the three corners of a triangle by its index. */
export function cornersOf(mesh: Mesh, triangle: number): readonly [Vec3, Vec3, Vec3] {
  const start = triangle * 3
  return [
    vertexAt(mesh, mesh.triangles[start] ?? 0),
    vertexAt(mesh, mesh.triangles[start + 1] ?? 0),
    vertexAt(mesh, mesh.triangles[start + 2] ?? 0),
  ]
}

/** Gives the volume in mm3 by the signed tetrahedra to the first vertex; negative for a mesh that is inside out. */
export function signedVolumeMm3(mesh: Mesh): number {
  if (mesh.triangles.length === 0) return 0
  const origin = vertexAt(mesh, mesh.triangles[0] ?? 0)
  let sixfold = 0
  for (let triangle = 0; triangle < mesh.triangles.length / 3; triangle += 1) {
    const [a, b, c] = cornersOf(mesh, triangle)
    sixfold += dot(subtract(a, origin), cross(subtract(b, origin), subtract(c, origin)))
  }
  return sixfold / 6
}

/** Gives the surface in mm2. */
export function areaMm2(mesh: Mesh): number {
  let twofold = 0
  for (let triangle = 0; triangle < mesh.triangles.length / 3; triangle += 1) {
    const [a, b, c] = cornersOf(mesh, triangle)
    twofold += lengthOf(cross(subtract(b, a), subtract(c, a)))
  }
  return twofold / 2
}
