/**
 * Grip of a joint: how thick the clamped parts are under the head. Measured on the meshes with rays along the screw
 * axis, on a ring just outside the clearance hole, so that counterbores count and the hole itself does not.
 */
import { findHead, findWasher } from "../fasteners/sizes.ts"
import { findClearance } from "../fasteners/tables/iso-273.ts"
import type { BorePoint, Joint } from "../kit/joint-types.ts"
import type { Instance, Kit } from "../kit/types.ts"
import { type Layer, layersOnRing, median, rayCount, seeAxis } from "./axis-rays.ts"
import type { Known } from "./types.ts"

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
export function ringRadiusMm(joint: Joint): number {
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

/** On each ray of the ring the layer nearest to the point; rays that meet nothing are left out. */
function layersOf(kit: Kit, instance: Instance, point: BorePoint, ringMm: number): readonly Layer[] {
  const axis = seeAxis(kit, instance, point, ringMm)
  if (axis === undefined) return []
  return layersOnRing(axis, ringMm).flatMap((layers) => nearestLayer(layers) ?? [])
}

/** The layer of material whose nearest face lies closest to the point. */
function nearestLayer(layers: readonly Layer[]): Layer | undefined {
  const distance = ({ fromMm, toMm }: Layer): number =>
    fromMm <= 0 && toMm >= 0 ? 0 : Math.min(Math.abs(fromMm), Math.abs(toMm))
  return layers.reduce<Layer | undefined>(
    (best, layer) => (best === undefined || distance(layer) < distance(best) - 1e-9 ? layer : best),
    undefined,
  )
}
