/** What one step's picture shows: things with their roles, drawn apart, and which numbers are wanted. */
import type { Fit } from "../fit/types.ts"
import type { Cable, Instance, Kit, Step, Tie } from "../kit/types.ts"
import type { StepState } from "../sequence/types.ts"
import type { Pose, Vec3 } from "../solids/types.ts"
import { add, along, dot, lengthOf, scale, subtract, unit } from "../solids/vectors.ts"
import { buildCableSolid } from "./cable-solid.ts"
import { type Solid, shiftBack } from "./explode.ts"
import { type Fastened, fastenedPose, placeJoint, placeOwnJoint } from "./fastened.ts"
import { clipFrames, isFrameShown } from "./frames.ts"
import { placePads } from "./pads.ts"
import type { SolidStore } from "./solid-store.ts"
import {
  extentAlong,
  type Motion,
  middleOf,
  type PathLine,
  type StepScene,
  type Thing,
  type ThingRole,
  type Wanted,
} from "./things.ts"
import { placeTies } from "./ties.ts"
import { restPose, shiftPose } from "./vector.ts"

type Draft = { things: Thing[]; paths: PathLine[]; motions: Motion[]; wanted: Wanted[]; places: Vec3[] }

const stayMm: Vec3 = [0, 0, 0]
/** Clear space between two fasteners drawn apart on one axis. */
const fastenerGapMm = 8

/** Puts the scene of one step together. */
export function buildStepScene(kit: Kit, fit: Fit, step: Step, state: StepState, store: SolidStore): StepScene {
  const draft: Draft = { things: [], paths: [], motions: [], wanted: [], places: [] }
  const shown = kit.instances.filter(
    ({ id, owner, of }) =>
      (state.presentBefore.includes(id) || state.placed.includes(id) || state.removed.includes(id)) &&
      (owner !== "frame" || isFrameShown(kit, of, step, state)) &&
      owner !== "pad",
  )
  const shifts = addInstances(kit, shown, step, state, store, draft)
  addFasteners(kit, fit, state, store, shifts, draft)
  addTies(kit, state, store, draft)
  addPads(kit, state, shifts, store, draft)
  addCables(kit, step, state, store, draft)
  return { ...draft, things: clipFrames(kit, draft.things, store) }
}

/** The finished assembly: everything in its final place, nothing new. */
export function buildOverviewScene(kit: Kit, fit: Fit, last: StepState | undefined, store: SolidStore): StepScene {
  const draft: Draft = { things: [], paths: [], motions: [], wanted: [], places: [] }
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
  for (const tie of kit.ties)
    for (const { id, mesh } of placeTies(kit, tie, store)) draft.things.push(tieThing(id, mesh, "context"))
  const touched = new Set(
    last?.cables.filter(({ connected, passages }) => connected.length + passages.length > 0).map(({ cable }) => cable),
  )
  for (const cable of kit.cables) if (touched.has(cable.id)) addCable(kit, cable.id, "context", store, draft)
  return { ...draft, things: clipFrames(kit, draft.things, store) }
}

