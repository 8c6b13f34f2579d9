import { findWasher } from "../fasteners/sizes.ts"
import { placeAt } from "../findings/places.ts"
import { atLeast } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Finds washers that the screw does not go through. All lengths in mm. */
export const washerTooSmall = defineRule({
  id: "washer-too-small",
  severity: "error",
  source: "ISO 7089:2000 and ISO 7093-1:2000, table 1: d1",
  check: ({ kit }) =>
    kit.joints.flatMap(({ id, path, fastener, washer }) => {
      const row = washer === undefined ? undefined : findWasher(washer)
      if (row === undefined || atLeast(row.innerMm, fastener.diameterMm)) return []
      const message = `washers of joint \`${id}\` have a hole of ${mm(row.innerMm)}, its screws are ${mm(fastener.diameterMm)}`
      const fix = `Take washers for M${fastener.diameterMm}.`
      return [{ message, fix, where: placeAt(kit.places, path, "washer"), subjects: [id] }]
    }),
})
