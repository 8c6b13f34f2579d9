/** Puts pieces in their place. */
import type { Assembly, Pad, Part } from "../../kit/types.ts"
import { accessNeeds, blockerNeeds } from "../access.ts"
import { completeNeeds } from "../assembled.ts"
import { curedNeeds } from "../cured.ts"
import { fact } from "../facts.ts"
import { isPutOnOpen } from "../leaves.ts"
import { actsOn, type Lookup, movedInstances } from "../lookup.ts"
import { wholeFacts } from "../partial.ts"
import { isUnitLooseWhenPlaced } from "../turned.ts"
import type { FactKey, Need } from "../types.ts"
import { liesUnder, stick } from "./stick.ts"
import { handNeeds } from "./taken-off.ts"
import type { ActionKind, Facts } from "./types.ts"

/**
 * Needs the piece off, its pads stuck on, and nothing in front of it; a piece that must be screwed or tied is then loose.
 * A pad that is placed is stuck on; a tie that is laid in its slot changes nothing that the order proof knows.
 */
export const place: ActionKind = {
  words: ({ target }) => `places \`${target}\``,
  facts: (lookup, act) => {
    if (lookup.pads.has(act.target) && !lookup.partByPiece.has(act.target)) return stick.facts(lookup, act)
    const assembly = lookup.assemblies.get(act.target)
    const instances = movedInstances(lookup, act)
    if (assembly !== undefined && instances.length === 0) return placeAssembly(lookup, assembly)
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
        ...(isLooseWhenPlaced(lookup, instance) || isUnitLooseWhenPlaced(lookup, instance)
          ? [fact("held", instance)]
          : []),
      ]),
    }
  },
}

/** A group of pieces joined before: its pieces stay as they are to each other. */
function placeAssembly(lookup: Lookup, assembly: Assembly): Facts {
  const { id, instances } = assembly
  return {
    needs: [
      { fact: fact("off", id), why: `\`${id}\` can be put in place only once` },
      ...completeNeeds(lookup, assembly),
      ...accessNeeds(lookup, [id], instances),
      ...blockerNeeds(lookup, "insertion", id, instances),
    ],
    gives: [fact("on", id)],
    takes: [fact("off", id)],
  }
}

function placeNeeds(lookup: Lookup, instance: string): readonly Need[] {
  const part = lookup.partByPiece.get(instance)
  const ids = part === undefined ? [instance] : [instance, part.id]
  return [
    { fact: fact("off", instance), why: `\`${instance}\` can be put in place only once` },
    ...handNeeds(lookup, ids),
    ...accessNeeds(lookup, ids, ids),
    ...blockerNeeds(lookup, "insertion", instance, ids),
    ...(part === undefined ? [] : padNeeds(lookup, part, ids)),
  ]
}

/** Pads under the piece are stuck on first; they, and those it covers, bear its load once they have cured. */
function padNeeds(lookup: Lookup, part: Part, ids: readonly string[]): readonly Need[] {
  const stuck = padsNear(lookup, part, ids).filter(({ id }) => actsOn(lookup, "stick", id).length > 0)
  const under = stuck.filter((pad) => liesUnder(lookup, pad, ids))
  const loaded = stuck.filter((pad) => under.includes(pad) || part.covers.includes(pad.id))
  return [
    ...under.flatMap(({ id }) =>
      wholeFacts(lookup, "stick", id, fact("stuck", id)).map((key) => ({
        fact: key,
        why: `the pad \`${id}\` lies under \`${ids[0] ?? ""}\` and cannot be reached later`,
      })),
    ),
    ...curedNeeds(
      lookup,
      loaded.map(({ id }) => id),
      `\`${ids[0] ?? ""}\` presses on it`,
    ),
  ]
}

/** Pads that could lie under a piece or be covered by it, in the order of the kit. */
function padsNear(lookup: Lookup, part: Part, ids: readonly string[]): readonly Pad[] {
  const named = ids.flatMap((id) => (lookup.tiesHolding.get(id) ?? []).map(({ pad }) => pad ?? ""))
  const near = new Set([
    ...ids.flatMap((id) => lookup.padsOn.get(id) ?? []),
    ...[...named, ...part.covers].flatMap((id) => lookup.pads.get(id) ?? []),
  ])
  if (near.size < 2) return [...near]
  return lookup.kit.pads.filter((pad) => near.has(pad))
}

function leafFacts(lookup: Lookup, instance: string): readonly FactKey[] {
  if (!lookup.leaves.has(instance)) return []
  return isShutWhenPlaced(lookup, instance)
    ? [fact("shut", instance)]
    : [fact("open", instance), fact("clear", instance)]
}

function isShutWhenPlaced(lookup: Lookup, instance: string): boolean {
  return lookup.leaves.has(instance) && !isPutOnOpen(lookup, instance)
}

function isLooseWhenPlaced(lookup: Lookup, instance: string): boolean {
  const part = lookup.partByPiece.get(instance)
  if (part === undefined || part.holdsItself) return false
  return lookup.heldPieces.has(instance) || lookup.heldPieces.has(part.id)
}
