/** ISO 7380-1 and -2: hexagon socket button head screws without and with collar. Lengths in mm. */
import { type HeadLine, headRows, type ScrewStandard } from "./heads.ts"

/** d, dk max, k max, bearing diameter (dk less the rounding, about 0.9 dk: from memory), s nom, t min, lengths. */
const lines: readonly HeadLine[] = [
  [3, 5.7, 1.65, 5, "2", 1.04, 6, 30],
  [4, 7.6, 2.2, 6.8, "2.5", 1.3, 6, 40],
  [5, 9.5, 2.75, 8.5, "3", 1.56, 8, 50],
  [6, 10.5, 3.3, 9.4, "4", 2.08, 10, 60],
  [8, 14, 4.4, 12.6, "5", 2.6, 12, 80],
  [10, 17.5, 5.5, 15.7, "6", 3.12, 16, 90],
  [12, 21, 6.6, 18.9, "8", 4.16, 16, 90],
  [16, 28, 8.8, 25.2, "10", 5.2, 20, 90],
]

/** Collar diameters dc max of ISO 7380-2. */
const collarMm: Readonly<Record<string, number>> = {
  "3": 6.9,
  "4": 9.4,
  "5": 11.8,
  "6": 13.6,
  "8": 17.8,
  "10": 21.9,
  "12": 26,
}

/** Hexagon socket button head screw. */
export const iso7380part1: ScrewStandard = {
  name: "ISO 7380-1",
  words: "hexagon socket button head screw",
  head: "button",
  drive: "hexagon-socket",
  usualClass: "8.8",
  thread: "2d+12",
  loadFactor: 0.8,
  rows: headRows(
    { standard: "ISO 7380-1", edition: "2011", table: "table 1: dk max, k max, s nom, t min", confidence: "compared" },
    lines,
  ),
}

/** Hexagon socket button head screw with collar; the collar counts as the head. */
export const iso7380part2: ScrewStandard = {
  ...iso7380part1,
  name: "ISO 7380-2",
  words: "hexagon socket button head screw with collar",
  rows: headRows(
    { standard: "ISO 7380-2", edition: "2011", table: "table 1: dc max, k max, s nom, t min", confidence: "memory" },
    lines.flatMap(([diameter, , height, , drive, depth, shortest, longest]): readonly HeadLine[] => {
      const collar = collarMm[String(diameter)]
      return collar === undefined ? [] : [[diameter, collar, height, collar * 0.93, drive, depth, shortest, longest]]
    }),
  ),
}
