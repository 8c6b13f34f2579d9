/** Acts that do one thing in several goes: `start: 2 x foot` twice for a joint of four. */
import type { Act } from "../kit/types.ts"
import type { Verb } from "../spec/types.ts"
import { actsOn, type Lookup } from "./lookup.ts"
import type { FactKey } from "./types.ts"

/** How many pieces the target of an act has in all; undefined when it is nothing that is counted. */
function fullCount(lookup: Lookup, verb: Verb, target: string): number | undefined {
  if (verb === "strap" || verb === "trim") return lookup.ties.get(target)?.count
  if (verb === "stick" || verb === "place") return lookup.pads.get(target)?.count
  return (lookup.joints.get(target) ?? lookup.ownJoints.get(target))?.count
}

/** True when an act takes all pieces at once: no count was typed, or one that is not smaller. */
export function isWhole(lookup: Lookup, act: Act): boolean {
  const all = fullCount(lookup, act.verb, act.target)
  return act.count === undefined || all === undefined || act.count >= all
}

/** Facts that together say that `verb` was done to all of `target`: one, or one for each act that does some of it. */
export function wholeFacts(lookup: Lookup, verb: Verb, target: string, base: FactKey): readonly FactKey[] {
  const acts = actsOn(lookup, verb, target)
  if (acts.length === 0 || acts.some((act) => isWhole(lookup, act))) return [base]
  return firstRound(lookup, acts).map((_, index) => goFact(base, index))
}

/** Facts that one act gives of those that `wholeFacts` asks for. */
export function ownFacts(lookup: Lookup, act: Act, base: FactKey): readonly FactKey[] {
  if (isWhole(lookup, act)) return [base]
  const acts = actsOn(lookup, lookup.pads.has(act.target) ? "stick" : act.verb, act.target)
  const go = firstRound(lookup, acts).indexOf(act)
  return go < 0 || acts.some((other) => isWhole(lookup, other)) ? [] : [goFact(base, go)]
}

/** The acts with which all pieces are dealt with for the first time; later ones put single pieces back that were taken out. */
function firstRound(lookup: Lookup, acts: readonly Act[]): readonly Act[] {
  let done = 0
  return acts.filter((act) => {
    const all = fullCount(lookup, act.verb, act.target)
    const isNeeded = all === undefined || done < all
    done += act.count ?? 0
    return isNeeded
  })
}

function goFact(base: FactKey, index: number): FactKey {
  return index === 0 ? base : `${base}#${index + 1}`
}
