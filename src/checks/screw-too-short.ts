import { suggestLengthMm } from "../fasteners/tables/iso-888.ts"
import { placeAt } from "../findings/places.ts"
import { recessOf, washerMm } from "../fit/engagement.ts"
import { atLeast } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { threadNeeded } from "./thread-needed.ts"
import { defineRule } from "./types.ts"

/**
 * Finds screws that end before they have the thread they need: the whole nut and one pitch of incomplete thread, or
 * the engagement that the material of the bore needs, at most what the bore offers. All lengths in mm.
 */
export const screwTooShort = defineRule({
  id: "screw-too-short",
  severity: "error",
  source:
    "nut heights ISO 4032 and others, incomplete thread ISO 4753; engagement: recommended least values by material",
  check: ({ kit, fit }) =>
    fit.joints.flatMap((facts) => {
      const joint = kit.joints.find(({ id }) => id === facts.joint)
      const { lengthMm } = joint?.fastener ?? {}
      if (joint === undefined || lengthMm === undefined || facts.gripMm === undefined) return []
      const thread = threadNeeded(kit, joint, facts)
      if (thread === undefined) return []
      const recessMm = recessOf(facts.screws)
      const neededMm = facts.gripMm.value + washerMm(joint) + recessMm + thread.lengthMm
      if (atLeast(lengthMm, neededMm)) return []
      const message = `screws of joint \`${joint.id}\` are ${mm(lengthMm)} long, this joint needs ${mm(neededMm)}`
      const washer = washerMm(joint) === 0 ? "" : ` + washer ${mm(washerMm(joint))}`
      const recess = recessMm === 0 ? "" : ` + ${mm(recessMm)} to the mouth of the thread`
      const why = `grip ${mm(facts.gripMm.value)} (${facts.gripMm.from})${washer}${recess} + thread ${mm(thread.lengthMm)} (${thread.from})`
      const isOpen = joint.bore.isThrough || joint.bore.kind === "nut" || joint.bore.depthMm === undefined
      const mostMm = isOpen ? Number.POSITIVE_INFINITY : neededMm - thread.lengthMm + (joint.bore.depthMm ?? 0)
      const longerMm = suggestLengthMm(neededMm, mostMm)
      const fix =
        longerMm === undefined
          ? "Make the clamped parts thinner or the bore deeper."
          : `Take screws of ${mm(longerMm)}.`
      return [{ message, why, fix, where: placeAt(kit.places, joint.path, "screws"), subjects: [joint.id] }]
    }),
})
