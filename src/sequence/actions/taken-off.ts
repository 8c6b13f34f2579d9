/** What set-aside and discard share, and what they leave for later. */
import { fact } from "../facts.ts"
import { actsOn, instancesOf, type Lookup } from "../lookup.ts"
import { isWhole, wholeFacts } from "../partial.ts"
import { cablesOf } from "../threading.ts"
import type { Need } from "../types.ts"

/** Needs that the target no longer sits where it was; `fate` is what becomes of it, as in "before they are kept". */
export function offNeeds(lookup: Lookup, target: string, fate: string): readonly Need[] {
  const isOff = actsOn(lookup, "unscrew", target).length > 0 || instancesOf(lookup, target).length === 0
  if ((lookup.joints.has(target) || lookup.ownJoints.has(target)) && isOff)
    return wholeFacts(lookup, "unscrew", target, fact("out", target))
      .slice(0, 1)
      .map((key) => ({
        fact: key,
        why: `screws come out before they are ${fate}`,
      }))
  const cable = lookup.cables.get(target)
  if (cable !== undefined)
    return cable.ends
      .filter(({ arrival }) => arrival.state === "connected")
      .map(({ id }) => ({ fact: fact("free", id), why: `a cable comes off before it is ${fate}` }))
  const pieces = instancesOf(lookup, target)
  if (pieces.length === 0 && lookup.ties.has(target))
    return [{ fact: fact("untied", target), why: `a tie is cut before it is ${fate}` }]
  if (lookup.pads.has(target) && !lookup.partByPiece.has(target))
    return [{ fact: fact("unstuck", target), why: `a pad comes off before it is ${fate}` }]
  return [
    ...pieces.map((id) => ({ fact: fact("off", id), why: `a piece comes off before it is ${fate}` })),
    ...cableNeeds(lookup, [target, ...pieces], fate),
  ]
}

/** A piece does not come away from a cable that runs through a closed opening of it. */
function cableNeeds(lookup: Lookup, pieces: readonly string[], fate: string): readonly Need[] {
  const isOf = (part: string): boolean =>
    pieces.includes(part) || pieces.includes(lookup.partByPiece.get(part)?.id ?? "")
  const closed = lookup.kit.passages.filter(({ part, isClosed }) => isClosed && isOf(part))
  return closed.flatMap(({ id, part }) =>
    cablesOf(lookup, id).map((cable) => ({
      fact: fact("outside", cable.id, id),
      why: `\`${part}\` comes off \`${cable.id}\` before it is ${fate}`,
    })),
  )
}

/** Needs that none of these things was thrown away; nothing where no act throws all of it away. */
export function handNeeds(lookup: Lookup, ids: readonly string[]): readonly Need[] {
  return ids
    .filter((id) => actsOn(lookup, "discard", id).some((act) => isWhole(lookup, act)))
    .map((id) => ({ fact: fact("at-hand", id), why: `what is thrown away cannot be used again` }))
}
