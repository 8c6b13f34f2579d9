/** Puts pieces in their place. */
import { accessNeeds, blockerNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { actsOn, type Lookup, movedInstances } from "../lookup.ts"
import { wholeFacts } from "../partial.ts"
import type { FactKey, Need } from "../types.ts"
import { liesUnder, stick } from "./stick.ts"
import type { ActionKind } from "./types.ts"

/**
 * Needs the piece off, its pads stuck on, and nothing in front of it; a piece that must be screwed or tied is then loose.
 * A pad that is placed is stuck on; a tie that is laid in its slot changes nothing that the order proof knows.
 */
export const place: ActionKind = {
  words: ({ target }) => `places \`${target}\``,
  facts: (lookup, act) => {
    if (lookup.pads.has(act.target) && !lookup.partByPiece.has(act.target)) return stick.facts(lookup, act)
    const instances = movedInstances(lookup, act)
    return {
      needs: instances.flatMap((instance) => placeNeeds(lookup, instance)),
      gives: instances.flatMap((instance) => [
        fact("on", instance),
        fact("some", lookup.partByPiece.get(instance)?.id ?? instance),
        ...leafFacts(lookup, instance),
      ]),
      takes: instances.flatMap((instance) => [
        fact("off", instance),
        ...(isShutWhenPlaced(lookup, instance) ? [fact("clear", instance)] : []),
        ...(isLooseWhenPlaced(lookup, instance) ? [fact("held", instance)] : []),
      ]),
    }
  },
}

function placeNeeds(lookup: Lookup, instance: string): readonly Need[] {
  const part = lookup.partByPiece.get(instance)
  const ids = part === undefined ? [instance] : [instance, part.id]
  return [
    { fact: fact("off", instance), why: `\`${instance}\` can be put in place only once` },
    ...accessNeeds(lookup, ids, ids),
    ...blockerNeeds(lookup, "insertion", instance, ids),
    ...(part === undefined ? [] : padNeeds(lookup, ids)),
  ]
}

function padNeeds(lookup: Lookup, ids: readonly string[]): readonly Need[] {
  return lookup.kit.pads
    .filter((pad) => actsOn(lookup, "stick", pad.id).length > 0 && liesUnder(lookup, pad, ids))
    .flatMap(({ id }) =>
      wholeFacts(lookup, "stick", id, fact("stuck", id)).map((key) => ({
        fact: key,
        why: `the pad \`${id}\` lies under \`${ids[0] ?? ""}\` and cannot be reached later`,
      })),
    )
}

function leafFacts(lookup: Lookup, instance: string): readonly FactKey[] {
  if (!lookup.leaves.has(instance)) return []
  return isShutWhenPlaced(lookup, instance)
    ? [fact("shut", instance)]
    : [fact("open", instance), fact("clear", instance)]
}

/** A hinged or sliding part that some act closes is put on open; one that no act closes is put on shut. */
function isShutWhenPlaced(lookup: Lookup, instance: string): boolean {
  if (!lookup.leaves.has(instance)) return false
  return [instance, lookup.partByPiece.get(instance)?.id ?? instance].every(
    (id) => actsOn(lookup, "close", id).length === 0,
  )
}

function isLooseWhenPlaced(lookup: Lookup, instance: string): boolean {
  const part = lookup.partByPiece.get(instance)
  if (part === undefined || part.holdsItself) return false
  return lookup.heldPieces.has(instance) || lookup.heldPieces.has(part.id)
}
