/** What is in place before each step and what the step adds: for drawings and documents. */
import type { Act, Cable, Kit } from "../kit/types.ts"
import type { Verb } from "../spec/types.ts"
import { findOpenBags } from "./bags.ts"
import { actsOn, type Lookup, movedInstances } from "./lookup.ts"
import { isWhole } from "./partial.ts"
import { firstAbove } from "./sorted.ts"
import { passagesOf, sortOnWay, threadOnto } from "./threading.ts"
import type { Action, CableState, FactKey, Presence, Sequence, Stay, StepChange, StepState } from "./types.ts"

/** Notes when each thing of one kind comes and goes; `step` is the index of the step that follows. */
type Tracked = {
  readonly add: (id: string, step: number) => void
  readonly remove: (id: string, step: number) => void
  readonly stays: () => readonly Stay[]
}

/** Gives what each step changes, in their order, and when each thing is in place. Linear in the number of acts. */
export function buildStates(
  lookup: Lookup,
  initial: readonly FactKey[],
  actions: readonly Action[],
): { readonly steps: readonly StepChange[]; readonly presence: Presence } {
  const { kit } = lookup
  const holds = new Set(initial)
  // The buyer's unit is drawn from the first step, also where an act puts it in its final place.
  const hosts = new Set(kit.instances.filter(({ owner }) => owner === "unit" || owner === "frame").map(({ id }) => id))
  const present = track(
    kit.instances.map(({ id }) => id),
    (id) => holds.has(`on:${id}`) || hosts.has(id),
  )
  const joints = track(
    [...kit.joints, ...kit.ownJoints].map(({ id }) => id),
    (id) => holds.has(`started:${id}`),
  )
  const ties = track(
    kit.ties.map(({ id }) => id),
    (id) => holds.has(`tied:${id}`),
  )
  const pads = track(
    kit.pads.map(({ id }) => id),
    (id) => holds.has(`stuck:${id}`),
  )
  const bags = findOpenBags(lookup)
  const cables = trackCables(lookup, holds)
  const actionsOf = groupBySteps(kit, actions)
  const steps = kit.steps.map(({ id, acts }, index): StepChange => {
    const next = index + 1
    const targetsOf = (...verbs: readonly Verb[]): readonly string[] => [
      ...new Set(acts.flatMap((act) => (verbs.includes(verbOf(lookup, act)) ? [act.target] : []))),
    ]
    const piecesOf = (verb: Verb): readonly string[] => [
      ...new Set(acts.flatMap((act) => (verbOf(lookup, act) === verb ? movedInstances(lookup, act) : []))),
    ]
    for (const act of acts) {
      const verb = verbOf(lookup, act)
      for (const instance of movedInstances(lookup, act)) {
        if (verb === "place" || verb === "stick") present.add(instance, next)
        if (verb === "remove" && !hosts.has(instance)) present.remove(instance, next)
      }
      if (verb === "start") joints.add(act.target, next)
      if (verb === "unscrew" && isLastOut(lookup, act)) joints.remove(act.target, next)
      if (verb === "strap") ties.add(act.target, next)
      if (verb === "stick") pads.add(act.target, next)
      if (verb === "remove") ties.remove(act.target, next)
      if (verb === "remove") pads.remove(act.target, next)
    }
    const changed = applyFacts(holds, actionsOf[index] ?? [])
    return {
      step: id,
      number: index + 1,
      placed: piecesOf("place"),
      removed: piecesOf("remove"),
      assembliesPlaced: targetsOf("place").filter((target) => lookup.assemblies.has(target)),
      jointsStarted: targetsOf("start"),
      jointsTightened: targetsOf("tighten"),
      jointsRemoved: targetsOf("unscrew"),
      tiesClosed: targetsOf("strap"),
      padsStuck: targetsOf("stick"),
      cables: cables(acts),
      factsGained: changed.gained,
      factsLost: changed.lost,
      openBags: bags[index] ?? [],
    }
  })
  const presence = { instances: present.stays(), joints: joints.stays(), ties: ties.stays(), pads: pads.stays() }
  return { steps, presence }
}

/** What is there before a step and what the step changes; undefined when there is no step with this index. */
export function stateAt({ steps, presence }: Sequence, index: number): StepState | undefined {
  const change = steps[index]
  if (change === undefined) return undefined
  // An odd number of changes so far: it came and has not gone again.
  const there = (stays: readonly Stay[]): readonly string[] =>
    stays.flatMap(({ id, changes }) => (firstAbove(changes, index) % 2 === 1 ? [id] : []))
  return {
    ...change,
    presentBefore: there(presence.instances),
    jointsBefore: there(presence.joints),
    tiesBefore: there(presence.ties),
    padsBefore: there(presence.pads),
  }
}

