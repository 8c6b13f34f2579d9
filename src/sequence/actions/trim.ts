/** Cuts the tails of ties. */
import { fact } from "../facts.ts"
import { wholeFacts } from "../partial.ts"
import type { ActionKind } from "./types.ts"

/** Needs the ties closed. */
export const trim: ActionKind = {
  words: ({ target }) => `trims \`${target}\``,
  facts: (lookup, { target }) => ({
    needs: (lookup.ties.has(target) ? wholeFacts(lookup, "strap", target, fact("tied", target)) : []).map((key) => ({
      fact: key,
      why: `only the tail of a closed tie can be cut`,
    })),
    gives: [fact("trimmed", target)],
    takes: [],
  }),
}
