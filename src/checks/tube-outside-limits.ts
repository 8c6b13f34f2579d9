import { placeAt } from "../findings/places.ts"
import type { Report } from "../findings/types.ts"
import type { Frame, Kit } from "../kit/types.ts"
import { atLeast, atMost } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/**
 * Finds kits whose frame is not what `fits:` promises: none of the frames that ties close round (of all frames, where
 * none does) has the form and size of the limits. All lengths in mm.
 */
export const tubeOutsideLimits = defineRule({
  id: "tube-outside-limits",
  severity: "error",
  source: "arithmetic: tube of the frame against the limits that the documents print",
  check: ({ kit }) => {
    const strapped = kit.frames.filter(({ id }) => kit.ties.some(({ frame }) => frame === id))
    const frames = strapped.length > 0 ? strapped : kit.frames
    const reports = frames.map((frame) => judgeFrame(kit, frame))
    return reports.some((report) => report === undefined) ? [] : reports.filter((report) => report !== undefined)
  },
})

/** The finding about one frame, undefined when it is within the limits. */
function judgeFrame(kit: Kit, { id, path, profile }: Frame): Report | undefined {
  const { tube, tubeMm } = kit.limits
  const where = placeAt(kit.places, path, "tube")
  const related = [{ message: "the limits stand here", where: placeAt(kit.places, "fits") }]
  if (tube !== undefined && tube !== profile.kind) {
    const message = `tube of \`${id}\` is ${profile.kind}, \`fits:\` says ${tube}`
    const fix = `Write \`tube: ${profile.kind}\` in \`fits:\`, or correct the frame.`
    return { message, fix, where, related, subjects: [id] }
  }
  const sizeMm = profile.kind === "round" ? profile.diameterMm : profile.widthMm
  if (tubeMm === undefined || (atLeast(sizeMm, tubeMm.min) && atMost(sizeMm, tubeMm.max))) return undefined
  const message = `tube of \`${id}\` is ${mm(sizeMm)} wide, \`fits:\` says ${rangeWords(tubeMm)}`
  const fix = "Correct the size of the frame, or the limits in this variant."
  return { message, fix, where, related, subjects: [id] }
}

function rangeWords({ min, max }: { readonly min: number; readonly max: number }): string {
  if (!Number.isFinite(min)) return `up to ${mm(max)}`
  return Number.isFinite(max) ? `${mm(min)} to ${mm(max)}` : `${mm(min)} or more`
}
