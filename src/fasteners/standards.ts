/** The fastener standards that are known, and the withdrawn ones with what took their place. */
import type { ScrewStandard } from "./tables/heads.ts"
import { iso4014, iso4017 } from "./tables/iso-4014.ts"
import { iso4762, iso14579 } from "./tables/iso-4762.ts"
import { iso1207, iso7045, iso14583 } from "./tables/iso-7045.ts"
import { iso7380part1, iso7380part2 } from "./tables/iso-7380.ts"
import { din7991, iso7046, iso10642, iso14581 } from "./tables/iso-10642.ts"
import { type NutStandard, nutStandards } from "./tables/nuts.ts"
import { type WasherStandard, washerStandards } from "./tables/washers.ts"

/** Screw standards with their tables of heads. */
export const screwStandards: readonly ScrewStandard[] = [
  iso4762,
  iso14579,
  iso7380part1,
  iso7380part2,
  iso10642,
  din7991,
  iso7046,
  iso14581,
  iso4014,
  iso4017,
  iso7045,
  iso14583,
  iso1207,
]

/** Names of all standards that a designation may begin with. */
export const standardNames: readonly string[] = [
  ...screwStandards.map(({ name }) => name),
  ...nutStandards.map(({ name }) => name),
  ...washerStandards.map(({ name }) => name),
]

/**
 * Names that are read as another standard, from memory of the lists of replaced DIN standards.
 * Those whose sizes differ so much that it matters here (DIN 934, 985, 7991) keep their own tables.
 */
export const successors: Readonly<Record<string, string>> = {
  "ISO 7380": "ISO 7380-1",
  "ISO 7046": "ISO 7046-1",
  "ISO 7093": "ISO 7093-1",
  "DIN 912": "ISO 4762",
  "DIN 931": "ISO 4014",
  "DIN 933": "ISO 4017",
  "DIN 7985": "ISO 7045",
  "DIN 965": "ISO 7046-1",
  "DIN 84": "ISO 1207",
  "DIN 439": "ISO 4035",
  "DIN 982": "ISO 7040",
  "DIN 125": "ISO 7089",
  "DIN 125-A": "ISO 7089",
  "DIN 9021": "ISO 7093-1",
}

/** Screw standard of that name, undefined when it is not one. */
export function findScrewStandard(name: string | undefined): ScrewStandard | undefined {
  return screwStandards.find((standard) => standard.name === name)
}

/** Nut standard of that name. */
export function findNutStandard(name: string | undefined): NutStandard | undefined {
  return nutStandards.find((standard) => standard.name === name)
}

/** Washer standard of that name. */
export function findWasherStandard(name: string | undefined): WasherStandard | undefined {
  return washerStandards.find((standard) => standard.name === name)
}
