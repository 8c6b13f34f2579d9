import { placeAt } from "../findings/places.ts"
import { atMost } from "../units/compare.ts"
import { trimmed } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Finds units that are heavier together than the load that `fits:` allows. Masses in kg. */
export const unitAboveLoadLimit = defineRule({
  id: "unit-above-load-limit",
  severity: "error",
  source: "arithmetic: mass of the units against the load that the documents print",
  check: ({ kit }) => {
    const massKg = kit.units.reduce((sum, unit) => sum + (unit.massKg ?? 0), 0)
    const [first] = kit.units.filter((unit) => unit.massKg !== undefined)
    const { loadKg } = kit.limits
    if (first === undefined || loadKg === undefined || atMost(massKg, loadKg)) return []
    const message = `\`${first.id}\` weighs ${trimmed(massKg)}\u00a0kg, \`fits:\` allows a load of ${trimmed(loadKg)}\u00a0kg`
    return [
      {
        message,
        fix: "Correct the mass or the load.",
        where: placeAt(kit.places, first.path, "mass"),
        related: [{ message: "the limit stands here", where: placeAt(kit.places, "fits", "load") }],
        subjects: [first.id],
      },
    ]
  },
})
