/**
 * A cable as a stack with two ends. A closed passage goes on over an end, so the one threaded last lies nearest to that
 * end and comes off first. Open passages take a cable from the side at any time and have no place in the stack.
 */
import type { Cable, Passage } from "../kit/types.ts"
import { fact } from "./facts.ts"
import { actsOn, type Lookup } from "./lookup.ts"
import type { Need } from "./types.ts"

/**
 * Needs of moving an end through a closed passage: those nearer to the end on the way of the cable (`via`) are not yet,
 * or no longer, threaded. None for an open passage, one that is not on the way, and an end in the middle of a branched cable.
 */
export function stackNeeds(
  lookup: Lookup,
  verb: "feed" | "withdraw",
  cable: Cable,
  end: string,
  passage: Passage,
): readonly Need[] {
  if (!passage.isClosed) return []
  return nearerPassages(cable, end, passage.id)
    .filter((id) => lookup.passages.get(id)?.isClosed === true)
    .map((id) => ({
      fact: fact("outside", cable.id, id),
      why:
        verb === "feed"
          ? `on the way of \`${cable.id}\`, \`${id}\` lies nearer to \`${end}\` than \`${passage.id}\`, so \`${passage.id}\` is threaded first`
          : `on the way of \`${cable.id}\`, \`${id}\` lies nearer to \`${end}\` than \`${passage.id}\`, so the end leaves \`${id}\` first`,
    }))
}

/** A closed passage lets only a free end through. */
export function freeNeeds(verb: "feed" | "withdraw", end: string, { id, isClosed }: Passage): readonly Need[] {
  if (!isClosed) return []
  const what = verb === "feed" ? "goes through first" : "comes back through it"
  return [{ fact: fact("free", end), why: `\`${id}\` is closed all round, so the end ${what}` }]
}

/** Passages on the way between an end and a passage, nearest to the end first. */
function nearerPassages({ ends, via }: Cable, end: string, passage: string): readonly string[] {
  const at = via.indexOf(passage)
  if (at < 0) return []
  if (ends[0]?.id === end) return via.slice(0, at)
  return ends.at(-1)?.id === end ? via.slice(at + 1).reverse() : []
}

/** Cables that have a passage on their way, or that an act moves through it. */
export function cablesOf({ cableMoves }: Lookup, passage: string): readonly Cable[] {
  return cableMoves.cablesByPassage.get(passage) ?? []
}

/** Passages that a cable runs through at some time: those on its way, and those that only an act moves it through. */
export function passagesOf({ cableMoves, passages }: Lookup, cable: Cable): readonly string[] {
  return (cableMoves.passagesByCable.get(cable.id) ?? []).filter((id) => passages.has(id))
}

/**
 * True when the cable runs through the passage on arrival. Nobody could have threaded a cable with no free end, so it
 * does when the passage is on its way and no act feeds it in first; so does one that an act pulls back first.
 */
export function isThreadedOnArrival(lookup: Lookup, cable: Cable, passage: string): boolean {
  if (cable.ends.some(({ arrival }) => arrival.state === "free")) return false
  // Nothing runs through a part that lies in the box.
  const part = lookup.passages.get(passage)?.part ?? ""
  const isInBox = actsOn(lookup, "place", part).some((act) => !lookup.kit.arrives.includes(act))
  if (isInBox && lookup.partByPiece.get(part)?.ownedBy === undefined) return false
  const first = lookup.cableMoves.moves.get(`${cable.id} ${passage}`)?.[0]
  return first === undefined ? cable.via.includes(passage) : first.verb === "withdraw"
}

/**
 * The passages a cable runs through, in order from its first end, after one more: a closed one lies next to the end that
 * went through it, an open one where it is on the way.
 */
export function threadOnto(
  lookup: Lookup,
  cable: Cable,
  threaded: readonly string[],
  end: string,
  passage: string,
): readonly string[] {
  const others = threaded.filter((id) => id !== passage)
  if (lookup.passages.get(passage)?.isClosed === true)
    return cable.ends[0]?.id === end ? [passage, ...others] : [...others, passage]
  const at = cable.via.indexOf(passage)
  const next = at < 0 ? -1 : others.findIndex((id) => cable.via.indexOf(id) > at)
  return next < 0 ? [...others, passage] : [...others.slice(0, next), passage, ...others.slice(next)]
}

/** Passages that a cable runs through at once, in order from its first end; those not on its way come last. */
export function sortOnWay({ via }: Cable, passages: readonly string[]): readonly string[] {
  const rank = (id: string): number => (via.includes(id) ? via.indexOf(id) : via.length)
  return [...passages].sort((one, other) => rank(one) - rank(other))
}
