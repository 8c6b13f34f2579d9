/** What start, tighten, align and unscrew share: the pieces of a joint and the way to its screws. */
import type { Joint } from "../../kit/joint-types.ts"
import { accessNeeds, blockerNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { instancesOf, type Lookup } from "../lookup.ts"
import type { FactKey, Need } from "../types.ts"

/** Ids of the parts a joint clamps, then of the owners of its bore. */
export function joinedPieces(joint: Joint): readonly string[] {
  return [...new Set([...joint.through, ...joint.bore.owners])]
}

/** Needs for reaching the screws of a joint, or of the unit's own joint when `joint` is undefined. */
export function joinedNeeds(lookup: Lookup, id: string, joint: Joint | undefined): readonly Need[] {
  if (joint === undefined) {
    const own = lookup.ownJoints.get(id)
    return own === undefined ? [] : accessNeeds(lookup, [id, own.bore ?? id, own.unit], [])
  }
  const pieces = joinedPieces(joint)
  return [
    ...accessNeeds(lookup, [id, joint.bore.id, ...pieces], pieces),
    ...blockerNeeds(lookup, "driver", id, pieces),
    ...faceNeeds(lookup, joint),
  ]
}

/** A joint on a face that the work is turned to at some time is reached only while it lies that way. */
function faceNeeds(lookup: Lookup, joint: Joint): readonly Need[] {
  const { side } = joint
  if (side === undefined) return []
  const turned = new Set(
    lookup.allActs.flatMap(({ verb, target, to }) => (verb === "turn" && to === side ? [target] : [])),
  )
  return [...turned].map((target) => ({
    fact: fact("faces", target, side),
    why: `the screws of \`${joint.id}\` are driven from \`${side}\``,
  }))
}

/** Facts that these pieces of a joint are held. */
export function heldFacts(lookup: Lookup, pieces: readonly string[]): readonly FactKey[] {
  return pieces.flatMap((id) => instancesOf(lookup, id)).map((instance) => fact("held", instance))
}
