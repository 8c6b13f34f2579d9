import { isTold, placeAt } from "../findings/places.ts"
import { finishedSlot } from "../fit/ties.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Finds ties that are wider or thicker than the slot they go through, as it comes off the printer. Lengths in mm. */
export const tieTooWideForSlot = defineRule({
  id: "tie-too-wide-for-slot",
  severity: "error",
  source: "arithmetic: section of the tie against the finished slot",
  check: ({ kit, fit }) =>
    fit.ties.flatMap(({ tie: id, slotFits }) => {
      const tie = kit.ties.find((one) => one.id === id)
      if (tie?.slot === undefined || slotFits !== false || isTold(kit.told, "printing")) return []
      const { longMm, shortMm } = finishedSlot(kit, tie.slot)
      const what = tie.kind === "band" ? "bands" : "ties"
      const section = `${mm(tie.widthMm)} x ${mm(tie.thicknessMm)}`
      const message = `${what} \`${id}\` measure ${section}, their slot comes out ${mm(longMm)} x ${mm(shortMm)}`
      const fix = `Model the slot at least ${mm(tie.widthMm + 1)} x ${mm(tie.thicknessMm + 0.5)}, or take narrower ${what}.`
      const why = `the slot is modelled ${mm(tie.slot.widthMm)} x ${mm(tie.slot.heightMm)} in \`${tie.slot.in}\``
      return [{ message, why, fix, where: placeAt(kit.places, tie.path, "slot"), subjects: [id] }]
    }),
})
