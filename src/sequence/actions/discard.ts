/** Throws away what came off. */
import type { Act } from "../../kit/types.ts"
import { fact } from "../facts.ts"
import type { Lookup } from "../lookup.ts"
import { isWhole } from "../partial.ts"
import { offNeeds } from "./taken-off.ts"
import type { ActionKind } from "./types.ts"

/** Needs the screws out, the piece off, the tie cut, or the cable free; then it is no longer at hand. */
export const discard: ActionKind = {
  words: ({ target }) => `discards \`${target}\``,
  facts: (lookup, act) => ({
    needs: offNeeds(lookup, act.target, "thrown away"),
    gives: [fact("discarded", act.target)],
    takes: isReusable(lookup, act) ? [fact("at-hand", act.target)] : [],
  }),
}

/** Of ties and pads every act takes new ones, and of the kit's own screws spare ones may be left. */
function isReusable(lookup: Lookup, act: Act): boolean {
  const isKitJoint = lookup.joints.has(act.target) && !lookup.partByPiece.has(act.target)
  return !isKitJoint && !lookup.ties.has(act.target) && !lookup.pads.has(act.target) && isWhole(lookup, act)
}
