import { placeAt } from "../findings/places.ts"
import { atLeast, atMost } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Finds frames whose tube is not what `fits:` promises. All lengths in mm. */
export const tubeOutsideLimits = defineRule({
  id: "tube-outside-limits",
  severity: "error",
  source: "arithmetic: tube of the frame against the limits that the documents print",
  check: ({ kit }) =>
    kit.frames.flatMap(({ id, path, profile }) => {
      const { tube, tubeMm } = kit.limits
      const where = placeAt(kit.places, path, "tube")
      const related = [{ message: "the limits stand here", where: placeAt(kit.places, "fits") }]
      if (tube !== undefined && tube !== profile.kind) {
        const message = `tube of \`${id}\` is ${profile.kind}, \`fits:\` says ${tube}`
        return [
          {
            message,
            fix: `Write \`tube: ${profile.kind}\` in \`fits:\`, or correct the frame.`,
            where,
            related,
            subjects: [id],
          },
        ]
      }
      const sizeMm = profile.kind === "round" ? profile.diameterMm : profile.widthMm
      if (tubeMm === undefined || (atLeast(sizeMm, tubeMm.min) && atMost(sizeMm, tubeMm.max))) return []
      const message = `tube of \`${id}\` is ${mm(sizeMm)} wide, \`fits:\` says ${rangeWords(tubeMm)}`
      const fix = "Correct the size of the frame, or the limits in this variant."
      return [{ message, fix, where, related, subjects: [id] }]
    }),
})

function rangeWords({ min, max }: { readonly min: number; readonly max: number }): string {
  if (!Number.isFinite(min)) return `up to ${mm(max)}`
  return Number.isFinite(max) ? `${mm(min)} to ${mm(max)}` : `${mm(min)} or more`
}
