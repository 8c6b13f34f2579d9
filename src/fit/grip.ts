/**
 * Grip of a joint: how thick the clamped parts are under the head. Measured on the meshes with rays along the screw
 * axis, on a ring just outside the clearance hole, so that counterbores count and the hole itself does not.
 */
import { findHead, findWasher } from "../fasteners/sizes.ts"
import { findClearance } from "../fasteners/tables/iso-273.ts"
import type { BorePoint, Joint } from "../kit/joint-types.ts"
import type { Instance, Kit } from "../kit/types.ts"
import { cornersOf, hitsOfRay, turnDirection } from "../solids/index.ts"
import type { Mesh, Pose, Vec3 } from "../solids/types.ts"
import type { Known } from "./types.ts"

const rayCount = 12

/** Grip of a joint: measured where points and meshes allow, else declared, else unknown. */
export function computeGrip(kit: Kit, joint: Joint): Known | undefined {
  const measured = measureGrip(kit, joint)
  if (measured !== undefined) return measured
  if (joint.declaredGripMm === undefined) return undefined
  return { value: joint.declaredGripMm, origin: "declared", from: "declared in the joint" }
}

/** Grip measured on the meshes of all clamped parts; undefined when one of them was met by too few rays. */
function measureGrip(kit: Kit, joint: Joint): Known | undefined {
  const points = joint.points.length > 0 ? joint.points : joint.bore.points
  if (points.length === 0 || joint.through.length === 0) return undefined
  const ringMm = ringRadiusMm(joint)
  const grips = points.flatMap((point) => {
    const thicknesses = joint.through.map((part) => measureThickness(kit, part, point, ringMm))
    return thicknesses.every((one) => one !== undefined) ? [thicknesses.reduce((sum, one) => sum + one, 0)] : []
  })
  if (grips.length === 0) return undefined
  return {
    value: Math.round(median(grips) * 1000) / 1000,
    origin: "measured",
    from: `measured on ${joint.through.join(" and ")}`,
  }
}

/** Half way between the edge of the hole and the edge of the face that presses; outside the whole countersink. */
function ringRadiusMm(joint: Joint): number {
  const { diameterMm, head } = joint.fastener
  const hole = joint.clearanceMm ?? findClearance(diameterMm).mediumMm
  const size = findHead(joint.fastener)
  if (head === "countersunk") return size.diameterMm / 2 + 0.5
  const washer = joint.washer === undefined ? undefined : findWasher(joint.washer)
  const outer = Math.max(washer?.outerMm ?? size.bearingMm, hole + 0.6)
  return (hole + outer) / 4
}

/** Thickness of the piece that a bore goes through, median over its holes; undefined without places or mesh. */
export function measureBoreWall(kit: Kit, joint: Joint): number | undefined {
  const { bore, fastener } = joint
  const ringMm = (bore.holeMm ?? fastener.diameterMm) / 2 + fastener.diameterMm / 4
  const walls = bore.points.flatMap((point) => {
    const found = bore.owners.flatMap((owner) => measureThickness(kit, owner, point, ringMm) ?? [])
    return found.length === 0 ? [] : [Math.max(...found)]
  })
  return walls.length === 0 ? undefined : Math.round(median(walls) * 1000) / 1000
}

/** Thickness of one part at one screw: the layer nearest to the point, median over the ring. */
function measureThickness(kit: Kit, part: string, point: BorePoint, ringMm: number): number | undefined {
  const layers = kit.instances
    .filter((instance) => instance.of === part || instance.id === part)
    .flatMap((instance) => layersOf(kit, instance, point, ringMm))
  // A part with two walls on the axis is clamped at the one next to the thread, so the nearest layer counts.
  if (layers.length * 2 < rayCount) return undefined
  return median(layers.map(({ fromMm, toMm }) => toMm - fromMm))
}

type Layer = { readonly fromMm: number; readonly toMm: number }

function layersOf(kit: Kit, instance: Instance, point: BorePoint, ringMm: number): readonly Layer[] {
  const mesh = instance.mesh === undefined ? undefined : kit.meshes[instance.mesh]
  if (mesh === undefined) return []
  const at = intoPiece(instance.pose, point.at)
  const along = turnBack(instance.pose, point.along)
  const near = trianglesNear(mesh, at, along, ringMm)
  if (near === undefined) return []
  const [sideways, upward] = squareTo(along)
  return Array.from({ length: rayCount }, (_, index) => {
    // Half a step off, so that rays do not run along the seams of facets that start at angle 0.
    const angle = (2 * Math.PI * (index + 0.37)) / rayCount
    const [x, y] = [ringMm * Math.cos(angle), ringMm * Math.sin(angle)]
    const start = move(move(move(at, sideways, x), upward, y), along, -near.reachMm)
    return nearestLayer(hitsOfRay(near.mesh, start, along), near.reachMm)
  }).filter((layer) => layer !== undefined)
}

