/**
 * What must be true when all is done. The same list, part of it, is what restoring the power and the inspection of
 * all wait for. Things that no act ever touches are not asked for: rules about the supply tell those.
 */
import type { Act, Cable, Kit } from "../kit/types.ts"
import type { Verb } from "../spec/types.ts"
import { fact } from "./facts.ts"
import { glandsInUse } from "./glands.ts"
import { isPutOnOpen } from "./leaves.ts"
import { actsOn, type Lookup, movedInstances } from "./lookup.ts"
import { pieceHeldBy } from "./own-pieces.ts"
import { wholeFacts } from "./partial.ts"
import type { Need } from "./types.ts"

/** A goal and the place of the thing it is about. */
export type Goal = Need & { readonly subject: string; readonly path: string }

/** All goals at the end, in a fixed order: pieces, joints, ties, cables, leaves, power. */
export function findGoals(lookup: Lookup): readonly Goal[] {
  return [
    ...pieceGoals(lookup),
    ...assemblyGoals(lookup),
    ...jointGoals(lookup),
    ...refitGoals(lookup),
    ...tieGoals(lookup),
    ...padGoals(lookup),
    ...cableGoals(lookup),
    ...leafGoals(lookup),
    ...glandGoals(lookup),
    ...cureGoals(lookup),
    ...powerGoals(lookup),
  ]
}

/** The goals that an act near the end waits for: restoring the power needs no ties; inspecting needs no power. */
export function finishedNeeds(lookup: Lookup, verb: "restore" | "inspect"): readonly Need[] {
  const because =
    verb === "restore"
      ? "the power comes back only when the work is complete"
      : "the inspection looks at the finished work"
  const goals = [
    ...pieceGoals(lookup).filter(({ subject }) => verb === "inspect" || isCover(lookup, subject)),
    ...assemblyGoals(lookup),
    ...jointGoals(lookup),
    ...refitGoals(lookup),
    ...(verb === "inspect" ? [...tieGoals(lookup), ...padGoals(lookup)] : []),
    ...cableGoals(lookup),
    ...leafGoals(lookup),
    ...glandGoals(lookup),
    // The load on a pad is another matter than the power.
    ...cureGoals(lookup).filter(({ subject }) => verb === "inspect" || lookup.joints.has(subject)),
  ]
  return goals.map(({ fact: key }) => ({ fact: key, why: because }))
}

function isCover(lookup: Lookup, id: string): boolean {
  const part = lookup.partByPiece.get(id)
  return part !== undefined && (part.covers.length > 0 || part.ownedBy !== undefined)
}

/** Set aside or thrown away, so that it need not come back. */
function isGone(lookup: Lookup, ids: readonly string[]): boolean {
  return ids.some((id) => actsOn(lookup, "discard", id).length + actsOn(lookup, "set-aside", id).length > 0)
}

/** True when more acts put a thing in than take it out, or when it is not accounted for as gone. */
function staysIn(lookup: Lookup, ids: readonly string[], puts: Verb, takes: Verb, isThere: boolean): boolean {
  const count = (verb: Verb): number => ids.reduce((sum, id) => sum + actsOn(lookup, verb, id).length, 0)
  return !isGone(lookup, ids) || count(puts) + (isThere ? 1 : 0) > count(takes)
}

/** A group that the kit declares stands in its place, unless it is taken off for good. */
function assemblyGoals(lookup: Lookup): readonly Goal[] {
  return lookup.kit.assemblies
    .filter(({ id }) => staysIn(lookup, [id], "place", "remove", false))
    .map(({ id, path }) => ({
      fact: fact("on", id),
      why: `\`${id}\` is joined first and then put in its place as one`,
      subject: id,
      path,
    }))
}

/** Pieces that are or come in place stay there, unless they are taken off for good. */
function pieceGoals(lookup: Lookup): readonly Goal[] {
  const placed = new Set(lookup.allActs.flatMap((act) => (act.verb === "place" ? movedInstances(lookup, act) : [])))
  return lookup.kit.parts.flatMap(({ id, instances, ownedBy, path }) => {
    const isOwned = ownedBy !== undefined
    const why = (instance: string): string =>
      isOwned ? `\`${instance}\` belongs to \`${ownedBy}\`` : `\`${instance}\` is part of the finished work`
    return instances
      .filter((instance) => placed.has(instance) || isOwned)
      .filter((instance) => staysIn(lookup, [...new Set([instance, id])], "place", "remove", isOwned))
      .map((instance) => ({ fact: fact("on", instance), why: why(instance), subject: instance, path }))
  })
}

