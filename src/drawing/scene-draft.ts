/** A scene while it is put together. */
import type { Instance, Kit } from "../kit/types.ts"
import type { Vec3 } from "../solids/types.ts"
import { lengthOf } from "../solids/vectors.ts"
import type { SolidStore } from "./solid-store.ts"
import type { Motion, PathLine, StepScene, Thing, ThingRole, Turn, Wanted } from "./things.ts"
import { shiftPose } from "./vector.ts"

export type Draft = {
  readonly things: Thing[]
  readonly paths: PathLine[]
  readonly motions: Motion[]
  readonly turns: Turn[]
  readonly wanted: Wanted[]
  readonly places: Vec3[]
}

/** Shift of what stays in its place. */
export const stayMm: Vec3 = [0, 0, 0]

/** An empty scene. */
export function makeDraft(): Draft & StepScene {
  return { things: [], paths: [], motions: [], turns: [], wanted: [], places: [] }
}

/** A piece of the kit as a thing, shifted by `moved`; undefined when the spec gives it no shape. */
export function thingOf(
  kit: Kit,
  instance: Instance,
  role: ThingRole,
  moved: Vec3,
  store: SolidStore,
): Thing | undefined {
  const key = instance.mesh
  const mesh = key === undefined ? undefined : kit.meshes[key]
  if (key === undefined || mesh === undefined) return undefined
  const isMoved = lengthOf(moved) > 0
  return {
    id: instance.id,
    role,
    mesh: store.get(`mesh ${key}`, () => mesh),
    pose: shiftPose(instance.pose, moved),
    moved: isMoved ? moved : undefined,
  }
}
