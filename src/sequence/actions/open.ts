/** Opens a hinged or sliding part, or loosens a cable gland. */
import { accessNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { findGland, loosenFacts } from "../glands.ts"
import { movedInstances } from "../lookup.ts"
import { ownerUnit, powerNeeds } from "../power.ts"
import type { ActionKind } from "./types.ts"

/** Needs the part in place, shut and within reach, and no power on a unit it belongs to. */
export const open: ActionKind = {
  // Only an act on a gland moves no piece.
  words: ({ target, instances }) => (instances.length === 0 ? `loosens gland \`${target}\`` : `opens \`${target}\``),
  facts: (lookup, act) => {
    const gland = findGland(lookup, act.target)
    if (gland !== undefined) return loosenFacts(lookup, gland)
    const instances = movedInstances(lookup, act)
    return {
      needs: instances.flatMap((instance) => [
        { fact: fact("on", instance), why: `only what is in place can be opened` },
        { fact: fact("shut", instance), why: `only what is shut can be opened` },
        ...accessNeeds(lookup, [instance, lookup.partByPiece.get(instance)?.id ?? instance], [instance]),
        ...powerNeeds(lookup, [ownerUnit(lookup, instance)]),
      ]),
      gives: instances.flatMap((instance) => [fact("open", instance), fact("clear", instance)]),
      takes: instances.map((instance) => fact("shut", instance)),
    }
  },
}
