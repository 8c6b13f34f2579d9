/** Acts that may be needed on the way back, each with its facts. Most undo an act of mounting. */
import type { Fit } from "../../fit/types.ts"
import type { Act } from "../../kit/types.ts"
import type { Verb } from "../../spec/types.ts"
import { accessNeeds, blockerNeeds } from "../access.ts"
import { factsOf } from "../actions/build.ts"
import { joinedPieces } from "../actions/joined.ts"
import { tieAccess } from "../actions/strap.ts"
import type { Facts } from "../actions/types.ts"
import { fact } from "../facts.ts"
import { type Lookup, movedInstances } from "../lookup.ts"
import type { Action, FactKey, Need } from "../types.ts"

/** One act on the way back. `rank` is the place of the act of mounting that it undoes or mirrors: the highest goes first. */
export type WayBack = {
  readonly act: Act
  readonly facts: Facts
  readonly rank: number
  /** Path of the act of mounting that it undoes. */
  readonly undoes: string | undefined
}

/** What the way back starts from. `final` holds the facts when the last step is done. */
export type Mounted = {
  readonly lookup: Lookup
  readonly fit: Fit
  readonly initial: ReadonlySet<FactKey>
  readonly final: ReadonlySet<FactKey>
  readonly actions: readonly Action[]
  /** What holds when the kit is off again. */
  readonly goals: readonly Need[]
}

/**
 * Lists the candidates, at most one for each thing and verb. Their facts come from the same files as those of mounting; the
 * way back asks for a little more (`extraNeeds`), and what only mounting asks for is left out.
 */
export function listCandidates(mounted: Mounted): readonly WayBack[] {
  const found = new Map<string, Omit<WayBack, "facts">>()
  const keyOf = ({ verb, target, through, to, instances }: Act): string =>
    [verb, target, through, to, ...instances].join(" ")
  const add = (act: Act, undone: Action | undefined, rank: number): void => {
    const key = keyOf(act)
    found.delete(key)
    found.set(key, { act, rank, undoes: undone?.act.path })
  }
  mounted.actions.forEach((action, rank) => {
    for (const act of inverseActs(mounted, action.act)) add(act, action, rank)
    // What mounting took off and put back again has to come off once more.
    for (const act of mirrorActs(mounted, action.act)) if (!found.has(keyOf(act))) add(act, undefined, rank)
  })
  const indexes = indexAll(mounted)
  return [...found.values()].map((one) => ({ ...one, facts: wayBackFacts(mounted, indexes, one.act) }))
}

/** What the facts of all candidates are looked up in. */
type Indexes = {
  readonly marks: ReadonlyMap<FactKey, readonly FactKey[]>
  readonly goals: ReadonlySet<FactKey>
  /** Joints through or into a piece, and ties that hold a thing or go through its slot. */
  readonly joints: ReadonlyMap<string, readonly string[]>
  readonly ties: ReadonlyMap<string, readonly string[]>
}

function indexAll(mounted: Mounted): Indexes {
  const { kit } = mounted.lookup
  const joints = new Map<string, string[]>()
  const ties = new Map<string, string[]>()
  const add = (index: Map<string, string[]>, id: string, thing: string): void => {
    const known = index.get(id)
    if (known === undefined) index.set(id, [thing])
    else if (!known.includes(thing)) known.push(thing)
  }
  for (const joint of kit.joints) for (const id of joinedPieces(joint)) add(joints, id, joint.id)
  for (const { id, holds, slot } of kit.ties)
    for (const held of [...holds, ...(slot === undefined ? [] : [slot.in])]) add(ties, held, id)
  return { marks: indexMarks(mounted), goals: new Set(mounted.goals.map(({ fact: key }) => key)), joints, ties }
}

type Blank = Pick<Act, "verb" | "target"> & Partial<Act>

function makeAct({ verb, target, ...more }: Blank): Act {
  return {
    path: `removal/${verb}/${target}`,
    instances: [],
    through: undefined,
    to: undefined,
    count: undefined,
    minutes: undefined,
    words: undefined,
    ...more,
    verb,
    target,
  }
}