function thingOf(kit: Kit, instance: Instance, role: ThingRole, moved: Vec3, store: SolidStore): Thing | undefined {
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

/** Draws the pieces; gives the shift of each one that is drawn apart. */
function addInstances(
  kit: Kit,
  shown: readonly Instance[],
  step: Step,
  state: StepState,
  store: SolidStore,
  draft: Draft,
): ReadonlyMap<string, Vec3> {
  const moving = new Set([...state.placed, ...state.removed])
  const shifts = new Map<string, Vec3>()
  const others: { goes: Vec3 | undefined; solid: Solid }[] = []
  for (const instance of shown) {
    const thing = thingOf(kit, instance, instance.owner === "part" ? "context" : "host", stayMm, store)
    if (thing === undefined || moving.has(instance.id)) continue
    draft.things.push(thing)
    if (instance.owner !== "frame") others.push({ goes: undefined, solid: thing })
  }
  const isHanging = !shown.some(({ id, owner }) => owner !== "frame" && !moving.has(id))
  for (const id of [...state.placed, ...state.removed]) {
    const instance = shown.find((candidate) => candidate.id === id)
    const still = instance === undefined ? undefined : thingOf(kit, instance, "new", stayMm, store)
    if (instance === undefined || still === undefined) continue
    const part = kit.parts.find((candidate) => candidate.id === instance.of)
    const goes = travelOf(kit, instance, state)
    const inWay = others
      .filter((other) => other.goes === undefined || isSameWay(other.goes, goes))
      .map(({ solid }) => solid)
    const frames = isHanging ? draft.things : []
    const shift = part?.isFlexible === true ? stayMm : shiftBack(still, goes, [...inWay, ...frames])
    const isMoved = lengthOf(shift) > 0 && (others.length > 0 || frames.length > 0)
    const thing = thingOf(kit, instance, "new", isMoved ? shift : stayMm, store)
    if (thing === undefined) continue
    draft.things.push(thing)
    others.push({ goes, solid: thing })
    if (!isMoved) continue
    shifts.set(id, shift)
    const isRemoved = state.removed.includes(id)
    const middle = middleOf(thing.mesh, thing.pose)
    const reach = extentAlong(thing.mesh, thing.pose, goes)
    const front = along(middle, goes, (reach.max - reach.min) / 2)
    draft.motions.push({
      of: id,
      from: front,
      direction: isRemoved ? scale(goes, -1) : goes,
      lengthMm: lengthOf(shift),
      behindMm: reach.max - reach.min,
    })
    const isScrewed = kit.joints.some(
      ({ id: joint, through }) => state.jointsStarted.includes(joint) && through.includes(instance.of),
    )
    if (!isScrewed) draft.paths.push({ of: id, from: front, to: along(front, goes, lengthOf(shift)) })
  }
  addWantedParts(kit, [...state.placed, ...state.removed], draft)
  void step
  return shifts
}

function addWantedParts(kit: Kit, ids: readonly string[], draft: Draft): void {
  for (const part of kit.parts) {
    const own = ids.filter((id) => part.instances.includes(id) && draft.things.some((thing) => thing.id === id))
    if (own.length > 0) draft.wanted.push({ itemReference: part.itemReference, count: own.length, of: own })
  }
}

/** The way a piece travels when it is put on: told, else as its screws are driven, else down. */
function travelOf(kit: Kit, instance: Instance, state: StepState): Vec3 {
  const part = kit.parts.find(({ id }) => id === instance.of)
  if (part?.goes !== undefined) return unit(part.goes)
  const joints = kit.joints.filter(({ through }) => through.includes(instance.of))
  const joint = joints.find(({ id }) => state.jointsStarted.includes(id)) ?? joints[0]
  const point = joint?.points[0]
  return point === undefined ? [0, 0, -1] : unit(point.along)
}

function isSameWay(one: Vec3, other: Vec3): boolean {
  return one[0] * other[0] + one[1] * other[1] + one[2] * other[2] > 0.99
}

function placeAnyJoint(kit: Kit, fit: Fit, id: string, store: SolidStore): readonly Fastened[] {
  const joint = kit.joints.find((candidate) => candidate.id === id)
  return joint === undefined ? placeOwnJoint(kit, id, store) : placeJoint(kit, fit, joint, store)
}

function fastenedThing(fastened: Fastened, role: ThingRole, shift: Vec3): Thing {
  return {
    id: fastened.id,
    role,
    mesh: fastened.mesh,
    pose: fastenedPose(fastened, shift),
    moved: lengthOf(shift) > 0 ? shift : undefined,
  }
}

function addFasteners(
  kit: Kit,
  fit: Fit,
  state: StepState,
  store: SolidStore,
  shifts: ReadonlyMap<string, Vec3>,
  draft: Draft,
): void {
  const started = state.jointsStarted
  const removed = state.jointsRemoved
  const inPlace = state.jointsBefore.filter((id) => !started.includes(id) && !removed.includes(id))
  for (const id of inPlace) {
    const role = state.jointsTightened.includes(id)
      ? "new"
      : kit.ownJoints.some((own) => own.id === id)
        ? "host"
        : "context"
    const list = placeAnyJoint(kit, fit, id, store)
    for (const fastened of list) draft.things.push(fastenedThing(fastened, role, stayMm))
    if (role === "new")
      addWantedFasteners(
        list.filter(({ kind }) => kind === "screw"),
        draft,
      )
  }
  const stacks = new Map<string, number>()
  const startedList = started.flatMap((id) => placeAnyJoint(kit, fit, id, store))
  moveApart(startedList, shifts, draft, stacks)
  for (const id of removed) takeOut(placeAnyJoint(kit, fit, id, store), shifts, draft, stacks)
}

/** Lays the fasteners of each axis out in the order in which they go on, and draws their axes. */
function moveApart(
  list: readonly Fastened[],
  shifts: ReadonlyMap<string, Vec3>,
  draft: Draft,
  stacks: Map<string, number>,
): void {
  for (const fastened of list) {
    const shift = stackOut(fastened, shifts, stacks)
    draft.things.push(fastenedThing(fastened, "new", shift))
    const tip = along(add(fastened.at, shift), fastened.out, -fastened.belowMm)
    draft.paths.push({ of: fastened.id, from: tip, to: fastened.mouth })
    draft.places.push(fastened.mouth)
  }
  addWantedFasteners(list, draft)
}

/**
 * Screws that come out stand outermost on their axis, beyond those that take their place, in narrow lines; an arrow leads
 * the last of them away.
 */
function takeOut(
  list: readonly Fastened[],
  shifts: ReadonlyMap<string, Vec3>,
  draft: Draft,
  stacks: Map<string, number>,
): void {
  const isReplaced = list.some((fastened) => stacks.has(axisOf(fastened)))
  list.forEach((fastened, index) => {
    const shift = stackOut(fastened, shifts, stacks)
    draft.things.push(fastenedThing(fastened, isReplaced ? "context" : "new", shift))
    const tip = along(add(fastened.at, shift), fastened.out, -fastened.belowMm)
    draft.paths.push({ of: fastened.id, from: tip, to: fastened.mouth })
    if (index + 1 < list.length) return
    const head = along(add(fastened.at, shift), fastened.out, fastened.aboveMm + 3)
    draft.motions.push({ of: fastened.id, from: head, direction: fastened.out, lengthMm: 12, behindMm: 0 })
  })
  if (!isReplaced) addWantedFasteners(list, draft)
}

function axisOf({ mouth, out }: Fastened): string {
  return [...mouth, ...out].map((value) => Math.round(value * 10)).join(" ")
}

/** Shift of a fastener to the next free place on its axis; `stacks` holds how far out each axis is taken. */
function stackOut(fastened: Fastened, shifts: ReadonlyMap<string, Vec3>, stacks: Map<string, number>): Vec3 {
  const { at, out, belowMm, aboveMm } = fastened
  const base = fastened.on === undefined ? stayMm : (shifts.get(fastened.on) ?? stayMm)
  const baseMm = dot(base, out)
  const homeMm = dot(at, out)
  const placeMm = Math.max(stacks.get(axisOf(fastened)) ?? homeMm + baseMm, homeMm) + fastenerGapMm + belowMm
  stacks.set(axisOf(fastened), placeMm + aboveMm)
  // A part that is drawn aside takes its screws along; along the axis only the stack counts.
  return add(subtract(base, scale(out, baseMm)), scale(out, placeMm - homeMm))
}

function addWantedFasteners(list: readonly Fastened[], draft: Draft): void {
  const references = [...new Set(list.map(({ itemReference }) => itemReference))]
  for (const itemReference of references) {
    if (itemReference === undefined) continue
    const own = list.filter((fastened) => fastened.itemReference === itemReference).map(({ id }) => id)
    draft.wanted.push({ itemReference, count: own.length, of: own })
  }
}

function tieThing(id: string, mesh: Thing["mesh"], role: ThingRole): Thing {
  return { id, role, mesh, pose: restPose, moved: undefined }
}

function addTies(kit: Kit, state: StepState, store: SolidStore, draft: Draft): void {
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

function addPads(kit: Kit, state: StepState, shifts: ReadonlyMap<string, Vec3>, store: SolidStore, draft: Draft): void {
  for (const pad of kit.pads) {
    const isNew = state.padsStuck.includes(pad.id)
    if (!isNew && !state.padsBefore.includes(pad.id)) continue
    const ids: string[] = []
    for (const { id, mesh, pose, away, on } of placePads(kit, pad, store)) {
      if (!draft.things.some((thing) => thing.id === on) && !isNew) continue
      const shift = isNew ? scale(away, 18) : (shifts.get(on) ?? stayMm)
      const moved: Pose = shiftPose(pose, shift)
      draft.things.push({ id, role: isNew ? "new" : "context", mesh, pose: moved, moved: isNew ? shift : undefined })
      ids.push(id)
      if (!isNew) continue
      const middle = middleOf(mesh, moved)
      draft.motions.push({ of: id, from: middle, direction: scale(away, -1), lengthMm: 18, behindMm: 8 })
    }
    if (isNew && ids.length > 0) draft.wanted.push({ itemReference: pad.itemReference, count: ids.length, of: ids })
  }
}

function addCables(kit: Kit, step: Step, state: StepState, store: SolidStore, draft: Draft): void {
  for (const cable of kit.cables) {
    const isNew = step.acts.some(
      ({ verb, target }) =>
        (verb === "feed" || verb === "connect" || verb === "withdraw" || verb === "disconnect" || verb === "place") &&
        (target === cable.id || cable.ends.some(({ id }) => id === target)),
    )
    const now = state.cables.find((candidate) => candidate.cable === cable.id)
    const isThere = now !== undefined && now.connected.length + now.passages.length > 0
    if (!isNew && !isThere) continue
    const isDrawn = addCable(kit, cable.id, isNew ? "new" : "context", store, draft)
    if (isNew && isDrawn) draft.motions.push(...cableMotions(cable, step))
    if (isNew && isDrawn && cable.itemReference !== undefined) {
      draft.wanted.push({ itemReference: cable.itemReference, count: 1, of: [`cable:${cable.id}`] })
    }
  }
}

/** An arrow at each end that is plugged in or pulled out, along the last stretch of its route. */
function cableMotions(cable: Cable, step: Step): readonly Motion[] {
  return step.acts.flatMap(({ verb, target }) => {
    const index = cable.ends.findIndex(({ id }) => id === target)
    if (index < 0 || (verb !== "connect" && verb !== "disconnect")) return []
    const route = index === 0 ? cable.route : cable.route.toReversed()
    const [tip, next] = route
    if (tip === undefined || next === undefined) return []
    const into = unit(subtract(tip, next))
    const direction = verb === "connect" ? into : scale(into, -1)
    return [{ of: `cable:${cable.id}`, from: next, direction, lengthMm: lengthOf(subtract(tip, next)), behindMm: 0 }]
  })
}

function addCable(kit: Kit, id: string, role: ThingRole, store: SolidStore, draft: Draft): boolean {
  const cable = kit.cables.find((candidate) => candidate.id === id)
  const solid = cable === undefined ? undefined : buildCableSolid(cable)
  if (solid === undefined) return false
  const mesh = store.get(`cable ${id}`, () => solid)
  draft.things.push({ id: `cable:${id}`, role, mesh, pose: restPose, moved: undefined })
  return true
}
