import { placeAt } from "../findings/places.ts"
import { atLeast } from "../units/compare.ts"
import { newtons, trimmed } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Finds ties that bear less than the load with shock. Forces in N. */
export const loadAboveTie = defineRule({
  id: "load-above-tie",
  severity: "warning",
  source: "arithmetic: mass x 9.81 x shock 3 (5 with vibration) against half the loop strength (common practice)",
  check: ({ kit, fit }) =>
    fit.ties.flatMap(({ tie: id, load, calculations }) => {
      const tie = kit.ties.find((one) => one.id === id)
      if (tie === undefined || load === undefined || atLeast(load.bornN, load.neededN)) return []
      const what = tie.kind === "band" ? "bands" : "ties"
      const message = `${what} \`${id}\` bear ${newtons(load.bornN)} together, the load with shock is ${newtons(load.neededN)}`
      const inputs = calculations.find(({ name }) => name === "load on the ties")?.inputs ?? []
      const why = inputs
        .map(({ name, value, unit }) => `${name} ${trimmed(value)}${unit === "" ? "" : `\u00a0${unit}`}`)
        .join(", ")
      const fix = `Take more or stronger ${what}, or lower the load in \`fits:\`.`
      return [{ message, why, fix, where: placeAt(kit.places, tie.path, what), subjects: [id] }]
    }),
})
