/** Takes the power off a unit or a cable. */
import { fact } from "../facts.ts"
import { poweredTargets } from "./powered-targets.ts"
import type { ActionKind } from "./types.ts"

/** Needs the power on. */
export const isolate: ActionKind = {
  words: ({ target }) => `isolates \`${target}\``,
  facts: (lookup, { target }) => {
    const ids = poweredTargets(lookup, target)
    return {
      needs: ids.map((id) => ({ fact: fact("power-on", id), why: `only what is live can be isolated` })),
      gives: ids.map((id) => fact("power-off", id)),
      takes: ids.map((id) => fact("power-on", id)),
    }
  },
}
