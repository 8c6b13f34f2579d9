/** Judges the ground that adhesive pads are stuck to. */
import { placeAt } from "../findings/places.ts"
import { findLeftOut } from "../sequence/index.ts"
import { defineRule } from "./types.ts"

/** Finds adhesive pads whose surface no act cleans; told once for each pad, at the first act that sticks it on. */
export const surfaceNotCleaned = defineRule({
  id: "surface-not-cleaned",
  severity: "warning",
  source: "practice: makers of adhesive tapes ask for a surface free of dust and grease",
  check: ({ kit }) => {
    // An act of cleaning that could not be read was told already.
    if (findLeftOut(kit).some(({ verb }) => verb === "clean")) return []
    const acts = kit.steps.flatMap((step) => step.acts)
    const cleaned = new Set(
      [...kit.arrives, ...acts].flatMap(({ verb, target, words }) =>
        verb === "clean" ? [target === "" ? (words ?? "") : target] : [],
      ),
    )
    return kit.pads.flatMap(({ id, on, isAdhesive, instances }) => {
      const stick = acts.find(({ verb, target }) => (verb === "stick" || verb === "place") && target === id)
      const owner = kit.instances.find((one) => one.id === on)?.of ?? on
      const copies = kit.instances.flatMap((one) => (one.of === owner ? [one.id] : []))
      const isCleaned = [id, on, owner, "all", ...instances, ...copies].some((one) => cleaned.has(one))
      // Words of the maker say what is cleaned in a way that is not compared.
      const isSaid = [...cleaned].some((one) => /\s/.test(one))
      if (!isAdhesive || stick === undefined || isCleaned || isSaid) return []
      return [
        {
          message: `pad \`${id}\` is stuck on, and no step cleans \`${on}\` before`,
          where: placeAt(kit.places, stick.path),
          why: "Adhesive holds on dust and grease for days, not for years.",
          fix: `Write \`clean: ${on}\` before this act, and name the wipe under \`consumables\`.`,
          subjects: [id, on],
        },
      ]
    })
  },
})
