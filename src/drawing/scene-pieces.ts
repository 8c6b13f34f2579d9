/** Parts, units and frames of a picture, those that come or go drawn apart. */
import type { Joint } from "../kit/joint-types.ts"
import type { Instance, Kit } from "../kit/types.ts"
import type { StepState } from "../sequence/types.ts"
import type { Vec3 } from "../solids/types.ts"
import { along, dot, lengthOf, scale, subtract, unit } from "../solids/vectors.ts"
import { isBlocked, type Solid, shiftBack } from "./explode.ts"
import { type Draft, stayMm, thingOf } from "./scene-draft.ts"
import type { SolidStore } from "./solid-store.ts"
import { extentAlong, middleOf } from "./things.ts"

/** Adds the pieces in `shown`; gives the shift of each one that is drawn apart. `spread` stretches all shifts. */
export function addPieces(
  kit: Kit,
  shown: readonly Instance[],
  state: StepState,
  spread: number,
  store: SolidStore,
  draft: Draft,
): ReadonlyMap<string, Vec3> {
  const moving = new Set([...state.placed, ...state.removed])
  // What is placed as one is drawn in its place, with all that holds it together.
  const grouped = groupedPieces(kit, state)
  const shifts = new Map<string, Vec3>()
  const others: { of: string | undefined; goes: Vec3 | undefined; solid: Solid }[] = []
  const ways = new Map<string, Vec3 | undefined>()
  const riding = ridersOf(kit, shown, moving)
  for (const instance of shown) {
    const role = grouped.has(instance.id) ? "new" : instance.owner === "part" ? "context" : "host"
    const thing = thingOf(kit, instance, role, stayMm, store)
    if (thing === undefined || moving.has(instance.id) || riding.some(({ id }) => id === instance.id)) continue
    draft.things.push(thing)
    if (instance.owner !== "frame") others.push({ of: undefined, goes: undefined, solid: thing })
  }
  const isHanging = !shown.some(({ id, owner }) => owner !== "frame" && !moving.has(id))
  for (const id of moving) {
    const instance = shown.find((candidate) => candidate.id === id)
    const still = instance === undefined ? undefined : thingOf(kit, instance, "new", stayMm, store)
    if (instance === undefined || still === undefined) continue
    const part = kit.parts.find((candidate) => candidate.id === instance.of)
    const told = travelOf(kit, instance, state)
    // Equal pieces that are put on alike come the same way, the one that is free for the first of them.
    const key = `${instance.of} ${told.map((value) => value.toFixed(2)).join(" ")}`
    const besides = draft.things
      .filter(({ id }) => !isEqualPiece(kit, id, instance))
      .map(({ id, mesh, pose }): Solid => ({ mesh, pose, isTube: isFrame(kit, id) }))
    if (!ways.has(key)) ways.set(key, freeTravel(kit, instance, state, still, besides))
    const freeWay = ways.get(key)
    const goes = freeWay ?? told
    const inWay = others
      .filter((other) => other.goes === undefined || dot(other.goes, goes) > 0.99)
      .map(({ solid }) => solid)
    const frames = isHanging ? draft.things.filter(({ id }) => isFrame(kit, id)) : []
    const shift = part?.isFlexible === true ? stayMm : scale(shiftBack(still, goes, [...inWay, ...frames]), spread)
    const hasTarget = others.some(({ of }) => of !== instance.of) || frames.length > 0
    const isMoved = freeWay !== undefined && lengthOf(shift) > 0 && hasTarget
    const thing = thingOf(kit, instance, "new", isMoved ? shift : stayMm, store)
    if (thing === undefined) continue
    draft.things.push(thing)
    for (const rider of riding.filter(({ of }) => isPieceOf(kit, of, instance.of))) {
      const rides = thingOf(kit, rider, "host", isMoved ? shift : stayMm, store)
      if (rides !== undefined) draft.things.push(rides)
    }
    others.push({ of: instance.of, goes, solid: thing })
    if (!isMoved) continue
    shifts.set(id, shift)
    const isRemoved = state.removed.includes(id) && !state.placed.includes(id)
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
      ({ id: joint, through }) => state.jointsStarted.includes(joint) && isThrough(through, instance),
    )
    if (!isScrewed) draft.paths.push({ of: id, from: front, to: along(front, goes, lengthOf(shift)) })
  }
  addWantedParts(kit, [...moving], draft)
  return shifts
}

/** Pieces of the groups that the step puts in their place as one. */
export function groupedPieces(
  kit: Kit,
  { assembliesPlaced }: Pick<StepState, "assembliesPlaced">,
): ReadonlySet<string> {
  return new Set(kit.assemblies.filter(({ id }) => assembliesPlaced.includes(id)).flatMap(({ instances }) => instances))
}