function jointGoals(lookup: Lookup): readonly Goal[] {
  return [...lookup.kit.joints, ...lookup.kit.ownJoints]
    .filter(({ id }) => actsOn(lookup, "start", id).length > 0)
    .filter(({ id }) => staysIn(lookup, [id], "start", "unscrew", lookup.ownJoints.has(id)))
    .flatMap(({ id, path }) =>
      wholeFacts(lookup, "tighten", id, fact("tight", id)).map((key) => ({
        fact: key,
        why: `screws that are only started work loose`,
        subject: id,
        path,
      })),
    )
}

/** Screws of a unit that hold one of its pieces are wanted again when that is put back, unless something of the kit holds it. */
function refitGoals(lookup: Lookup): readonly Goal[] {
  const wanted = new Set(pieceGoals(lookup).map(({ subject }) => subject))
  const placed = new Set(lookup.allActs.flatMap((act) => (act.verb === "place" ? movedInstances(lookup, act) : [])))
  return lookup.kit.ownJoints.flatMap((own) => {
    const piece = pieceHeldBy(lookup.kit.parts, own)
    // Screws that an act starts again are goals like those of any joint.
    const isBack = actsOn(lookup, "unscrew", own.id).length > 0 && actsOn(lookup, "start", own.id).length === 0
    if (piece === undefined || !isBack || piece.holdsItself) return []
    if (!piece.instances.some((instance) => wanted.has(instance) && placed.has(instance))) return []
    const ids = [piece.id, ...piece.instances]
    const holders = lookup.kit.joints.filter(
      ({ bore, through }) => bore.id === own.bore || through.some((id) => ids.includes(id)),
    )
    const isHeld =
      holders.some(({ id }) => actsOn(lookup, "start", id).length > 0) ||
      lookup.kit.ties.some(({ holds }) => holds.some((id) => ids.includes(id)))
    if (isHeld) return []
    const why = `\`${piece.id}\` is put back, and the screws \`${own.id}\` hold it`
    return [{ fact: fact("started", own.id), why, subject: own.id, path: own.path }]
  })
}

function tieGoals(lookup: Lookup): readonly Goal[] {
  return lookup.kit.ties
    .filter(({ id }) => actsOn(lookup, "strap", id).length > 0)
    .filter(({ id }) => staysIn(lookup, [id], "strap", "remove", false))
    .flatMap(({ id, path }) =>
      wholeFacts(lookup, "strap", id, fact("tied", id)).map((key) => ({
        fact: key,
        why: `an open tie holds nothing`,
        subject: id,
        path,
      })),
    )
}

function padGoals(lookup: Lookup): readonly Goal[] {
  return lookup.kit.pads
    .filter(({ id }) => actsOn(lookup, "stick", id).length > 0)
    .filter(({ id }) => staysIn(lookup, [id], "stick", "remove", false))
    .flatMap(({ id, path }) =>
      wholeFacts(lookup, "stick", id, fact("stuck", id)).map((key) => ({
        fact: key,
        why: `a pad that is pulled off holds and seals nothing`,
        subject: id,
        path,
      })),
    )
}

/** Ends that belong in a socket are connected; cables that the steps touch run through their passages. */
function cableGoals(lookup: Lookup): readonly Goal[] {
  const { kit } = lookup
  const isUsed = new Set(
    lookup.allActs.flatMap(({ verb, target }) => (cableVerbs.has(verb) ? [lookup.cableByEnd.get(target)?.id] : [])),
  )
  const spareSocket = hasSpareSocket(kit, lookup.allActs)
  return kit.cables
    .filter((cable) => (isUsed.has(cable.id) || isMeantToRun(kit, cable, spareSocket)) && !isGone(lookup, [cable.id]))
    .flatMap(({ id, ends, via, path }) => [
      ...ends
        .filter((end) => belongsInSocket(lookup, end.id, spareSocket))
        .map((end) => ({
          fact: fact("connected", end.id),
          why: `a loose end does nothing, and may be live`,
          subject: end.id,
          path,
        })),
      ...via
        .filter((passage) => lookup.passages.has(passage))
        .map((passage) => ({
          fact: fact("thru", id, passage),
          why: `\`${passage}\` is on the way of \`${id}\``,
          subject: id,
          path,
        })),
    ])
}

