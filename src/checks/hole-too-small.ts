import { findClearance } from "../fasteners/tables/iso-273.ts"
import { isTold, placeAt } from "../findings/places.ts"
import { holeToleranceMm } from "../fit/holes.ts"
import { atLeast } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Finds clearance holes that come out smaller than the screw. All lengths in mm. */
export const holeTooSmall = defineRule({
  id: "hole-too-small",
  severity: "error",
  source: "arithmetic: finished hole against the diameter of the screw; ISO 273 for the size it should have",
  check: ({ kit, fit }) =>
    fit.joints.flatMap(({ joint: id, clearanceHole }) => {
      const joint = kit.joints.find((one) => one.id === id)
      if (joint === undefined || clearanceHole === undefined || isTold(kit.told, "printing")) return []
      const { modelledMm, finishedMm, neededMm } = clearanceHole
      const { diameterMm } = joint.fastener
      if (atLeast(finishedMm + holeToleranceMm, diameterMm)) return []
      const message = `holes of joint \`${id}\` come out ${mm(finishedMm)} wide, its screws are ${mm(diameterMm)}`
      const printed = finishedMm === modelledMm ? "" : `modelled ${mm(modelledMm)}; `
      const why = `${printed}ISO 273 gives ${mm(neededMm.min)} (fine) to ${mm(neededMm.max)} (coarse)`
      const { mediumMm } = findClearance(diameterMm)
      const fix = `Model the holes ${mm(mediumMm + modelledMm - finishedMm)} wide.`
      return [{ message, why, fix, where: placeAt(kit.places, joint.path, "holes"), subjects: [id] }]
    }),
})