/** To place a pad is to stick it on. */
function verbOf(lookup: Lookup, { verb, target }: Act): Verb {
  return verb === "place" && lookup.pads.has(target) && !lookup.partByPiece.has(target) ? "stick" : verb
}

/** Screws taken out one by one are out with the last of them. */
function isLastOut(lookup: Lookup, act: Act): boolean {
  return isWhole(lookup, act) || actsOn(lookup, "unscrew", act.target).at(-1) === act
}

function track(all: readonly string[], isIn: (id: string) => boolean): Tracked {
  const changesOf = new Map(all.map((id): [string, number[]] => [id, isIn(id) ? [0] : []]))
  const change = (id: string, step: number, wasThere: boolean): void => {
    const changes = changesOf.get(id)
    if (changes === undefined || (changes.length % 2 === 1) !== wasThere) return
    // Back within one step: neither change can be seen before a step.
    if (changes.at(-1) === step) changes.pop()
    else changes.push(step)
  }
  return {
    add: (id, step) => change(id, step, false),
    remove: (id, step) => change(id, step, true),
    stays: () => [...changesOf].flatMap(([id, changes]) => (changes.length === 0 ? [] : [{ id, changes }])),
  }
}

function groupBySteps(kit: Kit, actions: readonly Action[]): readonly (readonly Action[])[] {
  const groups: Action[][] = kit.steps.map(() => [])
  for (const action of actions) groups[action.stepIndex]?.push(action)
  return groups
}

/** Applies the acts of one step and gives what is true afterwards and was not before, and the reverse. */
function applyFacts(
  holds: Set<FactKey>,
  actions: readonly Action[],
): { readonly gained: readonly FactKey[]; readonly lost: readonly FactKey[] } {
  const was = new Map<FactKey, boolean>()
  for (const { gives, takes } of actions) {
    for (const key of [...takes, ...gives]) if (!was.has(key)) was.set(key, holds.has(key))
    for (const key of takes) holds.delete(key)
    for (const key of gives) holds.add(key)
  }
  const keys = [...was.keys()]
  return {
    gained: keys.filter((key) => was.get(key) === false && holds.has(key)),
    lost: keys.filter((key) => was.get(key) === true && !holds.has(key)),
  }
}

/** Gives a function that takes the acts of the next step and tells where all cables run after them. */
function trackCables(lookup: Lookup, holds: ReadonlySet<FactKey>): (acts: readonly Act[]) => readonly CableState[] {
  const socketOf = new Map<string, string>()
  const threadedOf = new Map<string, readonly string[]>()
  for (const cable of lookup.kit.cables) {
    for (const { id, arrival } of cable.ends)
      if (arrival.state === "connected" && holds.has(`connected:${id}`)) socketOf.set(id, arrival.socket)
    const through = passagesOf(lookup, cable).filter((id) => holds.has(`thru:${cable.id}:${id}`))
    threadedOf.set(cable.id, sortOnWay(cable, through))
  }
  for (const { verb, target, to } of lookup.kit.arrives)
    if (verb === "connect" && to !== undefined) socketOf.set(target, to)
  let states = lookup.kit.cables.map((cable) => stateOf(cable, socketOf, threadedOf, false))
  let last: ReadonlySet<string> = new Set()
  return (acts) => {
    const touched = new Set<string>()
    for (const { verb, target, through, to } of acts) {
      const cable = lookup.cableByEnd.get(target)
      if (cable === undefined) continue
      touched.add(cable.id)
      const threaded = threadedOf.get(cable.id) ?? []
      if (verb === "feed" && through !== undefined)
        threadedOf.set(cable.id, threadOnto(lookup, cable, threaded, target, through))
      if (verb === "withdraw")
        threadedOf.set(
          cable.id,
          threaded.filter((id) => id !== through),
        )
      if (verb === "connect" && to !== undefined) socketOf.set(target, to)
      if (verb === "disconnect") socketOf.delete(target)
    }
    if (touched.size === 0 && last.size === 0) return states
    // Cables that lie still share their state.
    states = lookup.kit.cables.map((cable, index) => {
      const known = states[index]
      if (known !== undefined && !touched.has(cable.id) && !last.has(cable.id)) return known
      return stateOf(cable, socketOf, threadedOf, touched.has(cable.id))
    })
    last = touched
    return states
  }
}

function stateOf(
  cable: Cable,
  socketOf: ReadonlyMap<string, string>,
  threadedOf: ReadonlyMap<string, readonly string[]>,
  touched: boolean,
): CableState {
  return {
    cable: cable.id,
    passages: threadedOf.get(cable.id) ?? [],
    connected: cable.ends.flatMap(({ id }) => {
      const socket = socketOf.get(id)
      return socket === undefined ? [] : [{ end: id, socket }]
    }),
    touched,
  }
}
