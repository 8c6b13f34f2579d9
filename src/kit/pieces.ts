/** Units, frames, parts and pads with their instances in place. */
import { combinePoses, poseAsExported, poseFrom, poseTowards, turnDirection } from "../solids/index.ts"
import type { Pose, Vec3 } from "../solids/types.ts"
import type { FrameSpec, PadSpec, PartSpec, PlacementSpec, Triple, UnitSpec } from "../spec/types.ts"
import { type Bodies, keepMesh, keyOfBody, shellsInOrder } from "./bodies.ts"
import { called, type Desk, placeOf, report } from "./desk.ts"
import { instanceId } from "./names.ts"
import type { Direction, Instance } from "./types.ts"

/** The instances of one unit, frame, part or pad. `isWhole` is false when a mesh is missing that was asked for, and reported. */
export type Placed = { readonly instances: readonly Instance[]; readonly isWhole: boolean }

/** Places a unit. Without a body it has one instance that is not drawn. */
export function placeUnit(desk: Desk, bodies: Bodies, unit: UnitSpec): Placed {
  const mesh = unit.body === undefined ? undefined : keyOfBody(desk, bodies, unit.body)
  const instance: Instance = { id: unit.id, of: unit.id, owner: "unit", mesh, pose: poseOf(unit.placement) }
  return { instances: [instance], isWhole: mesh !== undefined || hasNoBody(desk, unit) }
}

/** Places a frame: a tube whose middle is at the placement, along its direction. */
export function placeFrame(
  desk: Desk,
  bodies: Bodies,
  frame: FrameSpec,
): Placed & { readonly axis: { readonly at: Vec3; readonly along: Vec3 } } {
  const { profile, lengthMm, wallMm, placement } = frame
  const path = `${frame.path}/tube`
  // The mouth of a tube of unknown wall is not drawn: a made-up wall would look like knowledge.
  const shape = { kind: "tube", profile, lengthMm, wallMm: wallMm ?? 0 } as const
  const mesh = keyOfBody(desk, bodies, { kind: "shape", shape, path })
  const pose = combinePoses(poseOf(placement), poseTowards(unitVector(frame.along) ?? [1, 0, 0]))
  return {
    instances: [{ id: frame.id, of: frame.id, owner: "frame", mesh, pose }],
    isWhole: mesh !== undefined,
    axis: { at: pose.at, along: turnDirection(pose, [1, 0, 0]) },
  }
}

/**
 * Places a part. Several copies of which at most one has a place share the separate solids of their model, one each;
 * when the numbers differ those without a place are not drawn, and that is reported.
 */
export function placePart(desk: Desk, bodies: Bodies, part: PartSpec): Placed {
  const key = part.body === undefined ? undefined : keyOfBody(desk, bodies, part.body)
  const { copies } = part
  const place = (index: number, placement: PlacementSpec, mesh: string | undefined): Instance => ({
    id: instanceId(part, index),
    of: part.id,
    owner: "part",
    mesh,
    pose: poseOf(placement),
  })
  const mesh = key === undefined ? undefined : bodies.meshes.get(key)
  const placedCount = copies.filter(({ isPlaced }) => isPlaced).length
  const [first] = copies
  if (mesh === undefined || first === undefined || placedCount === copies.length) {
    const instances = copies.map(({ placement }, index) => place(index, placement, key))
    return { instances, isWhole: key !== undefined || hasNoBody(desk, part) }
  }
  const shells = shellsInOrder(mesh)
  if (shells.length === copies.length && placedCount <= 1) {
    const keys = shells.map((shell) => keepMesh(bodies, shell))
    return { instances: copies.map((_, index) => place(index, first.placement, keys[index])), isWhole: true }
  }
  const solids = shells.length === 1 ? "one solid" : `${shells.length} separate solids`
  const without = copies.length - placedCount
  report(desk, "copies-without-places", "warning", {
    message: `${called(part.path)} has ${copies.length} copies, ${without} without a place; its shape has ${solids}`,
    where: placeOf(desk, part.path, "copies"),
    why: "where a copy is comes from its place, or from a model that holds all copies; one without is not drawn",
    fix: "write `copies: [ { at: [x, y, z] }, … ]`, or export all of them into one model",
    subjects: [part.id],
  })
  const instances = copies.map(({ placement, isPlaced }, index) => place(index, placement, isPlaced ? key : undefined))
  return { instances, isWhole: false }
}

/** Places the pads that have both a size and places; each is a block, its size along x, y, z, round its place. */
export function placePad(desk: Desk, bodies: Bodies, pad: PadSpec): readonly Instance[] {
  const { sizeMm, copies } = pad
  if (sizeMm === undefined || sizeMm.some((size) => size <= 0) || copies.length === 0) return []
  const shape = { kind: "box", sizeMm, holes: [] } as const
  const mesh = keyOfBody(desk, bodies, { kind: "shape", shape, path: pad.path })
  const middle: Pose = { ...poseAsExported, at: [-sizeMm[0] / 2, -sizeMm[1] / 2, -sizeMm[2] / 2] }
  return copies.map((placement, index) => ({
    id: copies.length === 1 ? pad.id : `${pad.id}.${index + 1}`,
    of: pad.id,
    owner: "pad" as const,
    mesh,
    pose: combinePoses(poseOf(placement), middle),
  }))
}

/** Gives a typed direction with length 1; none for one without length. */
export function unitVector(triple: Triple | undefined): Direction | undefined {
  if (triple === undefined) return undefined
  const length = Math.hypot(...triple)
  return length === 0 ? undefined : [triple[0] / length, triple[1] / length, triple[2] / length]
}

/** True when none was written; one that was faulty and left out has a place all the same. */
function hasNoBody(desk: Desk, { body, path }: UnitSpec | PartSpec): boolean {
  const { places } = desk.spec
  return body === undefined && !Object.hasOwn(places, `${path}/model`) && !Object.hasOwn(places, `${path}/shape`)
}

function poseOf({ at, turnDeg }: PlacementSpec): Pose {
  return poseFrom(at, turnDeg)
}
