/** Verifies that the power is off. */
import { fact } from "../facts.ts"
import { poweredTargets } from "./powered-targets.ts"
import type { ActionKind } from "./types.ts"

/** Needs the unit or cable isolated. */
export const verify: ActionKind = {
  words: ({ target }) => `verifies that \`${target}\` is off`,
  facts: (lookup, { target }) => {
    const ids = poweredTargets(lookup, target).filter((id) => lookup.live.has(id))
    return {
      needs: ids.map((id) => ({ fact: fact("power-off", id), why: `a live \`${id}\` cannot be found to be off` })),
      gives: ids.map((id) => fact("verified", id)),
      takes: [],
    }
  },
}
