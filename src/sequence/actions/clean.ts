/** Cleans a surface. */
import { accessNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { nameTarget } from "./name-target.ts"
import type { ActionKind } from "./types.ts"

/** Needs the surface within reach. */
export const clean: ActionKind = {
  words: (act) => `cleans ${nameTarget(act)}`,
  facts: (lookup, { target }) => ({
    needs: accessNeeds(lookup, [target], [target]),
    gives: target === "" ? [] : [fact("clean", target)],
    takes: [],
  }),
}
