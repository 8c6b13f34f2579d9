/** Judges whether look-alike screws lie before the buyer in two open bags. */
import { placeAt } from "../findings/places.ts"
import type { BoxItem } from "../fit/types.ts"
import type { Kit } from "../kit/types.ts"
import type { StepChange } from "../sequence/types.ts"
import { isOrderSound } from "./order-freedom.ts"
import { defineRule } from "./types.ts"

/**
 * Finds steps that take screws from a bag while screws that look alike still lie in another open one. Bags that are made
 * up for different sides are told apart by it. Two in one bag are told by `look-alikes-in-one-bag`.
 */
export const lookAlikesInOpenBags = defineRule({
  id: "look-alikes-in-open-bags",
  severity: "warning",
  source: "practice: a screw is taken from the wrong bag when both are open",
  check: ({ kit, fit, sequence }) => {
    // In a wrong order other bags are open than will be in the end.
    if (!isOrderSound({ kit, sequence })) return []
    return fit.lookAlikes.flatMap(({ one, other, difference }) => {
      const linesOf = (item: string): readonly BoxItem[] => fit.box.filter((line) => line.item === item)
      const pairs = linesOf(one).flatMap((line) => linesOf(other).map((second) => [line, second] as const))
      const meetings = pairs.flatMap(([line, second]) => meet(kit, sequence.steps, line, second) ?? [])
      return meetings.map(({ step, taken, beside, joint, otherJoint }) => ({
        message: `in step \`${step}\` bags \`${taken.bag ?? ""}\` and \`${beside.bag ?? ""}\` are open, with screws that look alike`,
        why: `${nameOf(taken)} of \`${joint.id}\` and ${nameOf(beside)} of \`${otherJoint.id}\`: ${difference}.`,
        fix: "Pack them so that one bag is empty before the other is opened, or do the steps of one bag together.",
        where: placeAt(kit.places, joint.path, "bag"),
        related: [{ message: "the other screws", where: placeAt(kit.places, otherJoint.path, "bag") }],
        subjects: [joint.id, otherJoint.id],
      }))
    })
  },
})

type Joint = Kit["joints"][number]
type Meeting = {
  readonly step: string
  readonly taken: BoxItem
  readonly beside: BoxItem
  readonly joint: Joint
  readonly otherJoint: Joint
}

/** The first step that takes screws of one line while the bag of the other is open and still holds some. */
function meet(kit: Kit, steps: readonly StepChange[], line: BoxItem, second: BoxItem): Meeting | undefined {
  const { bag } = line
  if (bag === undefined || second.bag === undefined || bag === second.bag) return undefined
  const [side, otherSide] = [bag, second.bag].map((one) => kit.bags.find(({ id }) => id === one)?.side)
  if (side !== undefined && otherSide !== undefined && side !== otherSide) return undefined
  for (const [index, step] of steps.entries()) {
    if (![bag, second.bag].every((one) => step.openBags.includes(one))) continue
    const takes = ({ uses }: BoxItem): boolean => step.jointsStarted.some((joint) => uses.includes(joint))
    const taken = [line, second].find(takes)
    const beside = taken === line ? second : line
    if (taken === undefined || !isStillIn(steps, index, beside)) continue
    const joint = kit.joints.find(({ id }) => taken.uses.includes(id) && step.jointsStarted.includes(id))
    const otherJoint = kit.joints.find(({ id }) => beside.uses.includes(id))
    if (joint !== undefined && otherJoint !== undefined) return { step: step.step, taken, beside, joint, otherJoint }
  }
  return undefined
}

/** Spares stay to the end; what is used up lies in the bag until the last step that takes some of it. */
function isStillIn(steps: readonly StepChange[], index: number, { spare, uses }: BoxItem): boolean {
  return (
    spare > 0 || steps.slice(index).some(({ jointsStarted }) => jointsStarted.some((joint) => uses.includes(joint)))
  )
}

function nameOf({ fastener }: BoxItem): string {
  return fastener?.designation ?? ""
}
