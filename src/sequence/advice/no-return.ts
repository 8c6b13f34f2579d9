/** Points of no return: acts that use something up or close something in, with the checks that later cannot be made. */

import type { Pad, Tie } from "../../kit/types.ts"
import type { Verb } from "../../spec/types.ts"
import { accessNeeds, blockerNeeds } from "../access.ts"
import { joinedPieces } from "../actions/joined.ts"
import { liesUnder } from "../actions/stick.ts"
import type { LastChance, NoReturn } from "../advice-types.ts"
import { fact } from "../facts.ts"
import type { Lookup } from "../lookup.ts"
import type { Action, FactKey } from "../types.ts"
import type { Walked } from "./index.ts"

/**
 * Gives them in the order of the steps, at most one for each act. What an act closes in follows from what hand and tool need
 * to get at a thing: when such a fact ends for the last time, nobody gets at it again without taking something off.
 */
export function findNoReturns(walked: Walked): readonly NoReturn[] {
  const closed = findClosedIn(walked)
  const firsts = indexFirsts(walked.actions)
  return walked.actions.flatMap((action, index): readonly NoReturn[] => {
    const used = usedUpBy(walked, firsts, action, index)
    const lastChance = used?.lastChance ?? []
    const hidden = closed.get(index) ?? []
    if (used === undefined && hidden.length === 0) return []
    const kind = used?.kind ?? "closed-in"
    return [{ step: action.step, act: action.act.path, kind, lastChance: [...lastChance, ...hidden] }]
  })
}

/** What each act hides for good, by the index of the act. */
function findClosedIn({ lookup, actions, walk }: Walked): ReadonlyMap<number, readonly LastChance[]> {
  const made = new Map<string, { readonly chance: LastChance; readonly at: number; readonly way: readonly FactKey[] }>()
  actions.forEach((action, at) => {
    const chance = resultOf(action)
    if (chance === undefined) return
    const key = `${chance.kind} ${chance.id} ${chance.other ?? ""}`
    made.delete(key)
    if (isStillSo(chance, walk.final)) made.set(key, { chance, at, way: wayTo(lookup, action) })
  })
  const closed = new Map<number, LastChance[]>()
  for (const { chance, at, way } of made.values()) {
    const ends = way.flatMap((key) => (walk.final.has(key) ? [] : (walk.lastTaker.get(key) ?? [])))
    const first = Math.min(...ends)
    // What is hidden in the step that makes it is looked at by the result of that step.
    if (!Number.isFinite(first) || first <= at || actions[first]?.step === actions[at]?.step) continue
    const hidden = closed.get(first)
    if (hidden === undefined) closed.set(first, [chance])
    else hidden.push(chance)
  }
  return closed
}

/** What an act leaves to be looked at. */
function resultOf({ verb, act }: Action): LastChance | undefined {
  const { target: id, to } = act
  switch (verb) {
    case "tighten":
      return { kind: "joint", id, other: undefined }
    case "connect":
      return { kind: "end", id, other: to }
    case "strap":
      return { kind: "tie", id, other: undefined }
    case "stick":
      return { kind: "pad", id, other: undefined }
    default:
      return undefined
  }
}

function isStillSo({ kind, id }: LastChance, final: ReadonlySet<FactKey>): boolean {
  if (kind === "joint") return final.has(fact("tight", id))
  if (kind === "end") return final.has(fact("connected", id))
  if (kind === "tie") return final.has(fact("tied", id))
  return kind === "pad" && final.has(fact("stuck", id))
}

/** Facts that must hold for hand, eye or tool to get at what an act made. */
function wayTo(lookup: Lookup, { verb, act }: Action): readonly FactKey[] {
  const { target, to } = act
  const joint = verb === "tighten" ? lookup.joints.get(target) : undefined
  if (joint !== undefined) {
    const pieces = joinedPieces(joint)
    return [
      ...accessNeeds(lookup, [joint.id, joint.bore.id], pieces),
      ...blockerNeeds(lookup, "driver", joint.id, pieces),
    ].map((need) => need.fact)
  }
  const things = [target, to].filter((id) => id !== undefined)
  return accessNeeds(lookup, things, []).map((need) => need.fact)
}

/** What a tie, a tail, an adhesive pad or a thread-lock uses up, with what must be right before; undefined for other acts. */
function usedUpBy(
  { lookup, actions, walk }: Walked,
  firsts: ReadonlyMap<string, number>,
  { verb, act, step }: Action,
  index: number,
): Pick<NoReturn, "kind" | "lastChance"> | undefined {
  const { target } = act
  // Within one step the order of the acts says it.
  const isEarlier = (earlier: Verb, id: string): boolean => {
    const first = firsts.get(`${earlier} ${id}`) ?? index
    return first < index && actions[first]?.step !== step
  }
  const chances = (kind: LastChance["kind"], ids: readonly string[]): readonly LastChance[] =>
    ids.map((id) => ({ kind, id, other: undefined }))
  const tie = lookup.ties.get(target)
  if (verb === "strap" && tie !== undefined && walk.final.has(fact("tied", target))) {
    const pads = lookup.kit.pads.filter((pad) => pressedBy(lookup, tie, pad) && isEarlier("stick", pad.id))
    return {
      kind: "used-up",
      lastChance: chances(
        "pad",
        pads.map(({ id }) => id),
      ),
    }
  }
  if (verb === "trim" && tie !== undefined)
    return { kind: "cut", lastChance: chances("tie", isEarlier("strap", target) ? [target] : []) }
  if (verb === "stick" && lookup.pads.get(target)?.isAdhesive === true) return { kind: "stuck", lastChance: [] }
  const joint = verb === "tighten" ? lookup.joints.get(target) : undefined
  if (joint?.surface !== "thread-lock") return undefined
  const aligned = [target, ...joint.through].filter((id) => isEarlier("align", id))
  return { kind: "used-up", lastChance: chances("aligned", aligned) }
}

/** The first act of each verb on each thing. */
function indexFirsts(actions: readonly Action[]): ReadonlyMap<string, number> {
  const firsts = new Map<string, number>()
  actions.forEach(({ verb, act }, index) => {
    const key = `${verb} ${act.target}`
    if (!firsts.has(key)) firsts.set(key, index)
  })
  return firsts
}

function pressedBy(lookup: Lookup, tie: Tie, pad: Pad): boolean {
  return tie.pad === pad.id || (tie.holds.some((id) => id === pad.on) && liesUnder(lookup, pad, [pad.on]))
}
