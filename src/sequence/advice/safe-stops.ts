/** Steps after which the work may be left alone. */
import type { Cable } from "../../kit/types.ts"
import { liesUnder } from "../actions/stick.ts"
import type { SafeStop } from "../advice-types.ts"
import { fact } from "../facts.ts"
import { actsOn, instancesOf, type Lookup } from "../lookup.ts"
import { wholeFacts } from "../partial.ts"
import type { FactKey } from "../types.ts"
import type { Walked } from "./index.ts"

/**
 * The work may be left where no piece is loose, no joint started but not tight, no tie of several still open, nothing threaded
 * hangs on its cable, nothing of the unit that is to be shut stands open, no live end hangs free, and no adhesive cures under a
 * load. Never after the last step, when it is done. Each thing is looked at again only when an act has changed it.
 */
export function findSafeStops(walked: Walked): readonly SafeStop[] {
  const { lookup, initial, actions } = walked
  const { steps } = lookup.kit
  const holds = new Set(initial)
  const unsafe = new Set<string>()
  const watches = listWatches(walked)
  const watchesOf = indexWatches(watches)
  const waits = actions.flatMap(({ verb }, index) => (verb === "wait" ? [index] : []))
  const curing = new Set<string>()
  const isSafe: boolean[] = []
  const isIsolated: boolean[] = []
  let next = 0
  for (const index of steps.keys()) {
    for (let action = actions[next]; action?.stepIndex === index; action = actions[next]) {
      for (const key of action.takes) holds.delete(key)
      for (const key of action.gives) holds.add(key)
      for (const key of [...action.takes, ...action.gives])
        for (const watch of watchesOf.get(key) ?? [])
          if (watch.isUnsafe(holds)) unsafe.add(watch.id)
          else unsafe.delete(watch.id)
      if (action.verb === "wait") curing.clear()
      if (action.verb === "stick" && (waits.at(-1) ?? -1) > next) curing.add(action.act.target)
      next += 1
    }
    isSafe.push(unsafe.size === 0 && ![...curing].some((pad) => isLoaded(lookup, pad, holds)))
    isIsolated.push([...lookup.isolated].some((id) => holds.has(fact("power-off", id))))
  }
  return steps.flatMap(({ id }, index): readonly SafeStop[] =>
    isSafe[index] === true && index < steps.length - 1
      ? [{ afterStep: id, isIsolated: isIsolated[index] === true, isLastForNow: isSafe[index + 1] !== true }]
      : [],
  )
}

/** One thing that may make the work unsafe to leave; it depends on these facts. */
type Watch = {
  readonly id: string
  readonly facts: readonly FactKey[]
  readonly isUnsafe: (holds: ReadonlySet<FactKey>) => boolean
}

function indexWatches(watches: readonly Watch[]): ReadonlyMap<FactKey, readonly Watch[]> {
  const index = new Map<FactKey, Watch[]>()
  for (const watch of watches)
    for (const key of new Set(watch.facts)) {
      const known = index.get(key)
      if (known === undefined) index.set(key, [watch])
      else known.push(watch)
    }
  return index
}

function listWatches(walked: Walked): readonly Watch[] {
  const { lookup } = walked
  const { kit } = lookup
  const had = new Set(walked.initial)
  const holding = indexHolding(lookup)
  return [
    ...kit.parts.flatMap(({ instances, ownedBy }) =>
      instances.flatMap((id) => [
        watchLoose(id),
        ...watchOpen(walked, had, "shut", id),
        ...(ownedBy === undefined ? [] : watchOpen(walked, had, "on", id)),
      ]),
    ),
    ...kit.units.flatMap(({ id, instances }) => instances.flatMap((instance) => watchUnit(had, holding, id, instance))),
    ...[...kit.joints, ...kit.ownJoints].map(({ id }) => watchJoint(lookup, id)),
    ...kit.ownJoints.flatMap(({ id }) => watchOpen(walked, had, "started", id)),
    ...kit.ties.map(({ id }) => watchTie(lookup, id)),
    ...kit.cables.flatMap((cable) => [...watchHanging(lookup, cable), ...watchLive(lookup, cable)]),
  ]
}

/** Placed, but held by nothing yet. */
function watchLoose(id: string): Watch {
  const [on, held] = [fact("on", id), fact("held", id)]
  return { id: `loose ${id}`, facts: [on, held], isUnsafe: (holds) => holds.has(on) && !holds.has(held) }
}

/** True at the end and not now, after it was so before: a piece of the unit is off, a door is open. */
function watchOpen(
  { walk }: Walked,
  had: ReadonlySet<FactKey>,
  kind: "on" | "shut" | "started",
  id: string,
): readonly Watch[] {
  const key = fact(kind, id)
  const wasSo = kind === "shut" || had.has(key)
  if (!walk.final.has(key) || !wasSo) return []
  const isThere = fact("on", id)
  const isPiece = kind === "shut"
  return [
    {
      id: `${kind} ${id}`,
      facts: [key, isThere],
      isUnsafe: (holds) => !holds.has(key) && (!isPiece || holds.has(isThere)),
    },
  ]
}

