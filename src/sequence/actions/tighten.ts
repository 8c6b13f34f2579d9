/** Tightens the screws of a joint. */

import type { Joint } from "../../kit/joint-types.ts"
import type { Act } from "../../kit/types.ts"
import { restTakes } from "../cured.ts"
import { fact } from "../facts.ts"
import { actsOn, type Lookup } from "../lookup.ts"
import { isWhole, ownFacts, wholeFacts } from "../partial.ts"
import type { FactKey, Need } from "../types.ts"
import { heldBy, joinedNeeds } from "./joined.ts"
import type { ActionKind } from "./types.ts"

/** Needs every screw of the pattern started and, when the kit aligns something here, that to be done. */
export const tighten: ActionKind = {
  words: ({ target }) => `tightens joint \`${target}\``,
  facts: (lookup, act) => {
    const joint = lookup.joints.get(act.target)
    const started = startedFacts(lookup, act, joint)
    return {
      needs: [
        ...started.map((key) => ({ fact: key, why: `only screws that are started can be tightened` })),
        ...alignNeeds(lookup, act.target),
        ...joinedNeeds(lookup, act.target, joint),
      ],
      gives: [...ownFacts(lookup, act, fact("tight", act.target)), ...heldBy(lookup, act.target)],
      takes: [fact("loose", act.target), ...restTakes(lookup, "tighten", act)],
    }
  },
}

/**
 * All screws of the pattern, also for an act that tightens some of them. Where the screws replace those of the unit that hold
 * something else as well, each may be tightened before the next one comes out.
 */
function startedFacts(lookup: Lookup, act: Act, joint: Joint | undefined): readonly FactKey[] {
  const all = wholeFacts(lookup, "start", act.target, fact("started", act.target))
  const own = joint === undefined ? [] : (lookup.ownJointsByBore.get(joint.bore.id) ?? [])
  const isOneByOne = own.some(({ alsoHolds }) => alsoHolds !== undefined)
  if (isWhole(lookup, act) || all.length < 2 || !isOneByOne) return all
  const go = actsOn(lookup, "tighten", act.target).indexOf(act)
  return all.slice(go, go + 1)
}

function alignNeeds(lookup: Lookup, target: string): readonly Need[] {
  return [target, ...(lookup.joints.get(target)?.through ?? [])]
    .filter((id) => actsOn(lookup, "align", id).length > 0)
    .map((id) => ({ fact: fact("aligned", id), why: `\`${id}\` can be aligned only while the screws are loose` }))
}