/** A cable of the buyer's that no act touches, but the kit says where it goes. One of the box is told by `item-never-used`. */
function isMeantToRun(kit: Kit, { id, ends, via, isSupplied }: Cable, spareSocket: boolean): boolean {
  if (isSupplied) return false
  const free = ends.filter(({ arrival }) => arrival.state === "free").map((end) => end.id)
  const isTaken = kit.sockets.some(({ takes }) => takes !== undefined && (free.includes(takes) || takes === id))
  return free.length > 0 && (via.length > 0 || isTaken || spareSocket)
}

const cableVerbs: ReadonlySet<Verb> = new Set(["feed", "withdraw", "connect", "disconnect"])

function belongsInSocket(lookup: Lookup, end: string, spareSocket: boolean): boolean {
  const arrival = lookup.cableByEnd.get(end)?.ends.find(({ id }) => id === end)?.arrival
  if (arrival?.state === "fixed") return false
  if (arrival?.state === "connected") {
    const others = lookup.allActs.filter(({ verb, to }) => verb === "connect" && to === arrival.socket)
    return others.length === 0 || others.some(({ target }) => target === end)
  }
  if (actsOn(lookup, "connect", end).length > 0) return true
  if (lookup.kit.sockets.some(({ takes }) => takes === end)) return true
  // Nothing says where the end goes; a socket is left over, and no other end of the cable goes anywhere.
  const others = lookup.cableByEnd.get(end)?.ends.filter(({ id }) => id !== end) ?? []
  const isFastened = others.some(
    (other) => other.arrival.state === "connected" || actsOn(lookup, "connect", other.id).length > 0,
  )
  return spareSocket && !isFastened
}

/** True when a socket that asks for no certain end is neither taken on arrival nor used by any act. */
function hasSpareSocket(kit: Kit, acts: readonly Act[]): boolean {
  const used = new Set([
    ...acts.map(({ to }) => to),
    ...kit.cables.flatMap(({ ends }) =>
      ends.flatMap(({ arrival }) => (arrival.state === "connected" ? [arrival.socket] : [])),
    ),
  ])
  return kit.sockets.some(({ id, takes }) => takes === undefined && !used.has(id))
}

function leafGoals(lookup: Lookup): readonly Goal[] {
  return lookup.kit.parts.flatMap((part) =>
    part.instances
      .filter((instance) => [instance, part.id].some((id) => leafActs(lookup, id) > 0) || isPutOnOpen(lookup, instance))
      .filter((instance) => !isGone(lookup, [instance, part.id]))
      .map((instance) => ({
        fact: fact("shut", instance),
        why: `an open \`${instance}\` covers nothing`,
        subject: instance,
        path: part.path,
      })),
  )
}

function leafActs(lookup: Lookup, id: string): number {
  return actsOn(lookup, "open", id).length + actsOn(lookup, "close", id).length
}

/** A gland round a cable is tight, else it keeps neither water out nor the cable in. */
function glandGoals(lookup: Lookup): readonly Goal[] {
  const used = glandsInUse(lookup).filter(({ part }) => !isGone(lookup, [part]))
  return used.map(({ id, path }) => ({
    fact: fact("clamped", id),
    why: `a loose gland holds no cable and keeps no water out`,
    subject: id,
    path,
  }))
}

/** Pads and locked screws have cured when the buyer begins to use the work. */
function cureGoals(lookup: Lookup): readonly Goal[] {
  return [...lookup.rests.byKey.values()].flatMap(({ id, verb, minutes, path }) =>
    verb === "isolate" || actsOn(lookup, verb, id).length === 0
      ? []
      : [{ fact: fact("cured", id), why: `\`${id}\` rests ${minutes} min before use`, subject: id, path }],
  )
}

function powerGoals(lookup: Lookup): readonly Goal[] {
  const paths = new Map([...lookup.kit.units, ...lookup.kit.cables].map(({ id, path }) => [id, path]))
  return [...lookup.isolated].map((id) => ({
    fact: fact("power-on", id),
    why: `\`${id}\` was isolated for the work`,
    subject: id,
    path: paths.get(id) ?? "",
  }))
}
