import { isTold, placeAt } from "../findings/places.ts"
import { holeToleranceMm } from "../fit/holes.ts"
import { atLeast } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Finds clearance holes that the screw just passes but that come out below the fine series. All lengths in mm. */
export const holeBelowSeries = defineRule({
  id: "hole-below-series",
  severity: "note",
  source: "ISO 273:1979, table 1, fine series",
  check: ({ kit, fit }) =>
    fit.joints.flatMap(({ joint: id, clearanceHole }) => {
      const joint = kit.joints.find((one) => one.id === id)
      if (joint === undefined || clearanceHole === undefined || isTold(kit.told, "printing")) return []
      const { modelledMm, finishedMm, neededMm } = clearanceHole
      const isTooSmall = !atLeast(finishedMm + holeToleranceMm, joint.fastener.diameterMm)
      if (isTooSmall || atLeast(finishedMm + holeToleranceMm, neededMm.min)) return []
      const message = `holes of joint \`${id}\` come out ${mm(finishedMm)} wide, the fine series is ${mm(neededMm.min)}`
      const printed = finishedMm === modelledMm ? "" : `modelled ${mm(modelledMm)}; `
      const why = `${printed}${joint.count} screws find their threads only if the holes are out of place by less than ${mm((finishedMm - joint.fastener.diameterMm) / 2)}`
      const fix = `Model the holes ${mm(neededMm.min + modelledMm - finishedMm)} to ${mm(neededMm.max + modelledMm - finishedMm)} wide.`
      return [{ message, why, fix, where: placeAt(kit.places, joint.path, "holes"), subjects: [id] }]
    }),
})