/** The layer of material whose nearest face lies closest to the point. */
function nearestLayer(
  hits: readonly { readonly distanceMm: number; readonly isEntering: boolean }[],
  pointAtMm: number,
): Layer | undefined {
  const layers = hits.flatMap((hit, index): readonly Layer[] => {
    const next = hits[index + 1]
    if (!hit.isEntering || next === undefined || next.isEntering) return []
    return [{ fromMm: hit.distanceMm, toMm: next.distanceMm }]
  })
  const distance = ({ fromMm, toMm }: Layer): number =>
    pointAtMm >= fromMm && pointAtMm <= toMm ? 0 : Math.min(Math.abs(fromMm - pointAtMm), Math.abs(toMm - pointAtMm))
  return layers.reduce<Layer | undefined>(
    (best, layer) => (best === undefined || distance(layer) < distance(best) - 1e-9 ? layer : best),
    undefined,
  )
}

/** Only the triangles that the ring of rays can meet, so that each ray is cheap; and how far back the rays must start. */
function trianglesNear(
  mesh: Mesh,
  at: Vec3,
  along: Vec3,
  ringMm: number,
): { readonly mesh: Mesh; readonly reachMm: number } | undefined {
  const [sideways, upward] = squareTo(along)
  const kept: number[] = []
  let reachMm = 0
  for (let triangle = 0; triangle < mesh.triangles.length / 3; triangle += 1) {
    const flat = cornersOf(mesh, triangle).map((corner) => {
      const offset: Vec3 = [corner[0] - at[0], corner[1] - at[1], corner[2] - at[2]]
      return [inner(offset, sideways), inner(offset, upward), inner(offset, along)] as const
    })
    const misses = [0, 1].some(
      (axis) =>
        Math.min(...flat.map((one) => one[axis] ?? 0)) > ringMm ||
        Math.max(...flat.map((one) => one[axis] ?? 0)) < -ringMm,
    )
    if (misses) continue
    kept.push(...mesh.triangles.slice(triangle * 3, triangle * 3 + 3))
    reachMm = Math.max(reachMm, ...flat.map(([, , depth]) => -depth))
  }
  if (kept.length === 0) return undefined
  return { mesh: { positions: mesh.positions, triangles: Uint32Array.from(kept) }, reachMm: reachMm + 1 }
}

function intoPiece(pose: Pose, point: Vec3): Vec3 {
  return turnBack(pose, [point[0] - pose.at[0], point[1] - pose.at[1], point[2] - pose.at[2]])
}

/** The inverse turn: the transpose, since rotations (mirrored ones too) are orthonormal. */
function turnBack(pose: Pose, direction: Vec3): Vec3 {
  const [a, b, c, d, e, f, g, h, i] = pose.rotation
  return turnDirection({ rotation: [a, d, g, b, e, h, c, f, i], at: [0, 0, 0] }, direction)
}

function squareTo(along: Vec3): readonly [Vec3, Vec3] {
  const other: Vec3 = Math.abs(along[0]) < 0.8 ? [1, 0, 0] : [0, 1, 0]
  const first = normalise(crossOf(along, other))
  return [first, crossOf(along, first)]
}

function crossOf(one: Vec3, other: Vec3): Vec3 {
  return [
    one[1] * other[2] - one[2] * other[1],
    one[2] * other[0] - one[0] * other[2],
    one[0] * other[1] - one[1] * other[0],
  ]
}

function normalise(vector: Vec3): Vec3 {
  const length = Math.hypot(...vector)
  return [vector[0] / length, vector[1] / length, vector[2] / length]
}

function inner(one: Vec3, other: Vec3): number {
  return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]
}

function move(from: Vec3, direction: Vec3, byMm: number): Vec3 {
  return [from[0] + direction[0] * byMm, from[1] + direction[1] * byMm, from[2] + direction[2] * byMm]
}

/** Middle value; of an even number the mean of the middle two. Callers give at least one. */
function median(values: readonly number[]): number {
  const sorted = [...values].sort((one, other) => one - other)
  const half = Math.floor(sorted.length / 2)
  const upper = sorted[half] ?? 0
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[half - 1] ?? upper)) / 2
}
