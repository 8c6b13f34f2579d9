/** Takes the power off a unit or a cable. */
import { fact } from "../facts.ts"
import type { ActionKind } from "./types.ts"

/** Needs the power on. */
export const isolate: ActionKind = {
  words: ({ target }) => `isolates \`${target}\``,
  facts: (_, { target }) => ({
    needs: [{ fact: fact("power-on", target), why: "only what is live can be isolated" }],
    gives: [fact("power-off", target)],
    takes: [fact("power-on", target)],
  }),
}