/** Pieces that sit on a unit which comes or goes in this step, and go with it. */
function ridersOf(kit: Kit, shown: readonly Instance[], moving: ReadonlySet<string>): readonly Instance[] {
  const units = new Set(shown.filter(({ id, owner }) => owner === "unit" && moving.has(id)).map(({ of }) => of))
  return shown.filter(({ id, of }) => !moving.has(id) && [...units].some((unit) => isPieceOf(kit, of, unit)))
}

function isPieceOf(kit: Kit, part: string, unit: string): boolean {
  return kit.parts.some(({ id, ownedBy }) => id === part && ownedBy === unit)
}

function isEqualPiece(kit: Kit, id: string, { of }: Instance): boolean {
  return kit.parts.some((part) => part.id === of && part.instances.includes(id))
}

function isFrame(kit: Kit, id: string): boolean {
  return kit.frames.some(({ instances }) => instances.includes(id))
}

/** Pieces of the buyer's unit get no number: they stand in no list, and the caption names them. */
function addWantedParts(kit: Kit, ids: readonly string[], draft: Draft): void {
  for (const part of kit.parts) {
    if (part.ownedBy !== undefined) continue
    const own = ids.filter((id) => part.instances.includes(id) && draft.things.some((thing) => thing.id === id))
    if (own.length > 0) draft.wanted.push({ itemReference: part.itemReference, count: own.length, of: own })
  }
}

/**
 * The way a piece travels in the picture: told, else as its screws are driven, else down; when something stands in that way,
 * the first free one of the others. A told way gives way only to that of the piece's own screws. Undefined for a piece
 * that ties will hold between frame and other parts: it is drawn in its place.
 */
function freeTravel(
  kit: Kit,
  instance: Instance,
  state: StepState,
  still: Solid,
  others: readonly Solid[],
): Vec3 | undefined {
  const first = travelOf(kit, instance, state)
  if (!isBlocked(still, first, others)) return first
  const part = kit.parts.find(({ id }) => id === instance.of)
  const joint = kit.joints.find(({ id, through }) => state.jointsStarted.includes(id) && isThrough(through, instance))
  const driven = joint === undefined ? undefined : nearestAlong(kit, joint, instance)
  const isTied = kit.ties.some(({ id, holds }) => state.tiesClosed.includes(id) && isThrough(holds, instance))
  if (isTied && driven === undefined) return undefined
  const choices: readonly Vec3[] = [
    ...(driven === undefined ? [] : [unit(driven)]),
    ...(part?.goes === undefined ? sixWays : []),
  ]
  return choices.find((way) => !isBlocked(still, way, others)) ?? first
}

const sixWays: readonly Vec3[] = [
  [0, 0, -1],
  [0, 0, 1],
  [0, 1, 0],
  [0, -1, 0],
  [1, 0, 0],
  [-1, 0, 0],
]

function isThrough(through: readonly string[], instance: Instance): boolean {
  return through.includes(instance.of) || through.includes(instance.id)
}

/**
 * The way a piece travels when it is put on: told, else as its screws are driven, else against the screws it receives,
 * else down. Joints of this step come before others.
 */
export function travelOf(kit: Kit, instance: Instance, state: StepState): Vec3 {
  const part = kit.parts.find(({ id }) => id === instance.of)
  if (part?.goes !== undefined) return unit(part.goes)
  const joints = [...kit.joints].sort((one, other) => startRank(state, one.id) - startRank(state, other.id))
  const clamped = joints.find(({ through, points }) => points.length > 0 && isThrough(through, instance))
  const received = joints.find(({ bore, points }) => points.length > 0 && isThrough(bore.owners, instance))
  if (clamped !== undefined) return unit(nearestAlong(kit, clamped, instance) ?? downward)
  const against = received === undefined ? undefined : nearestAlong(kit, received, instance)
  return against === undefined ? downward : scale(unit(against), -1)
}

const downward: Vec3 = [0, 0, -1]

/** Driving direction of the screw of a joint that is nearest to a piece: copies may sit on opposite sides. */
function nearestAlong(kit: Kit, { points }: Joint, instance: Instance): Vec3 | undefined {
  const mesh = instance.mesh === undefined ? undefined : kit.meshes[instance.mesh]
  const middle = mesh === undefined ? instance.pose.at : middleOf(mesh, instance.pose)
  const away = points.map(({ at }) => lengthOf(subtract(at, middle)))
  return points[away.indexOf(Math.min(...away))]?.along
}

function startRank(state: StepState, joint: string): number {
  return state.jointsStarted.includes(joint) ? 0 : 1
}
