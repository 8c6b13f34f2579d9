/** Judges what becomes of the screws that the unit had on arrival. */

import { printDesignation } from "../fasteners/designation.ts"
import { placeAt } from "../findings/places.ts"
import { defineRule } from "./types.ts"
import { actsOn, explainByLeftOut, indexActs } from "./uses.ts"

/** What says where screws go that came out. */
const fates = ["set-aside", "discard", "start", "tighten"] as const

/**
 * Finds own screws of a unit that are taken out and neither set aside, thrown away, nor put back. Where they are tightened
 * again and only not started, the order proof tells that.
 */
export const ownScrewsUnaccounted = defineRule({
  id: "own-screws-unaccounted",
  severity: "error",
  source: "the supply: screws of the unit are kept, they are needed when the kit comes off again",
  check: ({ kit, sequence }) => {
    const index = indexActs(kit)
    const isExplained = explainByLeftOut(kit, sequence)
    const missed = new Set(sequence.faults.flatMap((fault) => (fault.kind === "goal-missed" ? [fault.subject] : [])))
    return kit.ownJoints.flatMap(({ id, unit, path, count, fastener }) => {
      const [unscrewed] = actsOn(index, ["unscrew"], [id])
      if (unscrewed === undefined || actsOn(index, fates, [id]).length > 0) return []
      // That they, or the piece they hold, do not go back is told by the order proof.
      if (missed.has(id) || missed.has(id.slice(unit.length + 1))) return []
      if (isExplained(["set-aside", "discard", "start"])) return []
      return [
        {
          message: `screws \`${id}\` are taken out, and no step says what becomes of them`,
          where: placeAt(kit.places, unscrewed.path),
          why: `${count} x ${printDesignation(fastener)} would lie about; the unit needs them when the kit comes off.`,
          fix: `Write \`set-aside: ${id}\` after this act, or \`discard: ${id}\`.`,
          related: [{ message: `the unit arrives with them`, where: placeAt(kit.places, path) }],
          subjects: [id],
        },
      ]
    })
  },
})
