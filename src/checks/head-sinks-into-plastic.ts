import { placeAt } from "../findings/places.ts"
import { newtonMetres } from "../units/print.ts"
import { findExceeded, findPressedTooMuch } from "./torque-limits.ts"
import { defineRule } from "./types.ts"

/**
 * Finds torques of the maker that press the head or the nut beyond the compressive yield of the plastic under it, even at the
 * highest friction. Silent where the thread or the screw gives way first: that is told by another rule.
 */
export const headSinksIntoPlastic = defineRule({
  id: "head-sinks-into-plastic",
  severity: "warning",
  source: "practice: compressive yield of printed plastics by data sheets, no standard gives a limit",
  check: ({ kit, fit }) =>
    fit.joints.flatMap(({ joint: id, torque }) => {
      const joint = kit.joints.find((one) => one.id === id)
      const { makerTorqueNm } = joint ?? {}
      if (joint === undefined || makerTorqueNm === undefined || findExceeded(torque, makerTorqueNm) !== undefined)
        return []
      const limit = findPressedTooMuch(torque, makerTorqueNm)
      const mostNm = limit?.band?.max
      if (limit === undefined || mostNm === undefined) return []
      const message = `torque of joint \`${id}\` is ${newtonMetres(makerTorqueNm)}, the plastic yields at ${newtonMetres(mostNm)}`
      const why = `${limit.name}: lasting at ${newtonMetres(limit.band?.min ?? limit.value)}, short-term ${newtonMetres(limit.value)}`
      const fix = / under the nut /.test(limit.name)
        ? "Put a washer under the nut, or lower the torque."
        : joint.washer === undefined
          ? "Put a washer under the head, or lower the torque."
          : "Take a larger washer, or lower the torque."
      return [{ message, why, fix, where: placeAt(kit.places, joint.path, "torque"), subjects: [id] }]
    }),
})
