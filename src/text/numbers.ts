/** Numbers with a unit in running text. */
import { baseUnit, dimensionOf, parseNumber } from "../units/parse.ts"

export type FoundNumber = {
  readonly value: number
  readonly unit: string
  readonly written: string
  readonly at: number
}

/**
 * Units that are told from words: `m` and `in` need a digit right before, and single letters that often stand for
 * something else (`h`, `s`, `d`, `C`, `F`, `K`) are left out, as are bare numbers.
 */
const unitWords = [
  "N\\s?[·*⋅.]\\s?m",
  "N m",
  "lbf[\\s·*-]?(?:in|ft)",
  "(?:in|ft)[\\s·*-]?lbf?",
  "kgf[\\s·*-]?cm",
  "cNm",
  "Ncm",
  "Nmm",
  "Nm",
  "kN",
  "lbf",
  "mm²",
  "mm2",
  "mm",
  "cm",
  "inches",
  "inch",
  "kg",
  "min",
  "minutes",
  "hours",
  "seconds",
  "°\\s?C",
  "°\\s?F",
  "°",
  "in(?![\\w-]| [a-z])",
  "lb",
  "oz",
  "N",
  "g",
  "m",
  "%",
]

const pattern = new RegExp(
  `(?<![\\w.,/])([-−]?\\d+(?:[.,]\\d+)?(?: \\d+/\\d+|/\\d+)?)[ \\u00a0\\u202f]?(${unitWords.join("|")})(?![\\w²³/·*]|\\.\\d)`,
  "g",
)

/** Gives the numbers with a unit in a text, in base units, with the offset of each. */
export function findNumbers(text: string): readonly FoundNumber[] {
  return [...text.matchAll(pattern)].flatMap((match): readonly FoundNumber[] => {
    const [written, number = "", unit = ""] = match
    const dimension = dimensionOf(unit)
    if (dimension === undefined) return []
    const parsed = parseNumber(`${number} ${unit}`, dimension)
    if (parsed.is !== "number") return []
    return [{ value: parsed.value, unit: baseUnit[dimension], written, at: match.index }]
  })
}
