/** How often the acts of a kit use its items: shared by the rules about the supply. */
import type { Act, Kit } from "../kit/types.ts"
import { findLeftOut, subjectOf } from "../sequence/index.ts"
import type { Sequence } from "../sequence/types.ts"

/** Acts done before the box is opened, then those of the steps, in order. */
export function allActs(kit: Kit): readonly Act[] {
  return [...kit.arrives, ...kit.steps.flatMap(({ acts }) => acts)]
}

/** The acts of a kit by what they are on, and the ids of its parts: built once for all questions of a rule. */
export type ActIndex = {
  /** Each act with its place among all acts. */
  readonly byTarget: ReadonlyMap<string, readonly { readonly act: Act; readonly place: number }[]>
  readonly parts: ReadonlySet<string>
}

/** Indexes all acts. Linear in their number. */
export function indexActs(kit: Kit): ActIndex {
  const byTarget = new Map<string, { readonly act: Act; readonly place: number }[]>()
  for (const [place, act] of allActs(kit).entries()) {
    const known = byTarget.get(act.target)
    if (known === undefined) byTarget.set(act.target, [{ act, place }])
    else known.push({ act, place })
  }
  return { byTarget, parts: new Set(kit.parts.map(({ id }) => id)) }
}

/** Acts with one of these verbs on one of these targets, in the order of all acts. */
export function actsOn(
  { byTarget }: ActIndex,
  verbs: readonly Act["verb"][],
  targets: readonly string[],
): readonly Act[] {
  return [...new Set(targets)]
    .flatMap((target) => byTarget.get(target) ?? [])
    .filter(({ act }) => verbs.includes(act.verb))
    .sort((one, other) => one.place - other.place)
    .map(({ act }) => act)
}

/** How many pieces the acts use in all; an act without a count uses `whole`. */
export function countPieces(acts: readonly Act[], whole: number): number {
  return acts.reduce((sum, { count }) => sum + (count ?? whole), 0)
}

/** `1 piece`, `2 pieces`. */
export function pieces(count: number): string {
  return count === 1 ? "1 piece" : `${count} pieces`
}

/** Ids of things that an act needs and nobody gives: the rule `nobody-gives` tells them. */
export function findLacking(sequence: Sequence): ReadonlySet<string> {
  return new Set(
    sequence.faults.flatMap((fault) => (fault.kind === "nobody-gives" ? [subjectOf(fault.need.fact)] : [])),
  )
}

/**
 * Gives a test whether an act with one of these verbs was written but left out of the kit, and explains nothing else
 * yet. Each such act explains one finding: ask once for each.
 */
export function explainByLeftOut(kit: Kit, sequence: Sequence): (verbs: readonly Act["verb"][]) => boolean {
  const used = new Set(sequence.faults.flatMap((fault) => ("leftOut" in fault ? [fault.leftOut] : [])))
  const open = findLeftOut(kit).filter(({ path }) => !used.has(path))
  return (verbs) => {
    const index = open.findIndex(({ verb }) => verbs.includes(verb))
    return index >= 0 && open.splice(index, 1).length === 1
  }
}

/** Verbs that use a pad up; a part of the same name is what `place` means. */
export function padVerbs({ parts }: ActIndex, pad: string): readonly Act["verb"][] {
  return parts.has(pad) ? ["stick"] : ["stick", "place"]
}

/** The socket of an act that connects an end which does not belong there. */
export function wrongSocket(kit: Kit, { verb, target, to }: Act): Kit["sockets"][number] | undefined {
  if (verb !== "connect") return undefined
  const socket = kit.sockets.find(({ id }) => id === to)
  return socket?.takes === undefined || isEndOf(socket.takes, target) ? undefined : socket
}

/** `takes:` names an end, or a cable when any of its ends will do. */
export function isEndOf(takes: string, end: string): boolean {
  return takes === end || end.startsWith(`${takes}.`)
}
