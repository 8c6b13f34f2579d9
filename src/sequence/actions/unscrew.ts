/** Takes the screws of a joint, or the unit's own screws, out. */
import { fact } from "../facts.ts"
import { wholeFacts } from "../partial.ts"
import { powerNeeds } from "../power.ts"
import { heldFacts, joinedNeeds } from "./joined.ts"
import type { ActionKind } from "./types.ts"

/** Needs the screws in and within reach, and no power on the unit whose own screws they are. */
export const unscrew: ActionKind = {
  words: ({ target }) => `unscrews \`${target}\``,
  facts: (lookup, { target }) => {
    const joint = lookup.joints.get(target)
    const own = lookup.ownJoints.get(target)
    const started = wholeFacts(lookup, "start", target, fact("started", target))
    const tight = wholeFacts(lookup, "tighten", target, fact("tight", target))
    return {
      needs: [
        ...started.map((key) => ({ fact: key, why: `only screws that are in can be taken out` })),
        ...joinedNeeds(lookup, target, joint),
        ...powerNeeds(lookup, [own?.unit]),
      ],
      gives: [fact("out", target), fact("loose", target)],
      takes: [...started, ...tight, ...heldFacts(lookup, joint)],
    }
  },
}
