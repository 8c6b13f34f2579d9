/** Which way the work lies: what the acts turn, the faces that count, and the pieces that would fall. */
import { actsOn, type Lookup } from "./lookup.ts"

const opposites: Readonly<Record<string, string>> = {
  front: "back",
  back: "front",
  left: "right",
  right: "left",
  top: "bottom",
  bottom: "top",
  up: "down",
  down: "up",
}

/** What some act turns: ids, or `all`. */
export function turnedTargets(lookup: Lookup): ReadonlySet<string> {
  return new Set(lookup.allActs.flatMap(({ verb, target }) => (verb === "turn" ? [target] : [])))
}

/** Every face that some act turns the target to, and those opposite, which it then lies on. */
export function facesOf(lookup: Lookup, target: string): readonly string[] {
  const faces = actsOn(lookup, "turn", target).flatMap(({ to }) => (to === undefined ? [] : [to, opposites[to] ?? to]))
  return [...new Set(faces)]
}

/**
 * Pieces that fall when the work is turned before something holds them: parts that a joint or tie holds and that do not hold
 * themselves, and units that an act puts on parts which are there before. What is turned by itself does not fall off itself.
 * Screws hold once they are tight: a few turns by hand carry no part safely.
 */
export function fallingPieces(lookup: Lookup, target: string): readonly string[] {
  const parts = lookup.kit.parts
    .filter(({ holdsItself }) => !holdsItself)
    .flatMap(({ id, instances }) =>
      instances.filter((instance) => lookup.heldPieces.has(id) || lookup.heldPieces.has(instance)),
    )
  const units = lookup.kit.units.flatMap(({ instances }) =>
    instances.filter((instance) => isUnitLooseWhenPlaced(lookup, instance)),
  )
  return [...parts, ...units].filter((instance) => instance !== target)
}

/** A unit that a joint or a tie will hold, and that an act puts down where parts are in place already. */
export function isUnitLooseWhenPlaced(lookup: Lookup, instance: string): boolean {
  const unit = lookup.kit.units.find(({ instances }) => instances.includes(instance))
  if (unit === undefined) return false
  const ids = [unit.id, instance]
  const isJoined =
    lookup.kit.joints.some(({ bore }) => bore.owners.some((owner) => ids.includes(owner))) ||
    ids.some((id) => lookup.heldPieces.has(id))
  const placed = lookup.allActs.findIndex(({ verb, instances }) => verb === "place" && instances.includes(instance))
  return (
    isJoined &&
    placed >= 0 &&
    lookup.allActs
      .slice(0, placed)
      .some(({ verb, instances }) => verb === "place" && instances.some((id) => lookup.partByPiece.has(id)))
  )
}
