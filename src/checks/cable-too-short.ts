import { placeAt } from "../findings/places.ts"
import { atLeast } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Finds cables that are shorter than their route and the slack they need. The route runs straight from point to point. */
export const cableTooShort = defineRule({
  id: "cable-too-short",
  severity: "error",
  source: "geometry: no cable is shorter than the straights between the points it runs through",
  check: ({ kit, fit }) =>
    fit.cables.flatMap(({ cable: id, routeMm, neededMm }) => {
      const cable = kit.cables.find((one) => one.id === id)
      if (cable?.lengthMm === undefined || atLeast(cable.lengthMm, neededMm)) return []
      const hasSlack = neededMm > routeMm
      const slack = hasSlack ? ` + slack ${mm(neededMm - routeMm)}` : ""
      const needs = hasSlack ? "its route and slack need" : "its route is"
      return [
        {
          message: `cable \`${id}\` is ${mm(cable.lengthMm)} long, ${needs} ${mm(upToTenth(neededMm))}`,
          where: placeAt(kit.places, cable.path, "length"),
          why: `route ${mm(upToTenth(routeMm))}, from point to point${slack}; ${mm(upToTenth(neededMm - cable.lengthMm))} are missing`,
          fix: "Supply a longer cable, or give it a shorter route.",
          related: [{ message: "the route", where: placeAt(kit.places, cable.path, "route") }],
          subjects: [id],
        },
      ]
    }),
})

/** A need is never rounded down. */
function upToTenth(valueMm: number): number {
  return Math.ceil(valueMm * 10 - 1e-6) / 10
}
