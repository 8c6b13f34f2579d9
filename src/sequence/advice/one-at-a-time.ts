/** Screws of a unit that hold something else as well. */
import type { OneAtATime } from "../advice-types.ts"
import type { Walked } from "./index.ts"

/**
 * Own joints with `also-holds` that the steps take out: the joint of the kit whose screws take their place, and how many are
 * changed one by one. `joint` is undefined when nothing goes into the same bore.
 */
export function findOneAtATime({ lookup, actions }: Walked): readonly OneAtATime[] {
  const out = new Set(actions.flatMap(({ verb, act }) => (verb === "unscrew" ? [act.target] : [])))
  return lookup.kit.ownJoints.flatMap(({ id, alsoHolds, bore, count }) => {
    if (alsoHolds === undefined || !out.has(id)) return []
    const joint = bore === undefined ? undefined : lookup.kit.joints.find((one) => one.bore.id === bore)
    return [{ ownJoint: id, joint: joint?.id, holds: alsoHolds, count: Math.min(count, joint?.count ?? count) }]
  })
}
