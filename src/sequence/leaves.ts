/** Hinged and sliding pieces: whether an act that puts one in its place puts it on open or shut. */
import type { Act, Part } from "../kit/types.ts"
import type { Verb } from "../spec/types.ts"
import { actsOn, type Lookup, movedInstances } from "./lookup.ts"

/**
 * What is done to it first afterwards tells: one that is closed was put on open, one that is opened was put on shut. Where
 * nothing is done to it, one with a `hinge` hangs open, and so does one behind which an act works afterwards; others are shut.
 * False for a piece that neither swings nor slides, and for one that no act puts on.
 */
export function isPutOnOpen(lookup: Lookup, instance: string): boolean {
  const part = lookup.partByPiece.get(instance)
  if (part === undefined || !lookup.leaves.has(instance)) return false
  const isIt = (act: Act): boolean => movedInstances(lookup, act).includes(instance)
  const placed = lookup.allActs.findIndex((act) => act.verb === "place" && isIt(act))
  if (placed < 0) return false
  const swings = [...new Set([instance, part.id])].flatMap((id) => [
    ...actsOn(lookup, "open", id),
    ...actsOn(lookup, "close", id),
  ])
  if (swings.length === 0) return part.hinge !== undefined || isWorkedBehind(lookup, part, placed)
  const first = lookup.allActs.slice(placed).find((act) => swings.includes(act))
  return (first ?? swings[0])?.verb === "close"
}

/** Acts that reach no thing with a hand or a tool. */
const reachesNothing: ReadonlySet<Verb> = new Set([
  "isolate",
  "verify",
  "restore",
  "inspect",
  "wait",
  "turn",
  "set-aside",
  "discard",
])

/** True when an act after the one at `placed` has its hands on something that the piece hides. */
function isWorkedBehind(lookup: Lookup, { covers }: Part, placed: number): boolean {
  if (covers.length === 0) return false
  return lookup.allActs.slice(placed + 1).some(({ verb, target, to, through }) => {
    if (reachesNothing.has(verb)) return false
    const touched = [
      target,
      to,
      through,
      to === undefined ? undefined : lookup.sockets.get(to)?.owner,
      lookup.cableByEnd.get(target)?.id,
      lookup.partByPiece.get(target)?.id,
      lookup.joints.get(target)?.bore.id,
    ]
    return touched.some((id) => id !== undefined && covers.includes(id))
  })
}
