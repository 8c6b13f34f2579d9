/** Verifies that the power is off. */
import { dischargedNeeds } from "../cured.ts"
import { fact } from "../facts.ts"
import { nameTarget } from "./name-target.ts"
import type { ActionKind } from "./types.ts"

/** Needs the unit or cable isolated, and discharged when it holds its charge (29 CFR 1910.147(d)(5) and (6)); where nothing isolates it at all, the rule about live work tells that. */
export const verify: ActionKind = {
  words: (act) => `verifies that ${nameTarget(act)} is off`,
  facts: (lookup, { target }) => ({
    needs: lookup.isolated.has(target)
      ? [
          { fact: fact("power-off", target), why: `a live \`${target}\` cannot be found to be off` },
          ...dischargedNeeds(lookup, target),
        ]
      : [],
    gives: target === "" ? [] : [fact("verified", target)],
    takes: [],
  }),
}
