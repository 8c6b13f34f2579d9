/** Round holes of the pieces in their places, and the lines on which they lie. */
import { boundsOf, findRoundHoles, movePoint, turnDirection } from "../solids/index.ts"
import type { Mesh, RoundHole, Vec3 } from "../solids/types.ts"
import { dot } from "../solids/vectors.ts"
import type { Instance } from "./types.ts"

/** A round hole of one instance, in the assembly. */
export type PlacedHole = RoundHole & { readonly instance: string }

/** Where a finder keeps what it found, by the key of the mesh. */
export type HoleFinder = {
  readonly meshes: ReadonlyMap<string, Mesh>
  readonly found: Map<string, readonly RoundHole[]>
}

/** Holes whose axes are no further apart than this are on one line. */
const sameLineMm = 0.5
/** Directions within about 1 degree are parallel. */
const parallelCosine = 0.99985

/** Gives the round holes of an instance in its place; none when it has no mesh. */
export function holesOf(finder: HoleFinder, instance: Instance): readonly PlacedHole[] {
  const mesh = instance.mesh === undefined ? undefined : finder.meshes.get(instance.mesh)
  if (mesh === undefined || instance.mesh === undefined) return []
  const known = finder.found.get(instance.mesh) ?? findRoundHoles(mesh)
  finder.found.set(instance.mesh, known)
  return known.map((hole) => ({
    ...hole,
    at: rounded(movePoint(instance.pose, hole.at)),
    along: turnDirection(instance.pose, hole.along),
    instance: instance.id,
  }))
}

/** The same hole seen from its other end; only for holes that go through. */
export function fromOtherEnd(hole: PlacedHole): PlacedHole {
  return { ...hole, at: endOf(hole), along: [0 - hole.along[0], 0 - hole.along[1], 0 - hole.along[2]] }
}

/** The end of the wall away from the mouth. */
export function endOf({ at, along, depthMm }: RoundHole): Vec3 {
  return rounded([at[0] + along[0] * depthMm, at[1] + along[1] * depthMm, at[2] + along[2] * depthMm])
}

/** True when the hole lies on the line through `at` along `along`, in either direction. */
export function isOnLine(hole: RoundHole, line: { readonly at: Vec3; readonly along: Vec3 }): boolean {
  return Math.abs(dot(hole.along, line.along)) >= parallelCosine && distanceFromLine(hole.at, line) <= sameLineMm
}

/** Distance of a point from a line with a unit direction. */
export function distanceFromLine(point: Vec3, line: { readonly at: Vec3; readonly along: Vec3 }): number {
  const [x, y, z] = [point[0] - line.at[0], point[1] - line.at[1], point[2] - line.at[2]]
  const by = dot([x, y, z], line.along)
  return Math.hypot(x - line.along[0] * by, y - line.along[1] * by, z - line.along[2] * by)
}

/** How far a point lies along a line from its start. */
export function along(point: Vec3, line: { readonly at: Vec3; readonly along: Vec3 }): number {
  return dot([point[0] - line.at[0], point[1] - line.at[1], point[2] - line.at[2]], line.along)
}

/**
 * Walls of one diameter that follow each other on one line become one hole (the two cheeks of a fork, a hole that
 * another one crosses); its depth runs from the first mouth to the last end. Blind holes stay as they are.
 */
export function joinWalls(holes: readonly PlacedHole[]): readonly PlacedHole[] {
  const joined: PlacedHole[] = []
  for (const hole of holes) {
    const index = joined.findIndex(
      (other) =>
        other.through &&
        hole.through &&
        other.instance === hole.instance &&
        Math.abs(other.diameterMm - hole.diameterMm) < 0.02 &&
        isOnLine(hole, other),
    )
    const other = joined[index]
    if (other === undefined) {
      joined.push(hole)
      continue
    }
    const places = [0, other.depthMm, along(hole.at, other), along(endOf(hole), other)]
    const [first, last] = [Math.min(...places), Math.max(...places)]
    const at = rounded([0, 1, 2].map((axis) => (other.at[axis] ?? 0) + (other.along[axis] ?? 0) * first))
    joined[index] = { ...other, at, depthMm: last - first }
  }
  return joined
}

/** Middle of the bounding box of instances in their places; undefined when none has a mesh. */
export function middleOf(meshes: ReadonlyMap<string, Mesh>, instances: readonly Instance[]): Vec3 | undefined {
  const middles = instances.flatMap(({ mesh, pose }) => {
    const bounds = mesh === undefined ? undefined : boundsOf(meshes.get(mesh) ?? emptyMesh)
    if (bounds === undefined) return []
    const { min, max } = bounds
    return [movePoint(pose, [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2])]
  })
  if (middles.length === 0) return undefined
  const mean = (axis: 0 | 1 | 2): number => middles.reduce((sum, point) => sum + point[axis], 0) / middles.length
  return [mean(0), mean(1), mean(2)]
}

const emptyMesh: Mesh = { positions: new Float64Array(0), triangles: new Uint32Array(0) }

/** Sums of turned coordinates to 0.0001 mm, so that a place reads as it was meant. */
function rounded(point: readonly number[]): Vec3 {
  const [x = 0, y = 0, z = 0] = point.map((value) => Math.round(value * 1e4) / 1e4 + 0)
  return [x, y, z]
}
