/** What one step's picture shows: things with their roles, drawn apart, and which numbers are wanted. */
import type { Fit } from "../fit/types.ts"
import type { Instance, Kit, Step } from "../kit/types.ts"
import type { StepState } from "../sequence/types.ts"
import { keepNear } from "./clusters.ts"
import type { StepFasteners } from "./fastener-work.ts"
import { clipFrames, isFrameShown } from "./frames.ts"
import { addCable, addCables } from "./scene-cables.ts"
import { makeDraft, stayMm, thingOf } from "./scene-draft.ts"
import { addFasteners, fastenedThing, placeAnyJoint } from "./scene-fasteners.ts"
import { addPieces } from "./scene-pieces.ts"
import { addPads, addTies, tieThing } from "./scene-ties.ts"
import type { SolidStore } from "./solid-store.ts"
import type { StepScene } from "./things.ts"
import { placeTies } from "./ties.ts"

/** A step with what its picture must know of the steps round it. */
export type StepStory = {
  readonly step: Step
  readonly state: StepState
  readonly fasteners: StepFasteners
  /** Instances that stand on the table or lie in the box and are not in the picture. */
  readonly away: ReadonlySet<string>
}

/** How much further than usual things are drawn from their places; 1 is usual. */
export type Spread = { readonly parts: number; readonly fasteners: number }

/** Puts the scene of one step together. */
export function buildStepScene(kit: Kit, fit: Fit, story: StepStory, store: SolidStore, spread: Spread): StepScene {
  const { step, state, fasteners } = story
  const draft = makeDraft()
  const shown = findShown(kit, story)
  const shifts = addPieces(kit, shown, state, spread.parts, store, draft)
  if (isPadWork(kit, state, shown)) {
    addPads(kit, state, shifts, store, draft)
    return draft
  }
  addFasteners(kit, fit, withoutUnseen(kit, fasteners, shown), store, shifts, spread.fasteners, draft)
  addTies(kit, state, store, draft)
  addPads(kit, state, shifts, store, draft)
  addCables(kit, step, state, shown, shifts, store, draft)
  return dropIdleMotions({ ...draft, things: clipFrames(kit, keepNear(draft.things, "new"), store) })
}

/** Leaves out the screws of units that are not in the picture. */
function withoutUnseen(kit: Kit, fasteners: StepFasteners, shown: readonly Instance[]): StepFasteners {
  const unseen = kit.ownJoints.filter(({ unit }) => !shown.some(({ of }) => of === unit)).map(({ id }) => id)
  return new Map([...fasteners].filter(([id]) => !unseen.includes(id)))
}

/** Pieces that lie alone on the table go nowhere yet: their arrows and paths are left out. */
function dropIdleMotions(scene: StepScene): StepScene {
  return scene.things.some(({ role, id }) => role !== "new" || id.includes(":"))
    ? scene
    : { ...scene, motions: [], paths: [] }
}

/** Pieces in the picture. Pads that are stuck to parts still on the table are shown with these parts alone. */
function findShown(kit: Kit, { step, state, away }: StepStory): readonly Instance[] {
  const present = kit.instances.filter(
    ({ id, owner, of }) =>
      (state.presentBefore.includes(id) || state.placed.includes(id) || state.removed.includes(id)) &&
      (owner !== "frame" || isFrameShown(kit, of, step, state)) &&
      owner !== "pad" &&
      !away.has(id),
  )
  const isOnlyPads = state.placed.length + state.jointsStarted.length + state.tiesClosed.length === 0
  const onTable = kit.pads.filter(({ id }) => state.padsStuck.includes(id)).map(({ on }) => on)
  const holders = kit.instances.filter(({ id, of }) => onTable.includes(of) || onTable.includes(id))
  const isApart = holders.length > 0 && !holders.some((holder) => present.includes(holder))
  return isOnlyPads && isApart ? holders : present
}

function isPadWork(kit: Kit, state: StepState, shown: readonly Instance[]): boolean {
  return state.padsStuck.length > 0 && shown.every(({ of, id }) => kit.pads.some(({ on }) => on === of || on === id))
}

/** The finished assembly: everything in its final place that hangs together with unit or frame, nothing new. */
export function buildOverviewScene(kit: Kit, fit: Fit, last: StepState | undefined, store: SolidStore): StepScene {
  const draft = makeDraft()
  const gone = new Set(last?.removed ?? [])
  const present = new Set([...(last?.presentBefore ?? []), ...(last?.placed ?? [])])
  for (const instance of kit.instances) {
    if (gone.has(instance.id) || (present.size > 0 && !present.has(instance.id) && instance.owner !== "frame")) continue
    const thing = thingOf(kit, instance, instance.owner === "part" ? "context" : "host", stayMm, store)
    if (thing !== undefined) draft.things.push(thing)
  }
  const joints = new Set([...(last?.jointsBefore ?? []), ...(last?.jointsStarted ?? [])])
  for (const id of last?.jointsRemoved ?? []) joints.delete(id)
  for (const id of [...joints].sort()) {
    for (const fastened of placeAnyJoint(kit, fit, id, store))
      draft.things.push(fastenedThing(fastened, "context", stayMm))
  }
  const ties = [...(last?.tiesBefore ?? []), ...(last?.tiesClosed ?? [])]
  for (const tie of kit.ties.filter(({ id }) => ties.includes(id)))
    for (const { id, mesh } of placeTies(kit, tie, store)) draft.things.push(tieThing(id, mesh, "context"))
  const touched = new Set(
    last?.cables.filter(({ connected, passages }) => connected.length + passages.length > 0).map(({ cable }) => cable),
  )
  for (const cable of kit.cables) {
    if (touched.has(cable.id)) addCable(cable, cable.route, "context", store, draft)
  }
  return { ...draft, things: clipFrames(kit, keepNear(draft.things, "host"), store) }
}
