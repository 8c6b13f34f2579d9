import { isTold, placeAt } from "../findings/places.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"

/** Finds ties and pads with another number of places than pieces. */
export const placesDifferFromCount = defineRule({
  id: "places-differ-from-count",
  severity: "warning",
  source: "practice: each tie and each pad is drawn at its own place",
  check: ({ kit }) => {
    const ties = kit.ties.map(({ id, path, kind, count, points }) => ({
      ...{ id, path, count, places: points.length, key: "at" },
      name: kind === "band" ? "bands" : "ties",
    }))
    const pads = kit.pads.map(({ id, path, count, instances }) => ({
      ...{ id, path, count, places: instances.length, key: "copies", name: "pads" },
    }))
    return [...ties, ...pads]
      .filter(({ path, count, places }) => places > 0 && places !== count && !isTold(kit.told, path))
      .map(({ id, path, count, places, key, name }) => ({
        message: fitMessage(
          `\`${id}\` counts ${count} ${name}, but \`${key}\` has ${places === 1 ? "1 place" : `${places} places`}`,
        ),
        where: placeAt(kit.places, path, key),
        why: "the drawings show one at each place, the box and the texts count them",
        fix: `Write ${count === 1 ? "one place" : `${count} places`}, or count ${places}.`,
        subjects: [id],
      }))
  },
})
