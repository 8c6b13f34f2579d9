/** Placements along an axis, for things that are built standing on the origin. */
import type { Pose, Vec3 } from "../solids/types.ts"
import { add, cross, unit } from "../solids/vectors.ts"

/** A unit vector square to `direction`, the same one each time; level where that is possible. */
export function squareTo(direction: Vec3): Vec3 {
  return unit(cross(direction, Math.abs(direction[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]))
}

/** The same pose, shifted. */
export function shiftPose(pose: Pose, by: Vec3): Pose {
  return { rotation: pose.rotation, at: add(pose.at, by) }
}

/** Pose that stands a thing built along z at `at` with its z axis along `axis`; the turn about the axis is fixed. */
export function poseAlong(at: Vec3, axis: Vec3): Pose {
  const z = unit(axis)
  const x = squareTo(z)
  const y = cross(z, x)
  return { rotation: [x[0], y[0], z[0], x[1], y[1], z[1], x[2], y[2], z[2]], at }
}

/** For things that are built in their place. */
export const restPose: Pose = { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], at: [0, 0, 0] }
