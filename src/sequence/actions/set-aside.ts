/** Puts what came off into the bag for it. */
import { fact } from "../facts.ts"
import { offNeeds } from "./taken-off.ts"
import type { ActionKind } from "./types.ts"

/** Needs the screws out, the piece off, the tie cut, or the cable free. */
export const setAside: ActionKind = {
  words: ({ target }) => `sets \`${target}\` aside`,
  facts: (lookup, { target }) => ({
    needs: offNeeds(lookup, target, "kept"),
    gives: [fact("kept", target)],
    takes: [],
  }),
}
