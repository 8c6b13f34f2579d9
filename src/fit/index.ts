/** Fit: measured and computed facts of a kit. Plain results, no judgement; the rules judge. */
import type { Kit } from "../kit/types.ts"
import { computeBox, findLookAlikes } from "./box.ts"
import { computeJoint } from "./joints.ts"
import { computeOpenings } from "./model-openings.ts"
import { computePassages } from "./passages.ts"
import { computeSeats } from "./seats.ts"
import { computeTie } from "./ties.ts"
import { computeTools } from "./tools.ts"
import type { Fit } from "./types.ts"

/** Computes all facts of one kit. Same kit, same result; what cannot be known is `undefined`. */
export function computeFit(kit: Kit): Fit {
  const joints = kit.joints.map((joint) => computeJoint(kit, joint))
  const box = computeBox(kit)
  return {
    joints,
    ties: kit.ties.map((tie) => computeTie(kit, tie)),
    seats: computeSeats(kit),
    passages: computePassages(kit),
    openings: computeOpenings(kit),
    blockers: [],
    tools: computeTools(kit, joints),
    box,
    lookAlikes: findLookAlikes(box),
  }
}
