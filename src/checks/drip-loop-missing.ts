import { placeAt } from "../findings/places.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/**
 * Finds cables down which water runs into an enclosure: outside, the route rises from the passage before it has hung lower.
 * Only where the kit is to live in the wet, and where it is told which end lies inside.
 */
export const dripLoopMissing = defineRule({
  id: "drip-loop-missing",
  severity: "warning",
  source:
    "practice: a cable hangs lower than its entry before it goes in, so that water drips off (common practice, no source)",
  check: ({ kit, fit }) =>
    !kit.environment.wet
      ? []
      : fit.cables.flatMap(({ cable: id, entries }) =>
          entries.flatMap(({ passage, outside, riseMm }) => {
            const cable = kit.cables.find((one) => one.id === id)
            const opening = kit.passages.find((one) => one.id === passage)
            if (cable === undefined || opening === undefined || riseMm <= 0) return []
            return [
              {
                message: `cable \`${id}\` comes down into \`${passage}\`, with no loop that water drips off`,
                where: placeAt(kit.places, cable.path, "route"),
                why: `Outside, towards \`${outside}\`, the route is ${mm(riseMm)} above \`${passage}\` before it is ever below it; rain runs down the cable into \`${opening.part}\`.`,
                fix: "Let the route hang lower than the opening before it goes in, or enter from below.",
                related: [{ message: "the opening", where: placeAt(kit.places, opening.path) }],
                subjects: [id, passage],
              },
            ]
          }),
        ),
})
