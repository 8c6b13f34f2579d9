/** Cleans a surface. */
import { accessNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { actsOn, type Lookup } from "../lookup.ts"
import type { Need } from "../types.ts"
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

/**
 * Needs that these surfaces are clean, for those that an act cleans at all: afterwards they lie under what is put on,
 * and to clean them has no sense any more. `why` says what comes onto the surface.
 */
export function cleanNeeds(lookup: Lookup, ids: readonly string[], why: string): readonly Need[] {
  return [...new Set(ids)]
    .filter((id) => actsOn(lookup, "clean", id).length > 0)
    .map((id) => ({ fact: fact("clean", id), why }))
}
