/** Placements: turning and moving points, directions and meshes. */
import type { Mesh, Pose, Vec3 } from "./types.ts"
import { dot } from "./vectors.ts"

/** The pose that changes nothing. */
export const poseAsExported: Pose = { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], at: [0, 0, 0] }

/**
 * Gives the pose of a placement: turned about the fixed x axis, then y, then z (degrees, right hand), then moved by `at`.
 * Quarter turns are exact.
 */
export function poseFrom(at: Vec3, turnDeg: Vec3): Pose {
  const [cosX, sinX] = cosAndSin(turnDeg[0])
  const [cosY, sinY] = cosAndSin(turnDeg[1])
  const [cosZ, sinZ] = cosAndSin(turnDeg[2])
  return {
    rotation: [
      cosZ * cosY,
      cosZ * sinY * sinX - sinZ * cosX,
      cosZ * sinY * cosX + sinZ * sinX,
      sinZ * cosY,
      sinZ * sinY * sinX + cosZ * cosX,
      sinZ * sinY * cosX - cosZ * sinX,
      -sinY,
      cosY * sinX,
      cosY * cosX,
    ],
    at,
  }
}

/** Gives the pose that turns by `angleDeg` about an axis through `at` along a unit vector, by the right hand. */
export function turnAbout(at: Vec3, [x, y, z]: Vec3, angleDeg: number): Pose {
  const [cos, sin] = cosAndSin(angleDeg)
  const k = 1 - cos
  // Rodrigues' formula.
  const turn: Pose = {
    rotation: [
      cos + k * x * x,
      k * x * y - sin * z,
      k * x * z + sin * y,
      k * x * y + sin * z,
      cos + k * y * y,
      k * y * z - sin * x,
      k * x * z - sin * y,
      k * y * z + sin * x,
      cos + k * z * z,
    ],
    at: [0, 0, 0],
  }
  const moved = movePoint(turn, at)
  return { ...turn, at: [at[0] - moved[0], at[1] - moved[1], at[2] - moved[2]] }
}

/** Gives `inner` followed by `outer` as one pose. */
export function combinePoses(outer: Pose, inner: Pose): Pose {
  const [a, b, c, d, e, f, g, h, i] = inner.rotation
  const [ad, be, cf] = [
    turnDirection(outer, [a, d, g]),
    turnDirection(outer, [b, e, h]),
    turnDirection(outer, [c, f, i]),
  ]
  return {
    rotation: [ad[0], be[0], cf[0], ad[1], be[1], cf[1], ad[2], be[2], cf[2]],
    at: movePoint(outer, inner.at),
  }
}

/** Gives the pose that turns the axis x into `direction` (a unit vector) by the shortest way. */
export function poseTowards(direction: Vec3): Pose {
  const [x, y, z] = direction
  if (x < -1 + 1e-12) return poseFrom([0, 0, 0], [0, 0, 180])
  // Rodrigues' formula for the turn about x cross direction; 1 / (1 + cos) replaces (1 - cos) / sin^2.
  const k = 1 / (1 + x)
  return { rotation: [x, -y, -z, y, 1 - k * y * y, -k * y * z, z, -k * y * z, 1 - k * z * z], at: [0, 0, 0] }
}

/** Gives `point` of the piece as exported, in the place where the pose puts it. */
export function movePoint(pose: Pose, point: Vec3): Vec3 {
  const turned = turnDirection(pose, point)
  return [turned[0] + pose.at[0], turned[1] + pose.at[1], turned[2] + pose.at[2]]
}

/** Gives `direction` of the piece as exported, as the pose turns it. */
export function turnDirection(pose: Pose, direction: Vec3): Vec3 {
  const [a, b, c, d, e, f, g, h, i] = pose.rotation
  return [dot([a, b, c], direction), dot([d, e, f], direction), dot([g, h, i], direction)]
}

/** Gives the mesh in its place. A mirroring pose swaps two corners of each triangle, so that outside stays outside. */
export function moveMesh(mesh: Mesh, pose: Pose): Mesh {
  const positions = new Float64Array(mesh.positions.length)
  for (let start = 0; start < positions.length; start += 3) {
    const from: Vec3 = [mesh.positions[start] ?? 0, mesh.positions[start + 1] ?? 0, mesh.positions[start + 2] ?? 0]
    positions.set(movePoint(pose, from), start)
  }
  const triangles = mesh.triangles.slice()
  if (determinantSign(pose) < 0) {
    for (let start = 0; start < triangles.length; start += 3) {
      const kept = triangles[start + 1] ?? 0
      triangles[start + 1] = triangles[start + 2] ?? 0
      triangles[start + 2] = kept
    }
  }
  return { positions, triangles }
}

function cosAndSin(angleDeg: number): readonly [number, number] {
  const quarters = angleDeg / 90
  if (Number.isInteger(quarters)) {
    const turns = ((quarters % 4) + 4) % 4
    return [turns === 0 ? 1 : turns === 2 ? -1 : 0, turns === 1 ? 1 : turns === 3 ? -1 : 0]
  }
  const angle = (angleDeg * Math.PI) / 180
  return [Math.cos(angle), Math.sin(angle)]
}

function determinantSign(pose: Pose): number {
  const [a, b, c, d, e, f, g, h, i] = pose.rotation
  return Math.sign(a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g))
}
