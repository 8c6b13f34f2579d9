import { placeAt } from "../findings/places.ts"
import { atLeast } from "../units/compare.ts"
import { newtonMetres } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Share of the computed torque below which a typed one is most likely a slip of the decimal point or of the unit. */
const leastShare = 0.2

/** Finds torques of the maker that are less than a fifth of what the joint bears. */
export const torqueFarBelowLimit = defineRule({
  id: "torque-far-below-limit",
  severity: "warning",
  source: "practice: a joint tightened to less than a fifth of what it bears works loose",
  check: ({ kit, fit }) =>
    fit.joints.flatMap(({ joint: id, torque }) => {
      const joint = kit.joints.find((one) => one.id === id)
      const { computedNm } = torque
      if (joint?.makerTorqueNm === undefined || computedNm === undefined) return []
      if (atLeast(joint.makerTorqueNm, leastShare * computedNm)) return []
      return [
        {
          message: `torque of joint \`${id}\` is ${newtonMetres(joint.makerTorqueNm)}, it bears ${newtonMetres(computedNm)}`,
          why: `${torque.governing ?? "the weakest limit"} at ${newtonMetres(computedNm)}; a decimal point or a unit may have slipped`,
          fix: "Correct the torque, or accept this when the joint must only be held.",
          where: placeAt(kit.places, joint.path, "torque"),
          subjects: [id],
        },
      ]
    }),
})