/** The acts that undo one act of mounting. */
function inverseActs(mounted: Mounted, act: Act): readonly Act[] {
  const { lookup, final, fit } = mounted
  const { target, to, through } = act
  switch (act.verb) {
    case "start":
    case "tighten":
      return [makeAct({ verb: "unscrew", target })]
    case "unscrew":
      if (!lookup.ownJoints.has(target) || final.has(fact("discarded", target))) return []
      return [makeAct({ verb: "start", target }), makeAct({ verb: "tighten", target })]
    case "place":
    case "stick":
    case "strap": {
      const isPad = lookup.pads.has(target) && !lookup.partByPiece.has(target)
      if (isPad || act.verb === "strap")
        return [makeAct({ verb: "remove", target, instances: isPad ? (lookup.pads.get(target)?.instances ?? []) : [] })]
      if (lookup.assemblies.has(target)) return [makeAct({ verb: "remove", target })]
      const instances = movedInstances(lookup, act).filter((id) => final.has(fact("on", id)))
      return instances.length === 0 ? [] : [makeAct({ verb: "remove", target, instances })]
    }
    case "remove": {
      const instances = movedInstances(lookup, act).filter((id) => isComingBack(mounted, [id, target]))
      return instances.length === 0 ? [] : [makeAct({ verb: "place", target, instances })]
    }
    case "connect":
      return [makeAct({ verb: "disconnect", target, to })]
    case "disconnect": {
      const arrival = lookup.cableByEnd.get(target)?.ends.find(({ id }) => id === target)?.arrival
      return arrival?.state === "connected" ? [makeAct({ verb: "connect", target, to: arrival.socket })] : []
    }
    case "feed": {
      const ends = lookup.cableByEnd.get(target)?.ends ?? []
      const passes = (end: string): boolean =>
        fit.passages.some((one) => one.end === end && one.passage === through && one.passes)
      return ends
        .filter(({ id, arrival }) => id === target || (arrival.state !== "fixed" && passes(id)))
        .map(({ id }) => makeAct({ verb: "withdraw", target: id, through }))
    }
    case "withdraw":
      return [makeAct({ verb: "feed", target, through })]
    case "open":
      return [makeAct({ verb: "close", target, instances: movedInstances(lookup, act) })]
    case "close":
      return [makeAct({ verb: "open", target, instances: movedInstances(lookup, act) })]
    default:
      return []
  }
}

/** Acts of mounting that the way back may have to do in the same way: to get at things, and to switch off. */
function mirrorActs({ lookup }: Mounted, act: Act): readonly Act[] {
  const { verb, target, to } = act
  switch (verb) {
    case "isolate":
    case "verify":
    case "restore":
      return lookup.isolated.has(target) ? [makeAct({ verb, target })] : []
    case "wait":
      // Stored energy runs off anew each time.
      return factsOf(lookup, act).gives.some((key) => key.startsWith("discharged:")) ? [act] : []
    case "turn":
      return [makeAct({ verb, target, to, instances: act.instances })]
    case "open":
    case "close":
      return [makeAct({ verb, target, instances: movedInstances(lookup, act) })]
    case "unscrew":
      return lookup.ownJoints.has(target) ? [makeAct({ verb, target })] : []
    case "remove": {
      const instances = movedInstances(lookup, act).filter((id) => lookup.partByPiece.get(id)?.ownedBy !== undefined)
      return instances.length === 0 ? [] : [makeAct({ verb, target, instances })]
    }
    case "disconnect":
      return [makeAct({ verb, target, to })]
    default:
      return []
  }
}

/** A piece of the buyer's that was not thrown away. */
function isComingBack({ lookup, final }: Mounted, ids: readonly string[]): boolean {
  return (
    ids.some((id) => lookup.partByPiece.get(id)?.ownedBy !== undefined) &&
    !ids.some((id) => final.has(fact("discarded", id)))
  )
}

/** Facts of the goes of one thing (`out:foot#2`) by their base: an act on the way back does all at once. */
function indexMarks({ initial, actions, goals }: Mounted): ReadonlyMap<FactKey, readonly FactKey[]> {
  const marks = new Map<FactKey, Set<FactKey>>()
  const add = (key: FactKey): void => {
    const [base = key] = key.split("#")
    if (base !== key) marks.set(base, (marks.get(base) ?? new Set()).add(key))
  }
  for (const key of initial) add(key)
  for (const { fact: key } of goals) add(key)
  for (const { needs, gives, takes } of actions)
    for (const key of [...needs.map((need) => need.fact), ...gives, ...takes]) add(key)
  return new Map([...marks].map(([base, keys]) => [base, [...keys]]))
}

