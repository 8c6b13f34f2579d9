/** Solids and helpers that the tests of this folder share. */
import { poseFrom, readStl } from "../../src/solids/index.ts"
import type { Kernel, Mesh, Pose, Shape, Vec3 } from "../../src/solids/types.ts"

/** Numbers from 0 to 1 that are the same in every run: mulberry32, a public-domain generator. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

/** A pose in any direction, up to 200 mm away. */
export function anyPose(random: () => number): Pose {
  const between = (from: number, to: number): number => from + (to - from) * random()
  return poseFrom(
    [between(-200, 200), between(-200, 200), between(-200, 200)],
    [between(0, 360), between(0, 360), between(0, 360)],
  )
}

/** A mesh that must be there. */
export function given(mesh: Mesh | undefined): Mesh {
  if (mesh === undefined) throw new Error("the kernel gave no mesh")
  return mesh
}

/** The mesh of STL bytes that must be readable. */
export function meshOf(bytes: Uint8Array): Mesh {
  const read = readStl(bytes, "piece.stl")
  if ("problem" in read) throw new Error(read.problem.message)
  return read.mesh
}

/** A prism on a regular polygon whose corners lie on the circle; with it holes of any number of segments are cut. */
export function makePolygonBar(diameterMm: number, lengthMm: number, segments: number, turnDeg = 0): Mesh {
  const positions: number[] = []
  for (const z of [0, lengthMm]) {
    for (let corner = 0; corner < segments; corner += 1) {
      const angle = (corner / segments) * 2 * Math.PI + (turnDeg * Math.PI) / 180
      positions.push((Math.cos(angle) * diameterMm) / 2, (Math.sin(angle) * diameterMm) / 2, z)
    }
  }
  const triangles: number[] = []
  for (let corner = 0; corner < segments; corner += 1) {
    const next = (corner + 1) % segments
    triangles.push(corner, next, segments + next, corner, segments + next, segments + corner)
    if (corner > 0 && corner < segments - 1) {
      triangles.push(0, corner + 1, corner, segments, segments + corner, segments + corner + 1)
    }
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) }
}

/** A cone frustum along z, as makePolygonBar. */
export function makeCone(lowMm: number, highMm: number, lengthMm: number, segments: number): Mesh {
  const bar = makePolygonBar(2, lengthMm, segments)
  const positions = bar.positions.slice()
  for (let start = 0; start < positions.length; start += 3) {
    const radiusMm = (positions[start + 2] === 0 ? lowMm : highMm) / 2
    positions[start] = (positions[start] ?? 0) * radiusMm
    positions[start + 1] = (positions[start + 1] ?? 0) * radiusMm
  }
  return { positions, triangles: bar.triangles }
}

/** A block from the origin, without holes. */
export function box(kernel: Kernel, sizeMm: Vec3): Mesh {
  return kernel.make({ kind: "box", sizeMm, holes: [] })
}

export const plateWithHoles: Shape = {
  kind: "plate",
  sizeMm: [80, 60, 6],
  cornerMm: 5,
  holes: [
    { at: [10, 10, 6], along: [0, 0, -1], diameterMm: 4.3, depthMm: 0 },
    { at: [70, 10, 6], along: [0, 0, -1], diameterMm: 8, depthMm: 3 },
    { at: [70, 10, 6], along: [0, 0, -1], diameterMm: 4.3, depthMm: 0 },
    { at: [30, 30, 0], along: [0, 0, 1], diameterMm: 2.5, depthMm: 4 },
    { at: [50, 30, 6], along: [0, 0, -1], sizeMm: [14, 10], depthMm: 0 },
    { at: [0, 45, 3], along: [1, 0, 0], diameterMm: 2, depthMm: 12 },
  ],
}
