/** The things of one picture: meshes in place with their part in the story. */

import { movePoint } from "../solids/poses.ts"
import type { Mesh, Pose, Vec3 } from "../solids/types.ts"
import { dot } from "../solids/vectors.ts"
import type { PreparedMesh } from "./prepare-mesh.ts"

/** A phantom is seen through: only its outline is drawn, and it hides nothing. */
export type ThingRole = "new" | "context" | "host" | "phantom"

export type Thing = {
  /** Instance id, or `foot.1` of a joint, tie or cable with its kind before it: `screw:foot.1`, `tie:clamp.2`. */
  readonly id: string
  readonly role: ThingRole
  readonly mesh: PreparedMesh
  /** Where it is drawn, moved apart or not. */
  readonly pose: Pose
  /** How far it is drawn from its final place; undefined when it is drawn there. */
  readonly moved: Vec3 | undefined
}

/** A straight line in space along which something is moved; drawn where nothing hides it. */
export type PathLine = { readonly of: string; readonly from: Vec3; readonly to: Vec3 }

/** A movement to be shown by an arrow somewhere between the two places of a thing. */
export type Motion = {
  readonly of: string
  /** Middle of the front of the thing as drawn, and the direction in which it goes. */
  readonly from: Vec3
  readonly direction: Vec3
  /** How far it goes. */
  readonly lengthMm: number
  /** Length of the thing behind its front. */
  readonly behindMm: number
}

/** A turn of a screw that stays in its place: an arrow round its head, clockwise as seen from outside. */
export type Turn = {
  readonly of: string
  /** Middle of the top of the head, and the direction out of the hole. */
  readonly middle: Vec3
  readonly axis: Vec3
  readonly radiusMm: number
}

/** A number to be set at one of some equal things. */
export type Wanted = {
  readonly itemReference: number
  readonly count: number
  readonly of: readonly string[]
}

/** What one picture shows, before a view is chosen. */
export type StepScene = {
  readonly things: readonly Thing[]
  readonly paths: readonly PathLine[]
  readonly motions: readonly Motion[]
  readonly turns: readonly Turn[]
  readonly wanted: readonly Wanted[]
  /** Points that should be seen: mouths of holes that receive something. */
  readonly places: readonly Vec3[]
}

/** Equal things share a group: `screw:foot` for `screw:foot.2`. */
export function groupOf(id: string): string {
  return id.replace(/\.[^.]*$/, "")
}

export type Extent = { readonly min: number; readonly max: number }

/** Smallest and largest reach of a mesh in its place along a direction. */
export function extentAlong(mesh: Mesh, pose: Pose, direction: Vec3): Extent {
  const { positions } = mesh
  const [a, b, c, d, e, f, g, h, i] = pose.rotation
  const [x, y, z] = direction
  const ux = x * a + y * d + z * g
  const uy = x * b + y * e + z * h
  const uz = x * c + y * f + z * i
  const base = dot(direction, pose.at)
  let min = Number.POSITIVE_INFINITY
  let max = Number.NEGATIVE_INFINITY
  for (let index = 0; index < positions.length; index += 3) {
    const value = ux * (positions[index] ?? 0) + uy * (positions[index + 1] ?? 0) + uz * (positions[index + 2] ?? 0)
    if (value < min) min = value
    if (value > max) max = value
  }
  return { min: min + base, max: max + base }
}

/** Middle of the bounding box along the axes of space. */
export function middleOf(mesh: Mesh, pose: Pose): Vec3 {
  const [x, y, z] = [
    extentAlong(mesh, pose, [1, 0, 0]),
    extentAlong(mesh, pose, [0, 1, 0]),
    extentAlong(mesh, pose, [0, 0, 1]),
  ]
  return [(x.min + x.max) / 2, (y.min + y.max) / 2, (z.min + z.max) / 2]
}

/** Vertices of a mesh in its place. */
export function placedPoints({ positions }: Mesh, pose: Pose): readonly Vec3[] {
  const points: Vec3[] = []
  for (let index = 0; index < positions.length; index += 3) {
    points.push(movePoint(pose, [positions[index] ?? 0, positions[index + 1] ?? 0, positions[index + 2] ?? 0]))
  }
  return points
}
