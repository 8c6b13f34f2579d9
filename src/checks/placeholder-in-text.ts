/** Judges marks that were left in the maker's texts to be filled in later. */
import type { Report } from "../findings/types.ts"
import type { Kit } from "../kit/types.ts"
import { placeOfSpan } from "../text/places.ts"
import type { MakerText } from "../text/types.ts"
import { defineRule } from "./types.ts"

/** Words that stand for work to be done, in capitals; question marks, crosses and dots in place of a value; braces of a form. */
const marks = /\b(?:TODO|TBD|TBC|FIXME|XXX)\b|\?{3,}|\b[xX]{2,}(?= ?(?:mm|N·m|Nm|kg|min)\b)|\{\{?[ \w.-]{1,40}\}?\}/g

/** Finds marks such as `TODO`, `???` and `{torque}` in the texts that are printed. */
export const placeholderInText = defineRule({
  id: "placeholder-in-text",
  severity: "warning",
  source: "practice: a mark for what is still to be written is printed like any other word",
  check: ({ kit }) =>
    textsOf(kit).flatMap(({ source }): readonly Report[] => {
      const [first, ...rest] = [...source.text.matchAll(marks)]
      if (first === undefined) return []
      const more = rest.length === 0 ? "" : ` and ${rest.length} more`
      return [
        {
          message: `\`${first[0]}\`${more} ${rest.length === 0 ? "stands" : "stand"} in the text, to be filled in`,
          where: placeOfSpan(source, first.index, first.index + first[0].length),
          why: "The buyer reads it as it stands, and misses what should be there.",
          fix: "Write what is meant. A torque, a count or a name is best written as a link, such as `[](torque:foot)`.",
          subjects: [],
        },
      ]
    }),
})

function textsOf(kit: Kit): readonly MakerText[] {
  return [
    kit.identity.intendedUse,
    kit.identity.notFor,
    ...kit.units.flatMap(({ earth, cooling }) => [earth, cooling]),
    ...kit.hazards.flatMap(({ source, avoid, consequence }) => [source, avoid, consequence]),
    ...kit.steps.flatMap(({ text, result, caution }) => [text, result, ...caution]),
  ].filter((one) => one !== undefined)
}
