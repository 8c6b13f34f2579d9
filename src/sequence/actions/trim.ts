/** Cuts the tails of ties. */
import { fact } from "../facts.ts"
import { ownFacts, wholeFacts } from "../partial.ts"
import { tieAccess } from "./strap.ts"
import type { ActionKind } from "./types.ts"

/** Needs the ties closed and within reach. */
export const trim: ActionKind = {
  words: ({ target }) => `trims \`${target}\``,
  facts: (lookup, act) => {
    const tie = lookup.ties.get(act.target)
    if (tie === undefined) return { needs: [], gives: [fact("trimmed", act.target)], takes: [] }
    return {
      needs: [
        ...wholeFacts(lookup, "strap", tie.id, fact("tied", tie.id)).map((key) => ({
          fact: key,
          why: `only the tail of a closed tie can be cut`,
        })),
        ...tieAccess(lookup, tie),
      ],
      gives: ownFacts(lookup, act, fact("trimmed", tie.id)),
      takes: [],
    }
  },
}
