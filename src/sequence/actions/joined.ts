/** What start, tighten, align and unscrew share: the pieces of a joint and the way to its screws. */
import type { Joint } from "../../kit/joint-types.ts"
import { accessNeeds, blockerNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { instancesOf, type Lookup } from "../lookup.ts"
import { pieceHeldBy } from "../own-pieces.ts"
import { facesOf } from "../turned.ts"
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

/** A joint on a face that the work is turned to or away from at some time is reached only while it lies that way. */
function faceNeeds(lookup: Lookup, joint: Joint): readonly Need[] {
  const { side } = joint
  if (side === undefined) return []
  const turned = [...lookup.turned].filter((target) => facesOf(lookup, target).includes(side))
  return turned.map((target) => ({
    fact: fact("faces", target, side),
    why: `the screws of \`${joint.id}\` are driven from \`${side}\``,
  }))
}

/** Facts that the pieces of a joint, or the piece that own screws of a unit hold, are held. */
export function heldBy(lookup: Lookup, id: string): readonly FactKey[] {
  const joint = lookup.joints.get(id)
  return joint === undefined ? ownHeld(lookup, id) : heldFacts(lookup, joinedPieces(joint))
}

/** Facts that nothing holds any more once these screws are out: what they clamp, and no other joint or tie does. */
export function clampedBy(lookup: Lookup, id: string): readonly FactKey[] {
  const joint = lookup.joints.get(id)
  if (joint === undefined) return ownHeld(lookup, id)
  const isHeldBesides = (piece: string): boolean => {
    const part = lookup.partByPiece.get(piece)
    const names = [piece, ...(part === undefined ? [] : piece === part.id ? part.instances : [part.id])]
    const holders = names.flatMap((name) => [
      ...(lookup.jointsThrough.get(name) ?? []),
      ...(lookup.tiesHolding.get(name) ?? []),
    ])
    return new Set(holders).size > 1
  }
  return heldFacts(
    lookup,
    joint.through.filter((piece) => !isHeldBesides(piece)),
  )
}

function ownHeld(lookup: Lookup, id: string): readonly FactKey[] {
  const own = lookup.ownJoints.get(id)
  const piece = own === undefined ? undefined : pieceHeldBy(lookup.kit.parts, own)
  // Only of a piece that is screwed on again is it asked whether it is held.
  return piece === undefined || !lookup.heldPieces.has(piece.id) ? [] : heldFacts(lookup, [piece.id])
}

function heldFacts(lookup: Lookup, pieces: readonly string[]): readonly FactKey[] {
  return pieces.flatMap((id) => instancesOf(lookup, id)).map((instance) => fact("held", instance))
}
