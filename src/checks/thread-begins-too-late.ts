import { findThreadLengthMm } from "../fasteners/sizes.ts"
import { placeAt } from "../findings/places.ts"
import { washerMm } from "../fit/engagement.ts"
import { atMost } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/**
 * Finds long screws whose plain shank reaches into the nut or the tapped bore: they stop there before the head clamps.
 * Judges the shortest shank that the standard allows, five pitches less than length minus thread. All lengths in mm.
 */
export const threadBeginsTooLate = defineRule({
  id: "thread-begins-too-late",
  severity: "error",
  source: "ISO 4762, ISO 4014 and others: length of thread b, least length of shank ls = l - b - 5 P",
  check: ({ kit, fit }) =>
    fit.joints.flatMap(({ joint: id, gripMm }) => {
      const joint = kit.joints.find((one) => one.id === id)
      if (joint === undefined || gripMm === undefined || joint.fastener.isThreadForming) return []
      const { lengthMm, pitchMm } = joint.fastener
      const threadMm = findThreadLengthMm(joint.fastener)
      if (lengthMm === undefined || threadMm === undefined || threadMm >= lengthMm) return []
      const shankMm = lengthMm - threadMm - 5 * pitchMm
      const roomMm = gripMm.value + washerMm(joint)
      if (atMost(shankMm, roomMm)) return []
      const message = `screws of joint \`${id}\` have a shank of ${mm(shankMm)} or more, here is room for ${mm(roomMm)}`
      const why = `${mm(lengthMm)} long, ${mm(threadMm)} of thread; the shank stops at the thread it should go into`
      const fix = `Take shorter screws, or screws threaded up to the head.`
      return [{ message, why, fix, where: placeAt(kit.places, joint.path, "screws"), subjects: [id] }]
    }),
})
