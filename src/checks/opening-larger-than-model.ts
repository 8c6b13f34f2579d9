import { isTold, placeAt } from "../findings/places.ts"
import { nameOutline } from "../fit/openings.ts"
import { defineRule } from "./types.ts"

/** Finds passages whose written opening is larger than the opening at their place in the model. */
export const openingLargerThanModel = defineRule({
  id: "opening-larger-than-model",
  severity: "warning",
  source: "geometry: rays round the middle of the opening through the mesh of its part",
  check: ({ kit, fit }) =>
    fit.openings.flatMap(({ passage: id, written, found }) => {
      const passage = kit.passages.find((one) => one.id === id)
      const part = kit.parts.find((one) => one.id === passage?.part)
      const paths = [passage?.path, part?.path].filter((path) => path !== undefined)
      if (passage === undefined || isTold(kit.told, ...paths)) return []
      return [
        {
          message: `opening of \`${id}\` is written as ${nameOutline(written)}, the model has ${nameOutline(found)}`,
          where: placeAt(kit.places, passage.path, "opening"),
          why: `measured across \`${passage.part}\` at the middle of the opening; what passes is judged by the written size`,
          fix: "Write the size of the model, or correct the model or the place of the opening.",
          subjects: [id],
        },
      ]
    }),
})
