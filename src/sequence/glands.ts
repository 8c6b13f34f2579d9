/** Cable glands: passages that `close` tightens round the cables in them and `open` loosens. */
import type { Cable, Passage } from "../kit/types.ts"
import { accessNeeds } from "./access.ts"
import type { Facts } from "./actions/types.ts"
import { fact } from "./facts.ts"
import { actsOn, type Lookup } from "./lookup.ts"
import { cablesOf } from "./threading.ts"
import type { Need } from "./types.ts"

/** The gland an act names; undefined for a part, and for an opening that is no gland. */
export function findGland(lookup: Lookup, target: string): Passage | undefined {
  const passage = lookup.passages.get(target)
  return passage?.clamps === undefined || lookup.instancesById.has(target) ? undefined : passage
}

/** A tightened gland lets nothing move in it: what `feed` and `withdraw` need of it. */
export function looseNeeds({ id, clamps }: Passage): readonly Need[] {
  if (clamps === undefined) return []
  return [{ fact: fact("unclamped", id), why: `the tightened gland \`${id}\` holds what is in it` }]
}

/** Tightening needs the gland loose and within reach, and every cable that is to run through it in it. */
export function tightenFacts(lookup: Lookup, gland: Passage): Facts {
  const cables = cablesOf(lookup, gland.id).filter((cable) => isMeantFor(lookup, cable, gland.id))
  return {
    needs: [
      { fact: fact("unclamped", gland.id), why: `only a loose gland can be tightened` },
      ...cables.map(({ id }) => ({
        fact: fact("thru", id, gland.id),
        why: `a gland is tightened round its cable, and lets none through afterwards`,
      })),
      ...accessNeeds(lookup, [gland.id, gland.part], [gland.part]),
    ],
    gives: [fact("clamped", gland.id)],
    takes: [fact("unclamped", gland.id)],
  }
}

/** Loosening needs the gland tightened and within reach. */
export function loosenFacts(lookup: Lookup, gland: Passage): Facts {
  return {
    needs: [
      { fact: fact("clamped", gland.id), why: `only a tightened gland can be loosened` },
      ...accessNeeds(lookup, [gland.id, gland.part], [gland.part]),
    ],
    gives: [fact("unclamped", gland.id)],
    takes: [fact("clamped", gland.id)],
  }
}

/** Glands that must be tight when all is done: a cable stays in them that an act feeds or loosens, or an act tightens them. */
export function glandsInUse(lookup: Lookup): readonly Passage[] {
  const touched = new Set(
    lookup.allActs.flatMap(({ verb, target, through }) =>
      verb === "feed" ? (through ?? []) : verb === "open" ? target : [],
    ),
  )
  const staysIn = (gland: string): boolean => cablesOf(lookup, gland).some((cable) => isMeantFor(lookup, cable, gland))
  return lookup.kit.passages.filter(
    ({ id }) =>
      findGland(lookup, id) !== undefined &&
      (actsOn(lookup, "close", id).length > 0 || (touched.has(id) && staysIn(id))),
  )
}

/** True for a cable in use that has the gland on its way, or that an act feeds through it for good. */
function isMeantFor({ cableMoves }: Lookup, cable: Cable, gland: string): boolean {
  const isCaptive = cable.ends.every(({ arrival }) => arrival.state !== "free")
  if (cable.via.includes(gland)) return isCaptive || cableMoves.handled.has(cable.id)
  const moves = cableMoves.moves.get(`${cable.id} ${gland}`) ?? []
  return moves.filter(({ verb }) => verb === "feed").length * 2 > moves.length
}