/** Facts that each thing is held where it was put, by joints and ties. */
function indexHolding({ kit }: Lookup): ReadonlyMap<string, readonly FactKey[]> {
  const holding = new Map<string, FactKey[]>()
  const add = (ids: readonly string[], key: FactKey): void => {
    for (const id of new Set(ids)) {
      const known = holding.get(id)
      if (known === undefined) holding.set(id, [key])
      else known.push(key)
    }
  }
  for (const { id, through, bore } of kit.joints) add([...through, ...bore.owners], fact("tight", id))
  for (const { id, holds } of kit.ties) add(holds, fact("tied", id))
  return holding
}

/** A unit that was put in its place and is held by no joint or tie of those that will hold it. */
function watchUnit(
  had: ReadonlySet<FactKey>,
  holdingOf: ReadonlyMap<string, readonly FactKey[]>,
  unit: string,
  instance: string,
): readonly Watch[] {
  const on = fact("on", instance)
  const holding = [...new Set([unit, instance])].flatMap((id) => holdingOf.get(id) ?? [])
  if (had.has(on) || holding.length === 0) return []
  return [
    {
      id: `unit ${instance}`,
      facts: [on, ...holding],
      isUnsafe: (holds) => holds.has(on) && !holding.some((key) => holds.has(key)),
    },
  ]
}

function watchJoint(lookup: Lookup, id: string): Watch {
  const started = wholeFacts(lookup, "start", id, fact("started", id))
  const tight = wholeFacts(lookup, "tighten", id, fact("tight", id))
  return {
    id: `joint ${id}`,
    facts: [...started, ...tight],
    isUnsafe: (holds) => started.some((key) => holds.has(key)) && !tight.every((key) => holds.has(key)),
  }
}

function watchTie(lookup: Lookup, id: string): Watch {
  const tied = wholeFacts(lookup, "strap", id, fact("tied", id))
  return {
    id: `tie ${id}`,
    facts: tied,
    isUnsafe: (holds) => tied.some((key) => holds.has(key)) && !tied.every((key) => holds.has(key)),
  }
}

/** A piece that is threaded on a cable and not yet in its place. */
function watchHanging(lookup: Lookup, { id, ends }: Cable): readonly Watch[] {
  const moves = ends.flatMap((end) => [...actsOn(lookup, "feed", end.id), ...actsOn(lookup, "withdraw", end.id)])
  return [...new Set(moves.flatMap(({ through }) => through ?? []))].map((passage) => {
    const thru = fact("thru", id, passage)
    const part = lookup.passages.get(passage)?.part ?? ""
    const off = instancesOf(lookup, part).map((instance) => fact("off", instance))
    return {
      id: `hanging ${id} ${passage}`,
      facts: [thru, ...off],
      isUnsafe: (holds: ReadonlySet<FactKey>) => holds.has(thru) && off.some((key) => holds.has(key)),
    }
  })
}

/** A live cable with one end free that a step connects, while its power and that of the unit it goes to are on. */
function watchLive(lookup: Lookup, cable: Cable): readonly Watch[] {
  if (!cable.isLive) return []
  const connects = cable.ends.flatMap(({ id }) => actsOn(lookup, "connect", id))
  const units = connects.flatMap(({ to }) => (to === undefined ? [] : (lookup.sockets.get(to)?.owner ?? [])))
  const off = [cable.id, ...units].map((id) => fact("power-off", id))
  const free = cable.ends.map(({ id }) => fact("free", id))
  const isFed = cable.ends.some(({ arrival }) => arrival.state !== "free")
  const joined = cable.ends.map(({ id }) => fact("connected", id))
  return [
    {
      id: `live ${cable.id}`,
      facts: [...off, ...free, ...joined],
      isUnsafe: (holds) =>
        !off.some((key) => holds.has(key)) &&
        free.some((key) => holds.has(key)) &&
        (isFed || joined.some((key) => holds.has(key))),
    },
  ]
}

/** A tie presses on the pad, or the part it sticks to is in place. */
function isLoaded(lookup: Lookup, pad: string, holds: ReadonlySet<FactKey>): boolean {
  const thing = lookup.pads.get(pad)
  if (thing === undefined) return false
  const ties = lookup.kit.ties.filter((tie) => tie.pad === pad || liesUnder(lookup, thing, tie.holds))
  return (
    ties.some(({ id }) => holds.has(fact("tied", id))) ||
    (lookup.partByPiece.has(thing.on) && instancesOf(lookup, thing.on).some((id) => holds.has(fact("on", id))))
  )
}
