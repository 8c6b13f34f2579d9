/** Puts the power back on. */
import { chargedTakes } from "../cured.ts"
import { fact } from "../facts.ts"
import { finishedNeeds } from "../finished.ts"
import type { ActionKind } from "./types.ts"

/**
 * Needs the unit isolated, all joints tight and locked, all ends connected and all covers in place (29 CFR 1910.147(e)(1)).
 * Where nothing isolates it at all, the rule about live work tells that.
 */
export const restore: ActionKind = {
  words: ({ target }) => `restores the power of \`${target}\``,
  facts: (lookup, { target }) => ({
    needs: [
      ...(lookup.isolated.has(target)
        ? [{ fact: fact("power-off", target), why: "only what is isolated can be switched on" }]
        : []),
      ...finishedNeeds(lookup, "restore"),
    ],
    gives: [fact("power-on", target)],
    takes: [fact("power-off", target), fact("verified", target), ...chargedTakes(lookup, target)],
  }),
}
