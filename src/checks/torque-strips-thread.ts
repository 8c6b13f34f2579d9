import { placeAt } from "../findings/places.ts"
import { atMost } from "../units/compare.ts"
import { newtonMetres } from "../units/print.ts"
import { isTooShort } from "./thread-needed.ts"
import { findExceeded } from "./torque-limits.ts"
import { defineRule } from "./types.ts"

/** Finds torques of the maker that strip the thread or make the screw yield even at the highest friction and strength. */
export const torqueStripsThread = defineRule({
  id: "torque-strips-thread",
  severity: "error",
  source: "VDI 2230-1:2015; FED-STD-H28/2B; printed plastics by data sheets",
  check: ({ kit, fit }) =>
    fit.joints.flatMap((facts) => {
      const { joint: id, torque } = facts
      const joint = kit.joints.find((one) => one.id === id)
      // Screws that are too short strip at any torque; that is told of their length.
      if (joint?.makerTorqueNm === undefined || isTooShort(kit, joint, facts)) return []
      const limit = findExceeded(torque, joint.makerTorqueNm)
      const mostNm = limit?.band?.max
      if (limit === undefined || mostNm === undefined || atMost(joint.makerTorqueNm, mostNm)) return []
      const message = `torque of joint \`${id}\` is ${newtonMetres(joint.makerTorqueNm)}, it bears ${newtonMetres(mostNm)} at most`
      const why = `${limit.name}: safe at ${newtonMetres(limit.value)}, at most ${newtonMetres(mostNm)} (${limit.source})`
      const fix = `Write ${newtonMetres(Number(limit.value.toPrecision(2)))} or less, or take a stronger screw or thread.`
      return [{ message, why, fix, where: placeAt(kit.places, joint.path, "torque"), subjects: [id] }]
    }),
})
