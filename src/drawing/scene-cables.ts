/** Cables of a picture, and parts that hang on a cable before they are put on. */
import type { Cable, Instance, Kit, Step } from "../kit/types.ts"
import type { CableState, StepState } from "../sequence/types.ts"
import type { Vec3 } from "../solids/types.ts"
import { add, along, lengthOf, scale, subtract, unit } from "../solids/vectors.ts"
import { buildCableSolid } from "./cable-solid.ts"
import { shiftBack } from "./explode.ts"
import { type Draft, stayMm, thingOf } from "./scene-draft.ts"
import { travelOf } from "./scene-pieces.ts"
import type { SolidStore } from "./solid-store.ts"
import type { Motion, ThingRole } from "./things.ts"
import { restPose } from "./vector.ts"

/**
 * Adds the cables that are touched or already lie in their place. A part whose passage holds a cable but which is not put
 * on yet hangs on it, drawn as far from its place as when it is put on; the cable follows it.
 */
export function addCables(
  kit: Kit,
  step: Step,
  state: StepState,
  shown: readonly Instance[],
  placedShifts: ReadonlyMap<string, Vec3>,
  store: SolidStore,
  draft: Draft,
): void {
  const shifts = new Map([...placedShifts, ...hangParts(kit, state, shown, store, draft)])
  for (const cable of kit.cables) {
    const isNew = step.acts.some(
      ({ verb, target }) =>
        (verb === "feed" || verb === "connect" || verb === "withdraw" || verb === "disconnect" || verb === "place") &&
        (target === cable.id || cable.ends.some(({ id }) => id === target)),
    )
    const now = state.cables.find((candidate) => candidate.cable === cable.id)
    const isThere = now !== undefined && now.connected.length + now.passages.length > 0
    if (!isNew && !isThere) continue
    const route = followParts(kit, cable, now, shifts)
    const isDrawn = addCable(cable, route, isNew ? "new" : "context", store, draft)
    if (isNew && isDrawn) draft.places.push(...pluggedEnds(cable, step))
    if (!isNew || !isDrawn) continue
    // Beside a part that hangs on the cable an arrow would seem to be the part's.
    if (route === cable.route) draft.motions.push(...cableMotions(cable, route, step))
    if (cable.itemReference === undefined) continue
    draft.wanted.push({ itemReference: cable.itemReference, count: 1, of: [`cable:${cable.id}`] })
  }
}

/** Adds one cable along a route; false when it has none. */
export function addCable(
  cable: Cable,
  route: readonly Vec3[],
  role: ThingRole,
  store: SolidStore,
  draft: Draft,
): boolean {
  const solid = buildCableSolid({ ...cable, route })
  if (solid === undefined) return false
  const mesh = store.get(`cable ${cable.id} ${route.join(" ")}`, () => solid)
  draft.things.push({ id: `cable:${cable.id}`, role, mesh, pose: restPose, moved: undefined })
  return true
}

/** How far from its tip an end is looked for: the tip itself lies within the socket. */
const behindTipMm = 12

/** Where the ends lie that the step plugs in or pulls out: the picture must show them, not only the rest of the cable. */
function pluggedEnds({ ends, route }: Cable, { acts }: Step): readonly Vec3[] {
  return ends.flatMap(({ id }, index) => {
    const isMoved = acts.some(({ verb, target }) => (verb === "connect" || verb === "disconnect") && target === id)
    const [tip, next] = index === 0 ? route : route.toReversed()
    if (!isMoved || tip === undefined || next === undefined) return []
    const back = subtract(next, tip)
    return [along(tip, unit(back), Math.min(behindTipMm, lengthOf(back) / 2))]
  })
}

/** An arrow at each end that is plugged in or pulled out, along the last stretch of its route. */
function cableMotions(cable: Cable, ownRoute: readonly Vec3[], step: Step): readonly Motion[] {
  return step.acts.flatMap(({ verb, target }) => {
    const index = cable.ends.findIndex(({ id }) => id === target)
    if (index < 0 || (verb !== "connect" && verb !== "disconnect")) return []
    const [tip, next] = index === 0 ? ownRoute : ownRoute.toReversed()
    if (tip === undefined || next === undefined) return []
    const into = unit(subtract(tip, next))
    const direction = verb === "connect" ? into : scale(into, -1)
    return [{ of: `cable:${cable.id}`, from: next, direction, lengthMm: lengthOf(subtract(tip, next)), behindMm: 0 }]
  })
}

/** Adds the parts that hang on cables; gives the shift of each. */
function hangParts(
  kit: Kit,
  state: StepState,
  shown: readonly Instance[],
  store: SolidStore,
  draft: Draft,
): ReadonlyMap<string, Vec3> {
  const shifts = new Map<string, Vec3>()
  const passages = new Set(state.cables.flatMap((cable) => cable.passages))
  const parts = new Set(kit.passages.filter(({ id }) => passages.has(id)).map(({ part }) => part))
  for (const instance of kit.instances) {
    if ((!parts.has(instance.of) && !parts.has(instance.id)) || instance.owner !== "part") continue
    if (shown.includes(instance)) continue
    const still = thingOf(kit, instance, "context", stayMm, store)
    if (still === undefined) continue
    const shift = shiftBack(still, travelOf(kit, instance, state), draft.things)
    const thing = thingOf(kit, instance, "context", shift, store)
    if (thing === undefined) continue
    draft.things.push(thing)
    shifts.set(instance.id, shift)
  }
  return shifts
}

/** The route of a cable when a part that it runs through is drawn apart: all but its plugged ends goes with the part. */
function followParts(
  kit: Kit,
  cable: Cable,
  now: CableState | undefined,
  shifts: ReadonlyMap<string, Vec3>,
): readonly Vec3[] {
  const parts = kit.passages.filter(({ id }) => now?.passages.includes(id) === true).map(({ part }) => part)
  const moved = kit.instances.find(({ id, of }) => shifts.has(id) && (parts.includes(of) || parts.includes(id)))
  const shift = moved === undefined ? undefined : shifts.get(moved.id)
  if (shift === undefined) return cable.route
  const isPlugged = (index: number): boolean => {
    const end = cable.ends[index]
    return end !== undefined && now?.connected.some((connected) => connected.end === end.id) === true
  }
  const last = cable.route.length - 1
  return cable.route.map((point, index) => {
    const isFixed = (index === 0 && isPlugged(0)) || (index === last && isPlugged(1))
    return isFixed ? point : add(point, shift)
  })
}
