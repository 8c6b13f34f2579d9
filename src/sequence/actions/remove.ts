/** Takes pieces off. */
import { accessNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { actsOn, type Lookup, movedInstances } from "../lookup.ts"
import { wholeFacts } from "../partial.ts"
import { ownerUnit, powerNeeds } from "../power.ts"
import type { Need } from "../types.ts"
import type { ActionKind } from "./types.ts"

/** Needs the piece in place and reachable, the screws through it out, and no power on a unit it belongs to. Cuts a tie. */
export const remove: ActionKind = {
  words: ({ target }) => `removes \`${target}\``,
  facts: (lookup, act) => {
    if (lookup.ties.has(act.target) && movedInstances(lookup, act).length === 0) {
      const ties = actsOn(lookup, "strap", act.target).map((_, index) => (index === 0 ? "" : `#${index + 1}`))
      const tied = (ties.length === 0 ? [""] : ties).map((mark) => fact("tied", act.target) + mark)
      return {
        needs: [{ fact: fact("tied", act.target), why: `only a closed tie can be cut` }],
        gives: [fact("untied", act.target)],
        takes: tied,
      }
    }
    const instances = movedInstances(lookup, act)
    return {
      needs: instances.flatMap((instance) => {
        const ids = [instance, lookup.partByPiece.get(instance)?.id ?? instance]
        const joints = [...new Set(ids.flatMap((id) => lookup.jointsThrough.get(id) ?? []))]
        return [
          { fact: fact("on", instance), why: `only what is in place can be taken off` },
          ...accessNeeds(lookup, ids, ids),
          ...joints.map(({ id }) => ({ fact: fact("out", id), why: `the screws of \`${id}\` hold \`${instance}\`` })),
          ...ownScrewNeeds(lookup, instance),
          ...powerNeeds(lookup, [ownerUnit(lookup, instance)]),
        ]
      }),
      gives: [
        ...(lookup.pads.has(act.target) ? [fact("unstuck", act.target)] : []),
        ...instances.flatMap((instance) => [
          fact("off", instance),
          fact("held", instance),
          ...(lookup.leaves.has(instance) ? [fact("clear", instance)] : []),
        ]),
      ],
      takes: instances.flatMap((instance) => [
        fact("on", instance),
        ...(lookup.leaves.has(instance) ? [fact("open", instance), fact("shut", instance)] : []),
      ]),
    }
  },
}

/** Screws of a unit that have the name of one of its pieces (`screwed-in: lid`, `pieces: lid`) hold that piece. */
function ownScrewNeeds(lookup: Lookup, instance: string): readonly Need[] {
  const piece = lookup.partByPiece.get(instance)
  const own = piece?.ownedBy === undefined ? undefined : lookup.ownJoints.get(`${piece.ownedBy}.${piece.id}`)
  if (own === undefined) return []
  return wholeFacts(lookup, "unscrew", own.id, fact("out", own.id)).map((key) => ({
    fact: key,
    why: `the screws \`${own.id}\` hold \`${instance}\``,
  }))
}
