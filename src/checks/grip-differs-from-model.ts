import { placeAt } from "../findings/places.ts"
import { atMost } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Difference between a typed and a measured grip that is still rounding. */
const roundingMm = 0.2

/** Finds typed grips that differ from the thickness of the clamped parts in the model. All lengths in mm. */
export const gripDiffersFromModel = defineRule({
  id: "grip-differs-from-model",
  severity: "warning",
  source: "arithmetic: typed grip against the meshes of the clamped parts",
  check: ({ kit, fit }) =>
    fit.joints.flatMap(({ joint: id, gripMm }) => {
      const joint = kit.joints.find((one) => one.id === id)
      if (joint?.declaredGripMm === undefined || gripMm?.origin !== "measured") return []
      if (atMost(Math.abs(joint.declaredGripMm - gripMm.value), roundingMm)) return []
      const message = `grip of joint \`${id}\` is written as ${mm(joint.declaredGripMm)}, the model has ${mm(gripMm.value)}`
      const why = `${gripMm.from} along the screws; the measured grip is used`
      return [
        {
          message,
          why,
          fix: "Remove `grip:`, or correct the model.",
          where: placeAt(kit.places, joint.path, "grip"),
          subjects: [id],
        },
      ]
    }),
})
