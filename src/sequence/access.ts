/** What must be out of the way before hand, tool or piece reaches a thing: one fact per piece that hides it or blocks it. */
import { fact } from "./facts.ts"
import type { Lookup } from "./lookup.ts"
import type { FactKey, Need } from "./types.ts"

/** The fact that an instance hides nothing: it is off, or open when it is a hinged or sliding part. */
function clearFact(lookup: Lookup, instance: string): FactKey {
  return fact(lookup.leaves.has(instance) ? "clear" : "off", instance)
}

/**
 * Needs for reaching the things with these ids. Pieces in `besides` (ids of parts or instances) do not count:
 * a part does not hide the joint that goes through it.
 */
export function accessNeeds(lookup: Lookup, ids: readonly string[], besides: readonly string[]): readonly Need[] {
  const needs = new Map<FactKey, Need>()
  for (const id of new Set(ids)) {
    for (const cover of lookup.coversOf.get(id) ?? []) {
      if (isAmong(lookup, cover, besides)) continue
      const key = clearFact(lookup, cover)
      if (!needs.has(key)) needs.set(key, { fact: key, why: `\`${cover}\` hides \`${id}\`` })
    }
  }
  return [...needs.values()]
}

/** Needs that geometry found: pieces in the way of inserting an instance, or of the driver of a joint. */
export function blockerNeeds(
  lookup: Lookup,
  kind: "insertion" | "driver",
  id: string,
  besides: readonly string[],
): readonly Need[] {
  const inTheWay =
    kind === "driver" ? `stands in the way of the driver for \`${id}\`` : `stands in the way of \`${id}\``
  return (lookup.blockersOf.get(`${kind} ${id}`) ?? [])
    .filter((blocker) => !isAmong(lookup, blocker, besides))
    .map((blocker) => ({ fact: clearFact(lookup, blocker), why: `\`${blocker}\` ${inTheWay}` }))
}

function isAmong(lookup: Lookup, piece: string, ids: readonly string[]): boolean {
  return ids.includes(piece) || ids.includes(lookup.partByPiece.get(piece)?.id ?? piece)
}
