/** Cleans a surface. */
import { accessNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import type { ActionKind } from "./types.ts"

/** Needs the surface within reach. */
export const clean: ActionKind = {
  words: ({ target }) => `cleans \`${target}\``,
  facts: (lookup, { target }) => ({
    needs: accessNeeds(lookup, [target], [target]),
    gives: [fact("clean", target)],
    takes: [],
  }),
}
