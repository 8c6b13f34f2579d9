/** Puts the power back on. */
import { fact } from "../facts.ts"
import { finishedNeeds } from "../finished.ts"
import type { ActionKind } from "./types.ts"

/** Needs the unit isolated, all joints tight, all ends connected and all covers in place (29 CFR 1910.147(e)(1)). */
export const restore: ActionKind = {
  words: ({ target }) => `restores the power of \`${target}\``,
  facts: (lookup, { target }) => {
    const ids = [target]
    return {
      needs: [
        ...ids.map((id) => ({ fact: fact("power-off", id), why: `only what is isolated can be switched on` })),
        ...finishedNeeds(lookup, "restore"),
      ],
      gives: ids.map((id) => fact("power-on", id)),
      takes: ids.flatMap((id) => [fact("power-off", id), fact("verified", id)]),
    }
  },
}
