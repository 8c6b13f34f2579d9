/** Tightens the screws of a joint. */
import { fact } from "../facts.ts"
import { actsOn, type Lookup } from "../lookup.ts"
import { ownFacts, wholeFacts } from "../partial.ts"
import type { Need } from "../types.ts"
import { heldFacts, joinedNeeds, joinedPieces } from "./joined.ts"
import type { ActionKind } from "./types.ts"

/** Needs every screw of the pattern started and, when the kit aligns something here, that to be done. */
export const tighten: ActionKind = {
  words: ({ target }) => `tightens joint \`${target}\``,
  facts: (lookup, act) => {
    const joint = lookup.joints.get(act.target)
    const started = wholeFacts(lookup, "start", act.target, fact("started", act.target))
    return {
      needs: [
        ...started.map((key) => ({ fact: key, why: `only screws that are started can be tightened` })),
        ...alignNeeds(lookup, act.target),
        ...joinedNeeds(lookup, act.target, joint),
      ],
      gives: [
        ...ownFacts(lookup, act, fact("tight", act.target)),
        ...heldFacts(lookup, joint === undefined ? [] : joinedPieces(joint)),
      ],
      takes: [fact("loose", act.target)],
    }
  },
}

function alignNeeds(lookup: Lookup, target: string): readonly Need[] {
  return [target, ...(lookup.joints.get(target)?.through ?? [])]
    .filter((id) => actsOn(lookup, "align", id).length > 0)
    .map((id) => ({ fact: fact("aligned", id), why: `\`${id}\` can be aligned only while the screws are loose` }))
}
