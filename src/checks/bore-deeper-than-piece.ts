import { isTold, placeAt } from "../findings/places.ts"
import { mm } from "../units/print.ts"
import { inputPaths } from "./joint-inputs.ts"
import { defineRule } from "./types.ts"

/** Depths that differ by less are rounding of places. */
const roundingMm = 0.3

/** Finds blind bores that are written deeper than their piece is thick along the screw. All lengths in mm. */
export const boreDeeperThanPiece = defineRule({
  id: "bore-deeper-than-piece",
  severity: "warning",
  source: "geometry: rays beside each bore through the mesh of its piece",
  check: ({ kit, fit }) => {
    const found = fit.joints.flatMap(({ joint: id, screws }) => {
      const joint = kit.joints.find((one) => one.id === id)
      if (joint === undefined || isTold(kit.told, ...inputPaths(kit, joint))) return []
      const { bore } = joint
      const owner = bore.owner ?? bore.id
      const thickMm = Math.min(...screws.flatMap(({ materialMm }) => materialMm ?? []))
      if (bore.isThrough || bore.depthMm === undefined || bore.depthMm <= thickMm + roundingMm) return []
      return [
        {
          message: `bore \`${bore.id}\` is ${mm(bore.depthMm)} deep, \`${owner}\` is ${mm(thickMm)} thick there`,
          where: placeAt(kit.places, bore.path, "depth"),
          why: "a screw that is thought to end inside comes out at the other side, or has less thread than computed",
          fix: "Correct the depth, the place of the bore, or the shape of its piece.",
          subjects: [bore.id],
        },
      ]
    })
    // Joints may share a bore.
    return found.filter(({ message }, index) => found.findIndex((one) => one.message === message) === index)
  },
})
