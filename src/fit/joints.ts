/** All facts of one joint put together. */
import { findHead } from "../fasteners/sizes.ts"
import { findClearance } from "../fasteners/tables/iso-273.ts"
import type { Joint } from "../kit/joint-types.ts"
import type { Kit } from "../kit/types.ts"
import { computeEngagement } from "./engagement.ts"
import { computeGrip } from "./grip.ts"
import { computeClearance, computePilot } from "./holes.ts"
import { computeScrewPaths } from "./screw-paths.ts"
import { computeTighteningSequence } from "./tightening-sequence.ts"
import { computeTorque, type JointContext } from "./torque.ts"
import type { JointFit } from "./types.ts"

/** Computes grip, engagement, holes, head and torque of a joint. */
export function computeJoint(kit: Kit, joint: Joint): JointFit {
  const gripMm = computeGrip(kit, joint)
  const head = findHead(joint.fastener)
  const screws = computeScrewPaths(kit, joint)
  const engagement = computeEngagement(kit, joint, gripMm?.value, screws)
  const clearanceHole = computeClearance(kit, joint, screws)
  return {
    joint: joint.id,
    gripMm,
    ...engagement,
    clearanceHole,
    pilotHole: computePilot(kit, joint),
    headMm: { diameter: head.diameterMm, height: head.heightMm },
    torque: computeTorque(contextOf(kit, joint, engagement.engagementMm, clearanceHole?.finishedMm)),
    screws,
    tightening: computeTighteningSequence(kit, joint),
  }
}

/** What the torque limits need, for rules that look at the bands of the limits. */
function contextOf(
  kit: Kit,
  joint: Joint,
  engagementMm: number | undefined,
  finishedHoleMm: number | undefined,
): JointContext {
  return { kit, joint, engagementMm, holeMm: finishedHoleMm ?? findClearance(joint.fastener.diameterMm).mediumMm }
}
