/** Verifies that the power is off. */
import { fact } from "../facts.ts"
import { nameTarget } from "./name-target.ts"
import type { ActionKind } from "./types.ts"

/** Needs the unit or cable isolated. */
export const verify: ActionKind = {
  words: (act) => `verifies that ${nameTarget(act)} is off`,
  facts: (lookup, { target }) => {
    const ids = lookup.live.has(target) ? [target] : []
    return {
      needs: ids.map((id) => ({ fact: fact("power-off", id), why: `a live \`${id}\` cannot be found to be off` })),
      gives: ids.map((id) => fact("verified", id)),
      takes: [],
    }
  },
}
