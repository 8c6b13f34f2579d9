import { suggestLengthMm } from "../fasteners/tables/iso-888.ts"
import { isTold, placeAt } from "../findings/places.ts"
import { atLeast } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Finds screws that meet the bottom of a blind bore before their head clamps anything. All lengths in mm. */
export const screwBottomsOut = defineRule({
  id: "screw-bottoms-out",
  severity: "error",
  source: "arithmetic: grip + washer + depth of the bore against the length of the screw",
  check: ({ kit, fit }) =>
    fit.joints.flatMap(({ joint: id, depthLeftMm, gripMm, neededEngagementMm }) => {
      const joint = kit.joints.find((one) => one.id === id)
      const { lengthMm } = joint?.fastener ?? {}
      if (joint === undefined || lengthMm === undefined || depthLeftMm === undefined || gripMm === undefined) return []
      if (atLeast(depthLeftMm, 0) || isTold(kit.told, `${joint.path}/through`)) return []
      const longestMm = lengthMm + depthLeftMm
      const message = `screws of joint \`${id}\` are ${mm(lengthMm)} long, they bottom out beyond ${mm(longestMm)}`
      const depthMm = joint.bore.depthMm ?? 0
      const washer = joint.washer === undefined ? "" : ", the washer"
      const why = `grip ${mm(gripMm.value)} (${gripMm.from})${washer} and ${mm(depthMm)} of bore leave no room for the last ${mm(-depthLeftMm)}`
      const leastMm = longestMm - depthMm + Math.min(depthMm, neededEngagementMm?.value ?? 0)
      const shorterMm = suggestLengthMm(leastMm, longestMm)
      const fix =
        shorterMm === undefined ? "Make the bore deeper." : `Take screws of ${mm(shorterMm)}, or make the bore deeper.`
      return [{ message, why, fix, where: placeAt(kit.places, joint.path, "screws"), subjects: [id] }]
    }),
})