function wayBackFacts(mounted: Mounted, indexes: Indexes, act: Act): Facts {
  const { lookup } = mounted
  const { marks, goals } = indexes
  const { needs, gives, takes } = cutFacts(lookup, act) ?? factsOf(lookup, act)
  const wide = (keys: readonly FactKey[]): readonly FactKey[] => keys.flatMap((key) => [key, ...(marks.get(key) ?? [])])
  const given = new Set(wide(gives))
  const all = [...needs.filter(({ fact: key }) => !isOfMounting(act.verb, key)), ...extraNeeds(mounted, indexes, act)]
  return {
    needs: [...new Map(all.toReversed().map((need) => [need.fact, need])).values()].toReversed(),
    gives: [...given],
    takes: wide(takes).filter((key) => !given.has(key)),
  }

  /** Mounting runs an end through before it connects it, and restores the power when the work is complete. */
  function isOfMounting(verb: Verb, key: FactKey): boolean {
    if (verb === "connect") return key.startsWith("thru:")
    return verb === "restore" && !key.startsWith("power-off:") && !goals.has(key)
  }
}

/** A tie may have the name of a part, which an act of a step would then mean. */
function cutFacts(lookup: Lookup, { verb, target, instances }: Act): Facts | undefined {
  const tie = verb === "remove" && instances.length === 0 ? lookup.ties.get(target) : undefined
  if (tie === undefined || !lookup.instancesById.has(target)) return undefined
  return {
    needs: [{ fact: fact("tied", target), why: "only a closed tie can be cut" }, ...tieAccess(lookup, tie)],
    gives: [fact("untied", target)],
    takes: [fact("tied", target), fact("trimmed", target)],
  }
}

/** What the way back asks for and mounting never has to. */
function extraNeeds({ lookup, goals }: Mounted, indexes: Indexes, act: Act): readonly Need[] {
  const { verb, target } = act
  if (verb === "restore")
    return goals
      .filter(({ fact: key }) => !key.startsWith("power-on:"))
      .map(({ fact: key }) => ({ fact: key, why: "the power comes back only when everything is as on arrival" }))
  if (verb === "withdraw") {
    const cable = lookup.cableByEnd.get(target)
    return cable === undefined ? [] : untiedNeeds(indexes, [cable.id, ...cable.ends.map(({ id }) => id)])
  }
  if (verb === "open")
    return act.instances.flatMap((id) => outNeeds(indexes, [id, lookup.partByPiece.get(id)?.id ?? id]))
  if (verb !== "remove") return []
  const pad = lookup.partByPiece.has(target) ? undefined : lookup.pads.get(target)
  if (pad !== undefined)
    return [
      { fact: fact("stuck", pad.id), why: "only a pad that sticks can be peeled off" },
      ...accessNeeds(lookup, [pad.id, pad.on], [pad.on]),
    ]
  return act.instances.flatMap((instance) => {
    const ids = [instance, lookup.partByPiece.get(instance)?.id ?? instance]
    return [
      ...outNeeds(indexes, ids),
      ...blockerNeeds(lookup, "insertion", instance, ids),
      ...untiedNeeds(indexes, ids),
    ]
  })
}

/** Screws through one of these pieces, or into it, come out before. */
function outNeeds({ joints }: Indexes, ids: readonly string[]): readonly Need[] {
  return ids
    .flatMap((id) => joints.get(id) ?? [])
    .map((id) => ({ fact: fact("out", id), why: `the screws of \`${id}\` hold \`${ids[0] ?? ""}\`` }))
}

/** Ties that hold one of these things, or go through its slot, are cut before. */
function untiedNeeds({ ties }: Indexes, ids: readonly string[]): readonly Need[] {
  return ids
    .flatMap((id) => ties.get(id) ?? [])
    .map((id) => ({ fact: fact("untied", id), why: `the tie \`${id}\` holds \`${ids[0] ?? ""}\`` }))
}
