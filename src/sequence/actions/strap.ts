/** Closes ties or bands. */
import type { Tie } from "../../kit/types.ts"
import { accessNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { actsOn, instancesOf, type Lookup } from "../lookup.ts"
import { isWhole, ownFacts, wholeFacts } from "../partial.ts"
import type { FactKey, Need } from "../types.ts"
import type { ActionKind } from "./types.ts"

/** Needs what the tie holds in place (a cable: connected), its pad stuck on, and its place within reach. */
export const strap: ActionKind = {
  words: ({ target }) => `closes tie \`${target}\``,
  facts: (lookup, act) => {
    const tie = lookup.ties.get(act.target)
    const isAll = isWhole(lookup, act)
    const held = (tie?.holds ?? []).flatMap((id) => instancesOf(lookup, id)).map((id) => fact("held", id))
    return {
      needs: [
        ...(isAll ? [{ fact: fact("untied", act.target), why: `a tie closes only once` }] : []),
        ...(tie === undefined ? [] : tieNeeds(lookup, tie, isAll)),
      ],
      gives: [...ownFacts(lookup, act, fact("tied", act.target)), ...held],
      takes: [fact("untied", act.target)],
    }
  },
}

function tieNeeds(lookup: Lookup, tie: Tie, isAll: boolean): readonly Need[] {
  const pieces = [...tie.holds, ...(tie.slot === undefined ? [] : [tie.slot.in])]
  const pad = tie.pad === undefined || actsOn(lookup, "stick", tie.pad).length === 0 ? undefined : tie.pad
  return [
    ...[...new Set(pieces)].flatMap((id) => {
      const why = `the tie holds \`${id}\``
      return thereFacts(lookup, id, isAll).map((key) => ({ fact: key, why }))
    }),
    ...(pad === undefined ? [] : wholeFacts(lookup, "stick", pad, fact("stuck", pad))).map((key) => ({
      fact: key,
      why: `the tie presses on the pad \`${pad ?? ""}\``,
    })),
    ...accessNeeds(lookup, [tie.id, ...pieces], pieces),
  ]
}

/** Facts that a held thing is where it belongs: all pieces of a part (some, for some ties only), all connected ends of a cable. */
function thereFacts(lookup: Lookup, id: string, isAll: boolean): readonly FactKey[] {
  const cable = lookup.cables.get(id) ?? lookup.cableByEnd.get(id)
  if (cable !== undefined)
    return cable.ends
      .filter((end) => actsOn(lookup, "connect", end.id).length > 0)
      .map((end) => fact("connected", end.id))
  const instances = instancesOf(lookup, id)
  if (!isAll && instances.length > 1 && lookup.partByPiece.has(id)) return [fact("some", id)]
  return instances.map((instance) => fact("on", instance))
}
