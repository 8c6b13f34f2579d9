/** Runs one end of a cable through a passage. */
import { isTold } from "../../findings/places.ts"
import type { Cable, Passage } from "../../kit/types.ts"
import { accessNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { looseNeeds } from "../glands.ts"
import { actsOn, instancesOf, type Lookup } from "../lookup.ts"
import { freeNeeds, stackNeeds } from "../threading.ts"
import type { Need } from "../types.ts"
import type { ActionKind } from "./types.ts"

/**
 * A closed passage needs the end free, and no passage nearer to that end threaded; whether the end fits is judged from
 * the sizes. The part with the passage must be in place, unless it hides the place where the cable is connected: then it
 * is threaded on while it is in the hand.
 */
export const feed: ActionKind = {
  words: ({ target, through }) => `feeds \`${target}\` through \`${through ?? ""}\``,
  facts: (lookup, { target, through }) => {
    const cable = lookup.cableByEnd.get(target)
    const passage = through === undefined ? undefined : lookup.passages.get(through)
    if (cable === undefined || passage === undefined) return { needs: [], gives: [], takes: [] }
    return {
      needs: [
        { fact: fact("outside", cable.id, passage.id), why: `\`${cable.id}\` can be run through it only once` },
        ...freeNeeds("feed", target, passage),
        ...stackNeeds(lookup, "feed", cable, target, passage),
        ...looseNeeds(passage),
        ...partNeeds(lookup, cable, passage),
        ...accessNeeds(lookup, [passage.id, passage.part], [passage.part]),
        ...accessNeeds(lookup, [target, cable.id], []),
      ],
      gives: [fact("thru", cable.id, passage.id)],
      takes: [fact("outside", cable.id, passage.id)],
    }
  },
}

function partNeeds(lookup: Lookup, cable: Cable, passage: Passage): readonly Need[] {
  // Where an act that connects could not be read, nobody knows what hides its socket.
  if (lookup.leftOut.has("connect") || isThreadedInHand(lookup, cable, passage)) return []
  const path = lookup.partByPiece.get(passage.part)?.path
  if (path !== undefined && isTold(lookup.kit.told, `${path}/covers`)) return []
  const why = `the passage \`${passage.id}\` is in \`${passage.part}\``
  return instancesOf(lookup, passage.part).map((instance) => ({ fact: fact("on", instance), why }))
}

/**
 * True when the part with the passage covers the cable, one of its ends, or a socket (or its owner) that an end goes to or,
 * where none does, could go to.
 */
function isThreadedInHand(lookup: Lookup, cable: Cable, passage: Passage): boolean {
  const covers = lookup.partByPiece.get(passage.part)?.covers ?? []
  const reached = cable.ends.flatMap(({ id, arrival }) => {
    const sockets = [
      ...actsOn(lookup, "connect", id).flatMap(({ to }) => to ?? []),
      ...[id, cable.id].flatMap((one) => (lookup.socketsTaking.get(one) ?? []).map((socket) => socket.id)),
      ...(arrival.state === "connected" ? [arrival.socket] : []),
    ]
    return [id, ...sockets, ...sockets.flatMap((socket) => lookup.sockets.get(socket)?.owner ?? [])]
  })
  const known = reached.length > cable.ends.length ? [] : unusedSockets(lookup)
  return [cable.id, ...reached, ...known].some((id) => covers.includes(id))
}

/** Sockets that no cable is known for: where the cable goes nowhere yet, it may belong in one of them. */
function unusedSockets({ kit, allActs }: Lookup): readonly string[] {
  const used = new Set([
    ...allActs.flatMap(({ to }) => to ?? []),
    ...kit.cables.flatMap(({ ends }) =>
      ends.flatMap(({ arrival }) => (arrival.state === "connected" ? arrival.socket : [])),
    ),
  ])
  const free = kit.sockets.filter(({ id, takes }) => takes === undefined && !used.has(id))
  return free.flatMap(({ id, owner }) => [id, owner])
}
