/** How much thread a joint needs, and whether its screws reach that far: shared by the rules about length and torque. In mm. */
import { boreLengthMm, recessOf, washerMm } from "../fit/engagement.ts"
import type { JointFit } from "../fit/types.ts"
import type { Joint } from "../kit/joint-types.ts"
import type { Kit } from "../kit/types.ts"
import { atLeast } from "../units/compare.ts"
import { mm } from "../units/print.ts"

/** True when the screws end before the thread that the joint needs; what they bear is then no matter of the torque. */
export function isTooShort(kit: Kit, joint: Joint, facts: JointFit): boolean {
  const { lengthMm } = joint.fastener
  const thread = threadNeeded(kit, joint, facts)
  if (lengthMm === undefined || facts.gripMm === undefined || thread === undefined) return false
  return !atLeast(lengthMm, facts.gripMm.value + washerMm(joint) + recessOf(facts.screws) + thread.lengthMm)
}

/** The length of thread that the screws need, with its origin in words; undefined where no value is known. */
export function threadNeeded(
  kit: Kit,
  joint: Joint,
  { neededEngagementMm }: JointFit,
): { readonly lengthMm: number; readonly from: string } | undefined {
  if (neededEngagementMm === undefined) return undefined
  const { value, from } = neededEngagementMm
  if (joint.bore.kind === "nut") {
    return { lengthMm: value + joint.fastener.pitchMm, from: `nut ${mm(value)} and one pitch of incomplete thread` }
  }
  const offeredMm = boreLengthMm(kit, joint) ?? Number.POSITIVE_INFINITY
  return offeredMm < value ? { lengthMm: offeredMm, from: "all that the bore offers" } : { lengthMm: value, from }
}
