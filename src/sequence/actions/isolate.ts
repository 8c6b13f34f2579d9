/** Takes the power off a unit or a cable. */
import { fact } from "../facts.ts"
import type { ActionKind } from "./types.ts"

/** Needs the power on. */
export const isolate: ActionKind = {
  words: ({ target }) => `isolates \`${target}\``,
  facts: (_, { target }) => {
    const ids = [target]
    return {
      needs: ids.map((id) => ({ fact: fact("power-on", id), why: `only what is live can be isolated` })),
      gives: ids.map((id) => fact("power-off", id)),
      takes: ids.map((id) => fact("power-on", id)),
    }
  },
}
