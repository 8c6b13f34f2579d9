/** Takes the power off a unit or a cable. */
import { chargedTakes } from "../cured.ts"
import { fact } from "../facts.ts"
import type { ActionKind } from "./types.ts"

/** Needs the power on (29 CFR 1910.147(d)(3)). */
export const isolate: ActionKind = {
  words: ({ target }) => `isolates \`${target}\``,
  facts: (lookup, { target }) => ({
    needs: [{ fact: fact("power-on", target), why: "only what is live can be isolated" }],
    gives: [fact("power-off", target)],
    takes: [fact("power-on", target), ...chargedTakes(lookup, target)],
  }),
}
