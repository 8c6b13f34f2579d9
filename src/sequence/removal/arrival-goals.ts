/** What must be true when the kit is off again: the buyer's things as they were on arrival. */
import { fact } from "../facts.ts"
import { actsOn, instancesOf, type Lookup } from "../lookup.ts"
import type { FactKey, Need } from "../types.ts"

/**
 * The facts of the arrival that removal brings back. Everything of the kit is off the buyer's unit and frame; what
 * joins pieces of the kit to each other alone may stay, and so may a pad on a piece of the kit. The pieces in `kept` come off
 * with others or are on none of the buyer's things.
 */
export function findArrivalGoals(
  lookup: Lookup,
  initial: ReadonlySet<FactKey>,
  kept: ReadonlySet<string>,
): readonly Need[] {
  const goals = [
    ...pieceGoals(lookup).filter(({ fact: key }) => !key.startsWith("off:") || !kept.has(key.slice("off:".length))),
    ...lookup.kit.assemblies.map(({ id }) => need("off", id, `\`${id}\` was not in its place`)),
    ...fasteningGoals(lookup),
    ...ownScrewGoals(lookup),
    ...cableGoals(lookup),
    ...lookup.kit.passages
      .filter(({ part, clamps }) => clamps !== undefined && isBuyers(lookup, part))
      .map(({ id }) => need("clamped", id, `the gland \`${id}\` is the buyer's`)),
    ...[...lookup.isolated].map((id) => need("power-on", id, `\`${id}\` was live on arrival`)),
  ]
  return goals.filter(({ fact: key }) => initial.has(key))
}

/** True for a unit, a frame or a piece of a unit: what the buyer had before the kit came. */
function isBuyers(lookup: Lookup, id: string): boolean {
  const part = lookup.partByPiece.get(id)
  if (part !== undefined) return part.ownedBy !== undefined
  const cable = lookup.cables.get(id) ?? lookup.cableByEnd.get(id)
  return cable === undefined ? instancesOf(lookup, id).length > 0 : !cable.isSupplied
}

function isOfKit(lookup: Lookup, id: string): boolean {
  return lookup.partByPiece.has(id) && !isBuyers(lookup, id)
}

function need(kind: Parameters<typeof fact>[0], name: string, why: string, other?: string): Need {
  return { fact: fact(kind, name, other), why }
}

function pieceGoals(lookup: Lookup): readonly Need[] {
  return lookup.kit.instances
    .filter(({ owner }) => owner !== "pad")
    .flatMap(({ id }) => {
      const why = isBuyers(lookup, id) ? `\`${id}\` is the buyer's` : `\`${id}\` belongs to the kit`
      const leaf = isBuyers(lookup, id) && lookup.leaves.has(id) ? [need("shut", id, why), need("open", id, why)] : []
      return [need("on", id, why), need("off", id, why), ...leaf]
    })
}

/** Joints, ties and pads that touch something of the buyer's. */
function fasteningGoals(lookup: Lookup): readonly Need[] {
  const { joints, ties, pads } = lookup.kit
  const touches = (ids: readonly string[]): boolean => ids.some((id) => isBuyers(lookup, id))
  return [
    ...joints
      .filter(({ through, bore }) => touches([...through, ...bore.owners]))
      .map(({ id }) => need("out", id, `the screws of \`${id}\` belong to the kit`)),
    ...ties
      .filter(({ frame, holds }) => touches(holds) || (frame !== undefined && !isOfKit(lookup, frame)))
      .map(({ id }) => need("untied", id, `the tie \`${id}\` belongs to the kit`)),
    ...pads
      .filter(({ on }) => touches([on]))
      .map(({ id }) => need("unstuck", id, `the pad \`${id}\` belongs to the kit`)),
  ]
}

function ownScrewGoals(lookup: Lookup): readonly Need[] {
  return lookup.kit.ownJoints.flatMap(({ id, unit }) => {
    const why = `the screws \`${id}\` belong to \`${unit}\``
    return [need("started", id, why), need("tight", id, why)]
  })
}

/** The buyer's cables run as before; a cable of the kit is out of the buyer's sockets and passages. */
function cableGoals(lookup: Lookup): readonly Need[] {
  return lookup.kit.cables.flatMap(({ id, ends, isSupplied }) => {
    const why = isSupplied ? `the cable \`${id}\` belongs to the kit` : `the cable \`${id}\` is the buyer's`
    const moves = ends.flatMap((end) => [...actsOn(lookup, "feed", end.id), ...actsOn(lookup, "withdraw", end.id)])
    const passages = [...new Set(moves.flatMap(({ through }) => through ?? []))].filter(
      (passage) => !isSupplied || isBuyers(lookup, lookup.passages.get(passage)?.part ?? ""),
    )
    return [
      ...ends.flatMap((end) => [need("connected", end.id, why), need("free", end.id, why)]),
      ...passages.flatMap((passage) => [need("thru", id, why, passage), need("outside", id, why, passage)]),
    ]
  })
}
