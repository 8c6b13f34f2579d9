/** Throws away what came off. */
import { fact } from "../facts.ts"
import { offNeeds } from "./taken-off.ts"
import type { ActionKind } from "./types.ts"

/** Needs the screws out, the piece off, or the cable free. */
export const discard: ActionKind = {
  words: ({ target }) => `discards \`${target}\``,
  facts: (lookup, { target }) => ({
    needs: offNeeds(lookup, target, "thrown away"),
    gives: [fact("discarded", target)],
    takes: [],
  }),
}
