/** Cables of a picture, and parts that hang on a cable before they are put on. */
import type { Cable, Instance, Kit, Passage, Step } from "../kit/types.ts"
import type { CableState, StepState } from "../sequence/types.ts"
import type { Vec3 } from "../solids/types.ts"
import { dot, lengthOf, scale, subtract, unit } from "../solids/vectors.ts"
import { buildCableSolid } from "./cable-solid.ts"
import { type Draft, thingOf } from "./scene-draft.ts"
import type { SolidStore } from "./solid-store.ts"
import type { Motion, ThingRole } from "./things.ts"
import { restPose } from "./vector.ts"

/** A part that hangs on its cable is drawn at most this far from its place. */
const hangMm = 70

/** Adds the cables that are touched or already lie in their place. */
export function addCables(
  kit: Kit,
  step: Step,
  state: StepState,
  shown: readonly Instance[],
  store: SolidStore,
  draft: Draft,
): void {
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
    if (isDrawn) hangParts(kit, cable, now, shown, store, draft)
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

/** Adds one cable along its route; false when it has none. */
export function addCable(kit: Kit, id: string, role: ThingRole, store: SolidStore, draft: Draft): boolean {
  const cable = kit.cables.find((candidate) => candidate.id === id)
  const solid = cable === undefined ? undefined : buildCableSolid(cable)
  if (solid === undefined) return false
  const mesh = store.get(`cable ${id}`, () => solid)
  draft.things.push({ id: `cable:${id}`, role, mesh, pose: restPose, moved: undefined })
  return true
}

/**
 * A part whose passage holds the cable but which is not put on yet hangs on it: drawn along the way of the cable through
 * the opening, towards the end that is not plugged in.
 */
function hangParts(
  kit: Kit,
  cable: Cable,
  now: CableState | undefined,
  shown: readonly Instance[],
  store: SolidStore,
  draft: Draft,
): void {
  for (const id of now?.passages ?? []) {
    const passage = kit.passages.find((candidate) => candidate.id === id)
    const instance = kit.instances.find(({ of, id: own }) => of === passage?.part || own === passage?.part)
    if (passage === undefined || instance === undefined) continue
    if (shown.includes(instance) || draft.things.some((thing) => thing.id === instance.id)) continue
    const shift = hangShift(cable, passage, now)
    const thing = shift === undefined ? undefined : thingOf(kit, instance, "context", shift, store)
    if (thing !== undefined) draft.things.push(thing)
  }
}

/** Along the stretch of the route that runs from the opening to the free end; undefined when the route misses it. */
function hangShift(cable: Cable, passage: Passage, now: CableState | undefined): Vec3 | undefined {
  const mouth = passage.at
  const first = cable.ends[0]
  if (mouth === undefined || first === undefined) return undefined
  const isFirstPlugged = now?.connected.some(({ end }) => end === first.id) === true
  const route = isFirstPlugged || cable.ends.length < 2 ? cable.route : cable.route.toReversed()
  for (let index = 0; index + 1 < route.length; index += 1) {
    const [from, to] = [route[index], route[index + 1]]
    if (from === undefined || to === undefined) continue
    const way = subtract(to, from)
    const lengthMm = lengthOf(way)
    const direction = unit(way)
    const offset = subtract(mouth.at, from)
    const atMm = dot(offset, direction)
    const asideMm = lengthOf(subtract(offset, scale(direction, atMm)))
    const isAlong = Math.abs(dot(direction, unit(mouth.along))) > 0.9
    if (asideMm > 5 || atMm < -5 || atMm > lengthMm || !isAlong) continue
    return scale(direction, Math.min(hangMm, 0.9 * (lengthMm - Math.max(0, atMm))))
  }
  return undefined
}
