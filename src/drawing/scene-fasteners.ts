/** Screws, washers and nuts of a picture: in place, laid out on their axes, or taken out. */
import type { Fit } from "../fit/types.ts"
import type { Kit } from "../kit/types.ts"
import type { Vec3 } from "../solids/types.ts"
import { add, along, dot, lengthOf, scale, subtract } from "../solids/vectors.ts"
import { counterboreDepthMm } from "./counterbores.ts"
import { type Fastened, fastenedPose, placeJoint, placeOwnJoint } from "./fastened.ts"
import type { StepFasteners } from "./fastener-work.ts"
import { type Draft, stayMm } from "./scene-draft.ts"
import type { SolidStore } from "./solid-store.ts"
import type { Thing, ThingRole } from "./things.ts"

/** Clear space between two fasteners drawn apart on one axis. */
const fastenerGapMm = 8

/** How the fasteners of a picture are drawn apart. */
type Stacking = {
  readonly kit: Kit
  /** How far each piece is drawn from its place. */
  readonly shifts: ReadonlyMap<string, Vec3>
  /** Stretches the clear space between a piece and the first fastener on an axis. */
  readonly spread: number
  /** How far out each axis is taken. */
  readonly stacks: Map<string, number>
}

/** Fasteners of a joint of the kit or of a unit, in place. */
export function placeAnyJoint(kit: Kit, fit: Fit, id: string, store: SolidStore): readonly Fastened[] {
  const joint = kit.joints.find((candidate) => candidate.id === id)
  return joint === undefined ? placeOwnJoint(kit, id, store) : placeJoint(kit, fit, joint, store)
}

/** A fastener as a thing, shifted. */
export function fastenedThing(fastened: Fastened, role: ThingRole, shift: Vec3): Thing {
  return {
    id: fastened.id,
    role,
    mesh: fastened.mesh,
    pose: fastenedPose(fastened, shift),
    moved: lengthOf(shift) > 0 ? shift : undefined,
  }
}

/**
 * Adds the fasteners of a step. `shifts` tells how far each piece is drawn from its place; `spread` stretches the clear
 * space between pieces and fasteners.
 */
export function addFasteners(
  kit: Kit,
  fit: Fit,
  work: StepFasteners,
  store: SolidStore,
  shifts: ReadonlyMap<string, Vec3>,
  spread: number,
  draft: Draft,
): void {
  const started: Fastened[] = []
  const removed: (readonly Fastened[])[] = []
  for (const [id, own] of work) {
    const list = placeAnyJoint(kit, fit, id, store)
    const pick = (numbers: readonly number[]): readonly Fastened[] =>
      list.filter(({ number }) => numbers.includes(number))
    const unit = kit.ownJoints.find((joint) => joint.id === id)?.unit
    const quiet = unit === undefined ? "context" : "host"
    // Screws that sit in a unit ride on it.
    const ridden = unit === undefined ? stayMm : rideOf(kit, unit, shifts)
    const tightened = pick(own.staying.filter((number) => own.tightened.includes(number)))
    for (const fastened of pick(own.staying))
      draft.things.push(fastenedThing(fastened, tightened.includes(fastened) ? "new" : quiet, ridden))
    const screws = tightened.filter(({ kind }) => kind === "screw")
    addTurn(screws, draft)
    if (own.started.length === 0) addWantedFasteners(screws, draft)
    started.push(...pick(own.started))
    if (own.removed.length > 0) removed.push(pick(own.removed))
  }
  const stacking: Stacking = { kit, shifts, spread, stacks: new Map() }
  moveApart(started, stacking, draft)
  for (const list of removed) takeOut(list, stacking, draft)
}

function rideOf(kit: Kit, unit: string, shifts: ReadonlyMap<string, Vec3>): Vec3 {
  const instances = kit.units.find(({ id }) => id === unit)?.instances ?? []
  return instances.map((id) => shifts.get(id)).find((shift) => shift !== undefined) ?? stayMm
}

/** Screws that are only tightened stay in place: an arrow round each head shows the turn. */
function addTurn(screws: readonly Fastened[], draft: Draft): void {
  for (const { id, at, out, aboveMm, headMm } of screws)
    draft.turns.push({ of: id, middle: along(at, out, aboveMm), axis: out, radiusMm: headMm / 2 })
}

/** Lays the fasteners of each axis out in the order in which they go on, and draws their axes. */
function moveApart(list: readonly Fastened[], stacking: Stacking, draft: Draft): void {
  for (const fastened of list) {
    const shift = stackOut(fastened, stacking)
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
function takeOut(list: readonly Fastened[], stacking: Stacking, draft: Draft): void {
  const isReplaced = list.some((fastened) => stacking.stacks.has(axisOf(fastened)))
  list.forEach((fastened, index) => {
    const shift = stackOut(fastened, stacking)
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

/** Shift of a fastener to the next free place on its axis; the first one stands clear of the counterbore it goes into. */
function stackOut(fastened: Fastened, { kit, shifts, spread, stacks }: Stacking): Vec3 {
  const { at, out, belowMm, aboveMm } = fastened
  const base = fastened.on === undefined ? stayMm : (shifts.get(fastened.on) ?? stayMm)
  const baseMm = dot(base, out)
  const homeMm = dot(at, out)
  const takenMm = stacks.get(axisOf(fastened))
  const clearMm =
    takenMm === undefined
      ? homeMm + Math.max(baseMm, 0) + sunkMm(kit, fastened) + spread * fastenerGapMm
      : Math.max(takenMm, homeMm) + fastenerGapMm
  const placeMm = clearMm + belowMm
  stacks.set(axisOf(fastened), placeMm + aboveMm)
  // A part that is drawn aside takes its screws along; along the axis only the stack counts.
  return add(subtract(base, scale(out, baseMm)), scale(out, placeMm - homeMm))
}

/** How deep a fastener sits in a counterbore of the piece it bears on. */
function sunkMm(kit: Kit, { on, at, out, headMm }: Fastened): number {
  const piece = kit.instances.find(({ id }) => id === on)
  const mesh = piece?.mesh === undefined ? undefined : kit.meshes[piece.mesh]
  return piece === undefined || mesh === undefined ? 0 : counterboreDepthMm(mesh, piece.pose, at, out, headMm)
}

function addWantedFasteners(list: readonly Fastened[], draft: Draft): void {
  const references = [...new Set(list.map(({ itemReference }) => itemReference))]
  for (const itemReference of references) {
    if (itemReference === undefined) continue
    const own = list.filter((fastened) => fastened.itemReference === itemReference).map(({ id }) => id)
    draft.wanted.push({ itemReference, count: own.length, of: own })
  }
}
