/** Grip pads: thin plates that follow the tube in the seat of the part they stick to. */
import type { Frame, Instance, Kit, Pad } from "../kit/types.ts"
import { turnDirection } from "../solids/poses.ts"
import type { Mesh, Pose, Vec3 } from "../solids/types.ts"
import { add, along, cross, dot, lengthOf, scale, subtract, unit } from "../solids/vectors.ts"
import { sweepProfile } from "./loft.ts"
import type { PreparedMesh } from "./prepare-mesh.ts"
import type { SolidStore } from "./solid-store.ts"
import { extentAlong, middleOf } from "./things.ts"
import { restPose } from "./vector.ts"

export type PlacedPad = {
  readonly id: string
  readonly mesh: PreparedMesh
  readonly pose: Pose
  /** Unit vector from the seat out into the open. */
  readonly away: Vec3
  /** Instance it sticks to. */
  readonly on: string
}

/**
 * Gives the pads in their places: those that the kit tells, else one in the seat of each piece that ties hold to a frame.
 * None when neither is known.
 */
export function placePads(kit: Kit, pad: Pad, store: SolidStore): readonly PlacedPad[] {
  const typed = kit.instances.filter(({ id }) => pad.instances.includes(id))
  if (typed.length > 0) return typed.flatMap((instance) => placeTyped(kit, instance, pad, store))
  const size = pad.sizeMm
  const holders = kit.instances.filter(({ of, id }) => of === pad.on || id === pad.on)
  const tie = kit.ties.find(({ holds }) => holds.includes(pad.on) || holders.some(({ of }) => holds.includes(of)))
  const frame = kit.frames.find(({ id }) => id === tie?.frame)
  if (size === undefined || frame === undefined || pad.count > holders.length) return []
  return holders.slice(0, pad.count).flatMap((holder, index) => {
    const shell = shellOf(kit, holder, frame, size, pad.thicknessMm ?? 1)
    if (shell === undefined) return []
    const id = `pad:${pad.id}.${index + 1}`
    return [{ id, mesh: store.get(id, () => shell.mesh), pose: restPose, away: shell.away, on: holder.id }]
  })
}

/** A pad with a place of its own comes square to its broad face, from the side away from what it sticks to. */
function placeTyped(kit: Kit, instance: Instance, pad: Pad, store: SolidStore): readonly PlacedPad[] {
  const key = instance.mesh
  const mesh = key === undefined ? undefined : kit.meshes[key]
  if (key === undefined || mesh === undefined) return []
  const middle = middleOf(mesh, instance.pose)
  const holders = kit.instances.flatMap((holder) => {
    const own = holder.mesh === undefined ? undefined : kit.meshes[holder.mesh]
    if (own === undefined || (holder.of !== pad.on && holder.id !== pad.on)) return []
    const apart = subtract(middle, middleOf(own, holder.pose))
    return [{ id: holder.id, apart, awayMm: lengthOf(apart) }]
  })
  const holder = holders.sort((one, other) => one.awayMm - other.awayMm)[0]
  const thin = thinDirection(mesh, instance.pose)
  const away = holder === undefined || dot(thin, holder.apart) >= 0 ? thin : scale(thin, -1)
  const prepared = store.get(`mesh ${key}`, () => mesh)
  return [{ id: instance.id, mesh: prepared, pose: instance.pose, away, on: holder?.id ?? pad.on }]
}

/** The pad's own axis along which it is thinnest. */
function thinDirection(mesh: Mesh, pose: Pose): Vec3 {
  const axes: readonly Vec3[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ]
  const turned = axes.map((axis) => turnDirection(pose, axis))
  const sizes = turned.map((axis) => {
    const { min, max } = extentAlong(mesh, pose, axis)
    return max - min
  })
  return turned[sizes.indexOf(Math.min(...sizes))] ?? [0, 0, 1]
}

/** A strip round the tube's upper side, `size[0]` round it and `size[1]` along it. */
function shellOf(
  kit: Kit,
  holder: Instance,
  frame: Frame,
  size: readonly [number, number],
  thicknessMm: number,
): { mesh: Mesh; away: Vec3 } | undefined {
  const mesh = holder.mesh === undefined ? undefined : kit.meshes[holder.mesh]
  if (mesh === undefined) return undefined
  const axis = unit(frame.axis.along)
  const middle = middleOf(mesh, holder.pose)
  const centre = along(frame.axis.at, axis, dot(subtract(middle, frame.axis.at), axis))
  const lean = subtract(middle, centre)
  if (lengthOf(lean) < 1e-6) return undefined
  const towards = unit(lean)
  const across = cross(axis, towards)
  const path = seatPath(frame, size[0], thicknessMm / 2).map(([u, v]) =>
    add(centre, add(scale(across, u), scale(towards, v))),
  )
  const half = size[1] / 2
  const thick = thicknessMm / 2
  return {
    mesh: sweepProfile([-half, -thick, half, -thick, half, thick, -half, thick], path, false, axis),
    away: scale(towards, -1),
  }
}

/** Middle line of the pad in the plane across the tube; v is towards the seat. */
function seatPath({ profile }: Frame, lengthMm: number, outMm: number): readonly (readonly [number, number])[] {
  if (profile.kind === "square") {
    const half = Math.min(lengthMm, profile.widthMm) / 2
    const v = profile.heightMm / 2 + outMm
    return [
      [-half, v],
      [half, v],
    ]
  }
  const radius = profile.diameterMm / 2 + outMm
  const reach = Math.min(lengthMm / radius, Math.PI * 0.94) / 2
  return Array.from({ length: 25 }, (_, index) => {
    const angle = Math.PI / 2 + reach - (2 * reach * index) / 24
    return [radius * Math.cos(angle), radius * Math.sin(angle)] as const
  })
}
