/** Which pieces of the kit may stay joined to each other when the kit comes off. */
import type { Fit } from "../../fit/types.ts"
import { joinedPieces } from "../actions/joined.ts"
import { fact } from "../facts.ts"
import { actsOn, instancesOf, type Lookup } from "../lookup.ts"
import type { Action, FactKey } from "../types.ts"

/**
 * Instances that come off with others. Only what mounting shows to be possible: pieces that were joined before they came to
 * the frame leave it joined, when the ties round it are cut; and a piece that stands clear of all the buyer has may stay where it
 * is. A group of joined pieces of which one is screwed to what stands there is taken apart.
 */
export function findKeptTogether(
  lookup: Lookup,
  fit: Fit,
  actions: readonly Action[],
  final: ReadonlySet<FactKey>,
): ReadonlySet<string> {
  const apart = new Set(fit.apart)
  const lastTight = new Map<string, number>()
  const firstTied = new Map<string, number>()
  actions.forEach(({ verb, act: { target } }, index) => {
    if (verb === "tighten") lastTight.set(target, index)
    if (verb === "strap" && !firstTied.has(target)) firstTied.set(target, index)
  })
  const { kit } = lookup
  const joints = kit.joints.filter(({ id }) => final.has(fact("started", id)) || final.has(fact("tight", id)))
  const groups = new Map<string, Group>()
  for (const { id, instances, ownedBy } of kit.parts)
    for (const instance of ownedBy === undefined ? instances : [])
      groups.set(instance, { members: new Set([instance]), joined: new Map(), stands: isPutOnBuyers(lookup, id) })
  for (const joint of joints) {
    const pieces = joinedPieces(joint).flatMap((id) => instancesOf(lookup, id))
    const own = pieces.filter((id) => groups.has(id))
    const stands = pieces.some((id) => isStanding(lookup, id))
    const whole = joinGroups(own.flatMap((id) => groups.get(id) ?? []))
    if (whole === undefined) continue
    whole.stands ||= stands
    const at = lastTight.get(joint.id) ?? Number.POSITIVE_INFINITY
    // A piece on its own is joined to nothing that could take it along.
    if (own.length > 1) for (const id of own) whole.joined.set(id, Math.max(at, whole.joined.get(id) ?? 0))
    for (const id of whole.members) groups.set(id, whole)
  }
  const isKept = (id: string, group: Group): boolean =>
    !group.stands &&
    [...group.members].every((member) => apart.has(member) || isOnlyTied(lookup, member, group, firstTied)) &&
    groups.has(id)
  return new Set([...groups].flatMap(([id, group]) => (isKept(id, group) ? [id] : [])))
}

type Group = {
  readonly members: Set<string>
  /** When the last joint between a member and others was tightened. */
  readonly joined: Map<string, number>
  /** A member is screwed to something of the buyer's that stands there. */
  stands: boolean
}

function joinGroups(groups: readonly Group[]): Group | undefined {
  const [first, ...others] = new Set(groups)
  if (first === undefined) return undefined
  for (const { members, joined, stands } of others) {
    for (const id of members) first.members.add(id)
    for (const [id, at] of joined) first.joined.set(id, at)
    first.stands ||= stands
  }
  return first
}

/** A part that is tied to nothing and screwed to nothing, but hides something of a standing unit, may be clipped to it. */
function isPutOnBuyers(lookup: Lookup, part: string): boolean {
  const covers = lookup.partByPiece.get(part)?.covers ?? []
  return covers.some((id) => isStanding(lookup, id) || isStanding(lookup, lookup.sockets.get(id)?.owner ?? ""))
}

/** A frame, and a unit that no act puts in its place, with its pieces. */
function isStanding(lookup: Lookup, id: string): boolean {
  const part = lookup.partByPiece.get(id)
  const whole = part === undefined ? id : (part.ownedBy ?? "")
  const instances = part !== undefined && part.ownedBy === undefined ? [] : instancesOf(lookup, whole)
  return instances.length > 0 && ![whole, ...instances].some((one) => actsOn(lookup, "place", one).length > 0)
}

/** Held to the frame by ties alone, which were closed when the piece was joined to others already. */
function isOnlyTied(lookup: Lookup, id: string, { joined }: Group, firstTied: ReadonlyMap<string, number>): boolean {
  const at = joined.get(id)
  const part = lookup.partByPiece.get(id)?.id ?? id
  const ties = lookup.kit.ties.filter(
    ({ holds, slot, frame }) =>
      frame !== undefined &&
      [...holds, ...(slot === undefined ? [] : [slot.in])].some((one) => one === id || one === part),
  )
  return at !== undefined && ties.some((tie) => at < (firstTied.get(tie.id) ?? -1))
}
