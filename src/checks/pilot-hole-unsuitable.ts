import { isTold, placeAt } from "../findings/places.ts"
import { printingOf } from "../fit/finished.ts"
import { holeToleranceMm } from "../fit/holes.ts"
import { atLeast, atMost } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Finds holes for thread-forming screws and inserts that come out outside the range for their plastic. Lengths in mm. */
export const pilotHoleUnsuitable = defineRule({
  id: "pilot-hole-unsuitable",
  severity: "note",
  source: "practice: hole factors of screw and insert makers for moulded plastics",
  check: ({ kit, fit }) =>
    fit.joints.flatMap(({ joint: id, pilotHole }) => {
      const joint = kit.joints.find((one) => one.id === id)
      // A printed hole is not as modelled; without the `printing` block nobody knows how wide it comes out.
      if (joint === undefined || pilotHole === undefined || printingOf(kit, joint.bore.owner) === undefined) return []
      if (isTold(kit.told, "printing")) return []
      const { path } = joint.bore
      const { modelledMm, finishedMm, neededMm } = pilotHole
      const isWideEnough = atLeast(finishedMm + holeToleranceMm, neededMm.min)
      if (isWideEnough && atMost(finishedMm - holeToleranceMm, neededMm.max)) return []
      const what = joint.bore.kind === "insert" ? "insert holes" : "pilot holes"
      const message = `${what} of joint \`${id}\` come out ${mm(finishedMm)} wide, usual is ${mm(neededMm.min)} to ${mm(neededMm.max)}`
      const isSmall = finishedMm < neededMm.min
      const printed = finishedMm === modelledMm ? "" : `modelled ${mm(modelledMm)}; `
      const why = `${printed}${isSmall ? "too small a hole splits the boss" : "too large a hole leaves too little thread"}`
      const middleMm = (neededMm.min + neededMm.max) / 2 + modelledMm - finishedMm
      return [
        {
          message,
          why,
          fix: `Model the holes ${mm(middleMm)} wide.`,
          where: placeAt(kit.places, path, Object.hasOwn(kit.places, `${path}/hole`) ? "hole" : "holes"),
          subjects: [id],
        },
      ]
    }),
})
