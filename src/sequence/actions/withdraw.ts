/** Pulls one end of a cable back out of a passage. */
import { accessNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { looseNeeds } from "../glands.ts"
import { freeNeeds, stackNeeds } from "../threading.ts"
import type { ActionKind } from "./types.ts"

/** Needs the cable to run through the passage and, when that is closed, the end to be free and out of those nearer to it. */
export const withdraw: ActionKind = {
  words: ({ target, through }) => `withdraws \`${target}\` from \`${through ?? ""}\``,
  facts: (lookup, { target, through }) => {
    const cable = lookup.cableByEnd.get(target)
    const passage = through === undefined ? undefined : lookup.passages.get(through)
    if (cable === undefined || passage === undefined) return { needs: [], gives: [], takes: [] }
    return {
      needs: [
        { fact: fact("thru", cable.id, passage.id), why: `only a cable that runs through can be pulled back` },
        ...freeNeeds("withdraw", target, passage),
        ...stackNeeds(lookup, "withdraw", cable, target, passage),
        ...looseNeeds(passage),
        ...accessNeeds(lookup, [passage.id, passage.part], [passage.part]),
        ...accessNeeds(lookup, [target, cable.id], []),
      ],
      gives: [fact("outside", cable.id, passage.id)],
      takes: [fact("thru", cable.id, passage.id)],
    }
  },
}
