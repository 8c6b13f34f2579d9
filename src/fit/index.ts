/** Fit: measured and computed facts of a kit. Plain results, no judgement; the rules judge. */
import type { Kit } from "../kit/types.ts"
import { computeApart } from "./apart.ts"
import { computeBox, findLookAlikes } from "./box.ts"
import { computeCableRuns } from "./cable-runs.ts"
import { computeJoint } from "./joints.ts"
import { computeOpenings } from "./model-openings.ts"
import { computeOwnJoints } from "./own-joints.ts"
import { computePassages } from "./passages.ts"
import { computeSeats } from "./seats.ts"
import { computeTie } from "./ties.ts"
import { computeTools } from "./tools.ts"
import type { Fit } from "./types.ts"

/**
 * Gives one result that is computed from a kit and a thing of it, named by its JSON. Who computes many kits that differ in
 * little may give an earlier one, when all that was read of the kit is equal.
 */
export type Keep = <Result>(kit: Kit, name: string, compute: (kit: Kit) => Result) => Result

/** Computes all facts of one kit. Same kit, same result; what cannot be known is `undefined`. */
export function computeFit(kit: Kit, keep: Keep = (whole, _, compute) => compute(whole)): Fit {
  const joints = kit.joints.map((joint) => keep(kit, JSON.stringify(joint), (one) => computeJoint(one, joint)))
  const box = computeBox(kit)
  return {
    joints,
    ownJoints: computeOwnJoints(kit),
    ties: kit.ties.map((tie) => keep(kit, JSON.stringify(tie), (one) => computeTie(one, tie))),
    seats: keep(kit, "seats", computeSeats),
    passages: computePassages(kit),
    cables: computeCableRuns(kit),
    openings: keep(kit, "openings", computeOpenings),
    blockers: [],
    tools: computeTools(kit, joints),
    box,
    lookAlikes: findLookAlikes(box),
    apart: keep(kit, "apart", computeApart),
  }
}
