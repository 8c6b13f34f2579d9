/** Where an act that is missing could be written: for the advice of findings. */
import type { Fit } from "../fit/types.ts"
import type { Act, Kit } from "../kit/types.ts"
import type { Verb } from "../spec/types.ts"
import { factsOf } from "./actions/build.ts"
import { buildLookup, instancesOf } from "./lookup.ts"
import type { FactKey, Sequence } from "./types.ts"

/** Behind the act `behind` of `step`; undefined `behind` means at the end of the step. */
type Chance = { readonly step: string; readonly behind: Act | undefined }

/**
 * Finds the first place behind the act at `after` (-1: from the start) where an act with this verb can be done and breaks
 * nothing that comes after it; undefined when there is none.
 */
export function findChance(
  kit: Kit,
  fit: Fit,
  { initial, actions }: Sequence,
  verb: Verb,
  target: string,
  after: number,
): Chance | undefined {
  const lookup = buildLookup(kit, fit)
  const act: Act = {
    verb,
    target,
    path: "",
    instances: instancesOf(lookup, target),
    through: undefined,
    to: undefined,
    count: undefined,
    minutes: undefined,
    words: undefined,
  }
  const { needs, gives, takes } = factsOf(lookup, act)
  const taken = new Set(takes.filter((key) => !gives.includes(key)))
  // What later acts give again is theirs: only a need before that would be broken.
  const lastUse = actions.findLastIndex((action) => action.needs.some(({ fact }) => taken.has(fact)))
  const holds = new Set<FactKey>(initial)
  for (const [index, action] of actions.entries()) {
    for (const key of action.takes) holds.delete(key)
    for (const key of action.gives) holds.add(key)
    if (index < Math.max(after, lastUse) || !needs.every(({ fact }) => holds.has(fact))) continue
    const isLast = actions[index + 1]?.stepIndex !== action.stepIndex
    const rest = actions.slice(index + 1).filter(({ stepIndex }) => stepIndex === action.stepIndex)
    const isAsGood = rest.every(
      (next) => next.takes.every((key) => needs.every(({ fact }) => fact !== key)) && next.verb !== "inspect",
    )
    return { step: action.step, behind: isLast || isAsGood ? undefined : action.act }
  }
  return undefined
}
