/** Screws of a unit that have the name of one of its pieces hold that piece: `screwed-in: lid`, `pieces: lid`. */
import type { OwnJoint } from "../kit/joint-types.ts"
import type { Kit, Part } from "../kit/types.ts"

/** The piece of the unit that its own screws hold; undefined for screws that hold none. */
export function pieceHeldBy(parts: Kit["parts"], own: OwnJoint): Part | undefined {
  return parts.find(({ id, ownedBy }) => ownedBy === own.unit && own.id === `${own.unit}.${id}`)
}

/** The unit's own screws that hold a piece of it; undefined for a part of the kit, or a piece without screws of its name. */
export function screwsHolding(ownJoints: ReadonlyMap<string, OwnJoint>, piece: Part | undefined): OwnJoint | undefined {
  return piece?.ownedBy === undefined ? undefined : ownJoints.get(`${piece.ownedBy}.${piece.id}`)
}
