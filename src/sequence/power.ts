/**
 * Work on what carries energy, in the order of the lockout standard: isolate, let stored energy go, verify, work, restore.
 * What the kit does not do at all (verify) is told by rules, not asked for here.
 * Source: 29 CFR 1910.147(d)(3) to (d)(6) for the way off, (e) for the way on.
 */
import { dischargedNeeds } from "./cured.ts"
import { fact } from "./facts.ts"
import type { Lookup } from "./lookup.ts"
import type { Need } from "./types.ts"

/** The needs for work on the given units and cables; none for one that the kit does not isolate. */
export function powerNeeds(lookup: Lookup, ids: readonly (string | undefined)[]): readonly Need[] {
  return [...new Set(ids)].flatMap((id) => {
    if (id === undefined || !lookup.isolated.has(id)) return []
    const isVerified = lookup.verified.has(id)
    const why = isVerified
      ? `nobody works on \`${id}\` before it is verified to be off`
      : `nobody works on \`${id}\` while its power is on`
    return [{ fact: fact(isVerified ? "verified" : "power-off", id), why }, ...dischargedNeeds(lookup, id)]
  })
}

/** Units and cables whose power matters when an end is put on or taken off a socket. */
export function liveOfConnection(lookup: Lookup, end: string, socket: string | undefined): readonly string[] {
  const cable = lookup.cableByEnd.get(end)
  const owner = socket === undefined ? undefined : ownerUnit(lookup, lookup.sockets.get(socket)?.owner)
  return [owner, cable?.id].filter((id) => id !== undefined)
}

/** The unit a thing belongs to: itself, or the owner of one of the unit's own pieces. */
export function ownerUnit(lookup: Lookup, id: string | undefined): string | undefined {
  if (id === undefined) return undefined
  return lookup.partByPiece.get(id)?.ownedBy ?? id
}
