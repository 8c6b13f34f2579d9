/** Ties and pads of a picture. */
import type { Kit, Tie } from "../kit/types.ts"
import type { StepState } from "../sequence/types.ts"
import type { Pose, Vec3 } from "../solids/types.ts"
import { lengthOf, scale } from "../solids/vectors.ts"
import { placePads } from "./pads.ts"
import { type Draft, stayMm } from "./scene-draft.ts"
import type { SolidStore } from "./solid-store.ts"
import { middleOf, type Thing, type ThingRole } from "./things.ts"
import { placeTies } from "./ties.ts"
import { restPose, shiftPose } from "./vector.ts"

/** A piece of a tie as a thing. */
export function tieThing(id: string, mesh: Thing["mesh"], role: ThingRole): Thing {
  return { id, role, mesh, pose: restPose, moved: undefined }
}

/** Adds the ties that are closed or being closed. */
export function addTies(kit: Kit, state: StepState, store: SolidStore, draft: Draft): void {
  const draw = (tie: Tie, role: ThingRole): void => {
    const ids: string[] = []
    for (const { id, mesh } of placeTies(kit, tie, store)) {
      draft.things.push(tieThing(id, mesh, role))
      if (!ids.includes(id)) ids.push(id)
    }
    if (role === "new" && ids.length > 0)
      draft.wanted.push({ itemReference: tie.itemReference, count: tie.count, of: ids })
  }
  for (const tie of kit.ties) {
    if (state.tiesClosed.includes(tie.id)) draw(tie, "new")
    else if (state.tiesBefore.includes(tie.id)) draw(tie, "context")
  }
}

/** Adds the pads that are stuck or being stuck. */
export function addPads(
  kit: Kit,
  state: StepState,
  shifts: ReadonlyMap<string, Vec3>,
  store: SolidStore,
  draft: Draft,
): void {
  for (const pad of kit.pads) {
    const isNew = state.padsStuck.includes(pad.id)
    if (!isNew && !state.padsBefore.includes(pad.id)) continue
    const ids: string[] = []
    for (const { id, mesh, pose, away, on } of placePads(kit, pad, store)) {
      if (!draft.things.some((thing) => thing.id === on) && !isNew) continue
      const shift = isNew ? scale(away, 18) : (shifts.get(on) ?? stayMm)
      const moved: Pose = shiftPose(pose, shift)
      const isMoved = lengthOf(shift) > 0
      draft.things.push({ id, role: isNew ? "new" : "context", mesh, pose: moved, moved: isMoved ? shift : undefined })
      ids.push(id)
      if (!isNew) continue
      const middle = middleOf(mesh, moved)
      draft.motions.push({ of: id, from: middle, direction: scale(away, -1), lengthMm: 18, behindMm: 8 })
    }
    if (isNew && ids.length > 0) draft.wanted.push({ itemReference: pad.itemReference, count: ids.length, of: ids })
  }
}
