import { placeAt } from "../findings/places.ts"
import type { Range } from "../kit/types.ts"
import { atLeast, atMost } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"
import { allActs } from "./uses.ts"

/** Finds cables that are thinner or thicker than the gland they run through can hold. EN 62444 is quoted from memory. */
export const cableOutsideGlandRange = defineRule({
  id: "cable-outside-gland-range",
  severity: "error",
  source: "EN 62444: a cable gland holds and seals cables of the diameters that its maker states",
  check: ({ kit }) =>
    kit.passages.flatMap(({ id, path, clamps }) => {
      const range = clamps?.cableMm
      if (range === undefined) return []
      const fed = new Set(allActs(kit).flatMap(({ through, target }) => (through === id ? [target] : [])))
      return kit.cables.flatMap(({ id: cable, path: cablePath, via, ends, diameterMm }) => {
        if (!via.includes(id) && !ends.some((end) => fed.has(end.id))) return []
        if (diameterMm === undefined || (atLeast(diameterMm, range.min) && atMost(diameterMm, range.max))) return []
        const isThin = diameterMm < range.min
        return [
          {
            message: `cable \`${cable}\` is ${mm(diameterMm)} thick, gland \`${id}\` holds ${sayRange(range)}`,
            where: placeAt(kit.places, cablePath, "diameter"),
            why: isThin
              ? "Tightened as far as it goes, the gland neither seals a cable that is too thin nor holds it against a pull."
              : "The seal of the gland does not go over a cable that is too thick.",
            fix: `Take a gland, or a seal for it, that holds ${mm(diameterMm)}.`,
            related: [{ message: "what the gland holds", where: placeAt(kit.places, path, "clamps") }],
            subjects: [cable, id],
          },
        ]
      })
    }),
})

function sayRange({ min, max }: Range): string {
  if (!Number.isFinite(min)) return `up to ${mm(max)}`
  return Number.isFinite(max) ? `${mm(min)} to ${mm(max)}` : `${mm(min)} or more`
}
