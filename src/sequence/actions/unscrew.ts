/** Takes the screws of a joint, or the unit's own screws, out. */

import type { Act } from "../../kit/types.ts"
import { restEnds } from "../cured.ts"
import { fact } from "../facts.ts"
import { actsOn, type Lookup } from "../lookup.ts"
import { isWhole, ownFacts, wholeFacts } from "../partial.ts"
import { powerNeeds } from "../power.ts"
import type { FactKey } from "../types.ts"
import { clampedBy, joinedNeeds } from "./joined.ts"
import type { ActionKind } from "./types.ts"

/**
 * Needs the screws in and within reach, and no power on the unit whose own screws they are. Taking out only some
 * leaves the rest in: one screw at a time, where they hold something else as well.
 */
export const unscrew: ActionKind = {
  words: ({ target }) => `unscrews \`${target}\``,
  facts: (lookup, act) => {
    const { target } = act
    const joint = lookup.joints.get(target)
    const own = lookup.ownJoints.get(target)
    const started = goFacts(lookup, act, wholeFacts(lookup, "start", target, fact("started", target)))
    return {
      needs: [
        ...started.map((key) => ({ fact: key, why: "only screws that are in can be taken out" })),
        ...joinedNeeds(lookup, target, joint),
        ...powerNeeds(lookup, [own?.unit]),
      ],
      gives: [
        ...ownFacts(lookup, act, fact("out", target)),
        fact("loose", target),
        ...restEnds(lookup, "tighten", target),
      ],
      takes: takesOf(lookup, act, started),
    }
  },
}

/** Of several goes, each takes out what was started in the go of the same number. */
function goFacts(lookup: Lookup, act: Act, facts: readonly FactKey[]): readonly FactKey[] {
  if (isWhole(lookup, act) || !isStartedGoByGo(lookup, act.target)) return facts
  const go = actsOn(lookup, "unscrew", act.target).indexOf(act)
  return facts.slice(go, go + 1)
}

/** True when each screw is started once, some at a time; with more than that, single screws were taken out and put back. */
function isStartedGoByGo(lookup: Lookup, target: string): boolean {
  const starts = actsOn(lookup, "start", target)
  const all = (lookup.joints.get(target) ?? lookup.ownJoints.get(target))?.count ?? 0
  const startedCount = starts.reduce((sum, { count }) => sum + (count ?? all), 0)
  return starts.length > 0 && startedCount <= all && starts.every((act) => !isWhole(lookup, act))
}

/**
 * All that the screws did when all are out. One of several goes ends what was started in it; where the screws were started at
 * once, or never, only the go that takes the last ones out ends anything, and none when some goes put screws back.
 */
function takesOf(lookup: Lookup, act: Act, started: readonly FactKey[]): readonly FactKey[] {
  const { target } = act
  const tight = wholeFacts(lookup, "tighten", target, fact("tight", target))
  const all = [...started, ...tight, ...clampedBy(lookup, target)]
  if (isWhole(lookup, act)) return all
  // One tightening of all comes after the last go that put screws back.
  if (isStartedGoByGo(lookup, target))
    return [...started, ...(tight.length === 1 ? tight : goFacts(lookup, act, tight))]
  const goes = actsOn(lookup, "unscrew", target)
  const outAfter = goes.slice(0, goes.indexOf(act) + 1).reduce((sum, { count }) => sum + (count ?? 0), 0)
  const count = (lookup.joints.get(target) ?? lookup.ownJoints.get(target))?.count
  const isPutBack = actsOn(lookup, "start", target).some((other) => !isWhole(lookup, other))
  return count !== undefined && outAfter >= count && !isPutBack ? all : []
}
