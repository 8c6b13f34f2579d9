import { isTold, placeAt } from "../findings/places.ts"
import { mm } from "../units/print.ts"
import { inputPaths } from "./joint-inputs.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"

/** Gap or overlap that is still rounding of places. */
const roundingMm = 0.3

/** Finds pieces of a joint that do not touch along its screws, or stand in each other. */
export const gapInJoint = defineRule({
  id: "gap-in-joint",
  severity: "error",
  source: "geometry: rays along each screw through the meshes of the clamped parts and of the bore",
  check: ({ kit, fit }) =>
    fit.joints.flatMap(({ joint: id, screws }) => {
      const joint = kit.joints.find((one) => one.id === id)
      if (joint === undefined || isTold(kit.told, ...inputPaths(kit, joint))) return []
      // Holes that do not meet are told as such: a part out of place is out of place along the screw too.
      const isAstray = screws.some(({ clamped }) => clamped.some(({ kind }) => kind === "blocked" || kind === "missed"))
      const gaps = screws.flatMap(({ gap, at, along }) => (gap === undefined ? [] : [{ ...gap, at, along }]))
      const [worst] = gaps.sort((one, other) => Math.abs(other.gapMm) - Math.abs(one.gapMm))
      if (isAstray || worst === undefined || Math.abs(worst.gapMm) <= roundingMm) return []
      const { before, behind, gapMm } = worst
      const pieces = `\`${before}\` and \`${behind}\``
      const size = mm(Math.round(Math.abs(gapMm) * 10) / 10)
      return [
        {
          message: fitMessage(
            gapMm > 0
              ? `${pieces} are ${size} apart along the screws of joint \`${id}\``
              : `${pieces} stand ${size} in each other along the screws of joint \`${id}\``,
            `${gapMm > 0 ? "gap" : "overlap"} of ${size} between the pieces of joint \`${id}\``,
          ),
          where: placeAt(kit.places, joint.path, "through"),
          why: "grip, engagement and torque are reckoned for pieces that touch; the model shows others",
          fix: `Correct the place of \`${before}\`, or name what lies between in \`through\`.`,
          subjects: [id, before],
          scene: { subjects: [id, before], pointMm: worst.at, direction: worst.along },
        },
      ]
    }),
})
