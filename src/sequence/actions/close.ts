/** Closes a hinged or sliding part, or tightens a cable gland. */
import { accessNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { findGland, tightenFacts } from "../glands.ts"
import { movedInstances } from "../lookup.ts"
import type { ActionKind } from "./types.ts"

/** Needs the part in place, open and within reach; then it hides what it covers. */
export const close: ActionKind = {
  // Only an act on a gland moves no piece.
  words: ({ target, instances }) => (instances.length === 0 ? `tightens gland \`${target}\`` : `closes \`${target}\``),
  facts: (lookup, act) => {
    const gland = findGland(lookup, act.target)
    if (gland !== undefined) return tightenFacts(lookup, gland)
    const instances = movedInstances(lookup, act)
    return {
      needs: instances.flatMap((instance) => [
        { fact: fact("on", instance), why: `only what is in place can be closed` },
        { fact: fact("open", instance), why: `only what is open can be closed` },
        ...accessNeeds(lookup, [instance, lookup.partByPiece.get(instance)?.id ?? instance], [instance]),
      ]),
      gives: instances.map((instance) => fact("shut", instance)),
      takes: instances.flatMap((instance) => [fact("open", instance), fact("clear", instance)]),
    }
  },
}
