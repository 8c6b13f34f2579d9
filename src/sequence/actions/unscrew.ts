/** Takes the screws of a joint, or the unit's own screws, out. */
import { fact } from "../facts.ts"
import { isWhole, ownFacts, wholeFacts } from "../partial.ts"
import { powerNeeds } from "../power.ts"
import { heldFacts, joinedNeeds } from "./joined.ts"
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
    const started = wholeFacts(lookup, "start", target, fact("started", target))
    const tight = wholeFacts(lookup, "tighten", target, fact("tight", target))
    return {
      needs: [
        ...started.map((key) => ({ fact: key, why: "only screws that are in can be taken out" })),
        ...joinedNeeds(lookup, target, joint),
        ...powerNeeds(lookup, [own?.unit]),
      ],
      gives: [...ownFacts(lookup, act, fact("out", target)), fact("loose", target)],
      takes: isWhole(lookup, act) ? [...started, ...tight, ...heldFacts(lookup, joint?.through ?? [])] : [],
    }
  },
}
