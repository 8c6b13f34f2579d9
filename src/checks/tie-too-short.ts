import { placeAt } from "../findings/places.ts"
import { atLeast } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Finds ties that do not close round the frame and what they hold, with a tail to pull. All lengths in mm. */
export const tieTooShort = defineRule({
  id: "tie-too-short",
  severity: "error",
  source: "geometry: taut loop round the section; head and tail 35 mm by common practice (30 to 60 mm)",
  check: ({ kit, fit }) =>
    fit.ties.flatMap(({ tie: id, neededMm, suppliedMm, calculations }) => {
      const tie = kit.ties.find((one) => one.id === id)
      if (tie === undefined || neededMm === undefined || atLeast(suppliedMm, neededMm)) return []
      const what = tie.kind === "band" ? "bands" : "ties"
      const message = `${what} \`${id}\` are ${mm(suppliedMm)} long, they need ${mm(Math.ceil(neededMm))}`
      const length = calculations.find(({ name }) => name === "length of tie")
      const inputs = (length?.inputs ?? []).map(({ name, value }) => `${name} ${mm(value)}`).join(", ")
      const fix = `Take ${what} of ${mm(Math.ceil(neededMm / 10) * 10)} or more.`
      return [{ message, why: `${inputs}`, fix, where: placeAt(kit.places, tie.path, what), subjects: [id] }]
    }),
})
