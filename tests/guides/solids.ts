/** Bodies for the model scripts: prisms over convex outlines, drilled and joined by the mesh kernel. All in mm. */
import { segmentsForCircle } from "../../src/solids/circles.ts"
import type { Kernel, Mesh, Vec3 } from "../../src/solids/types.ts"

/** A convex outline, counter-clockwise. */
export type Corners = readonly (readonly [number, number])[]

/** The axis a prism is drawn out along; its outline lies in (y, z), (z, x) or (x, y), so that every prism is right-handed. */
export type Axis = "x" | "y" | "z"

/** Gives a closed prism over a convex outline from `from` to `to` along an axis. */
export function makePrism(axis: Axis, corners: Corners, from: number, to: number): Mesh {
  const count = corners.length
  const positions: number[] = []
  for (const depth of [from, to]) {
    for (const [u, v] of corners) positions.push(...turnToAxis(axis, u, v, depth))
  }
  const triangles: number[] = []
  for (let corner = 1; corner + 1 < count; corner++) {
    triangles.push(0, corner + 1, corner, count, count + corner, count + corner + 1)
  }
  for (let corner = 0; corner < count; corner++) {
    const next = (corner + 1) % count
    triangles.push(corner, next, count + next, corner, count + next, count + corner)
  }
  return { positions: new Float64Array(positions), triangles: new Uint32Array(triangles) }
}

/** Gives a box between two corners. */
export function makeBox(low: Vec3, high: Vec3): Mesh {
  return makePrism("z", rectangle(low[0], low[1], high[0], high[1]), low[2], high[2])
}

/** Gives a round bar along an axis; `u`, `v` are its middle in the plane of the outline. */
export function makeBar(axis: Axis, u: number, v: number, diameterMm: number, from: number, to: number): Mesh {
  return makePrism(axis, circle(u, v, diameterMm), from, to)
}

/** Gives the corners of a rectangle. */
export function rectangle(u0: number, v0: number, u1: number, v1: number): Corners {
  return [
    [u0, v0],
    [u1, v0],
    [u1, v1],
    [u0, v1],
  ]
}

/** Gives a rectangle with round corners. */
export function roundedRectangle(u0: number, v0: number, u1: number, v1: number, radiusMm: number): Corners {
  const centres = rectangle(u0 + radiusMm, v0 + radiusMm, u1 - radiusMm, v1 - radiusMm)
  return centres.flatMap(([u, v], quarter) =>
    Array.from({ length: 9 }, (_, index): readonly [number, number] => {
      const angle = ((quarter + 2) * Math.PI) / 2 + (index / 8) * (Math.PI / 2)
      return [u + radiusMm * Math.cos(angle), v + radiusMm * Math.sin(angle)]
    }),
  )
}

/** Joins bodies and then cuts tools away; throws when the result is not closed, since the script is then at fault. */
export function assemble(kernel: Kernel, bodies: readonly Mesh[], tools: readonly Mesh[]): Mesh {
  const joined = kernel.union(bodies)
  const cut = joined && tools.length > 0 ? kernel.subtract(joined, tools) : joined
  if (!cut) throw new Error("the bodies of a model do not join into one closed solid")
  return cut
}

function circle(u: number, v: number, diameterMm: number): Corners {
  // The kernel's own tubes have the same corners, so that a seat lies on its tube without overlap.
  const segmentCount = segmentsForCircle(diameterMm / 2)
  return Array.from({ length: segmentCount }, (_, index): readonly [number, number] => {
    const angle = (index / segmentCount) * 2 * Math.PI
    return [u + (diameterMm / 2) * Math.cos(angle), v + (diameterMm / 2) * Math.sin(angle)]
  })
}

function turnToAxis(axis: Axis, u: number, v: number, depth: number): Vec3 {
  if (axis === "x") return [depth, u, v]
  if (axis === "y") return [v, depth, u]
  return [u, v, depth]
}
