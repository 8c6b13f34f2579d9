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

/** A unit that an act puts down where parts are in place already, and that a later act screws or ties to them. */
export function isUnitLooseWhenPlaced(lookup: Lookup, instance: string): boolean {
  const unit = lookup.kit.units.find(({ instances }) => instances.includes(instance))
  if (unit === undefined) return false
  const placed = lookup.allActs.findIndex(({ verb, instances }) => verb === "place" && instances.includes(instance))
  if (placed < 0) return false
  const before = lookup.allActs.slice(0, placed)
  const ids = [unit.id, instance]
  return (
    before.some(({ verb, instances }) => verb === "place" && instances.some((id) => lookup.partByPiece.has(id))) &&
    lookup.allActs.slice(placed).some(({ verb, target }) => {
      const { through = [], bore } = (verb === "tighten" ? lookup.joints.get(target) : undefined) ?? {}
      const { holds = [] } = (verb === "strap" ? lookup.ties.get(target) : undefined) ?? {}
      return [...through, ...(bore?.owners ?? []), ...holds].some((id) => ids.includes(id))
    })
  )
}
