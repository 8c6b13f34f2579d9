/** ISO 4014 (part threaded) and ISO 4017 (threaded to the head): hexagon head screws, grade A. Lengths in mm. */
import { type HeadLine, headRows, type ScrewStandard } from "./heads.ts"

/** d, e min (the largest across corners that a wrench must clear is 2/sqrt 3 s), k nom, dw min, s, lengths of ISO 4017. */
const lines: readonly HeadLine[] = [
  [1.6, 3.41, 1.1, 2.27, "3.2", undefined, 2, 16],
  [2, 4.32, 1.4, 3.07, "4", undefined, 4, 20],
  [2.5, 5.45, 1.7, 4.07, "5", undefined, 5, 25],
  [3, 6.01, 2, 4.57, "5.5", undefined, 6, 30],
  [3.5, 6.58, 2.4, 5.07, "6", undefined, 8, 35],
  [4, 7.66, 2.8, 5.88, "7", undefined, 8, 40],
  [5, 8.79, 3.5, 6.88, "8", undefined, 10, 50],
  [6, 11.05, 4, 8.88, "10", undefined, 12, 60],
  [8, 14.38, 5.3, 11.63, "13", undefined, 16, 80],
  [10, 17.77, 6.4, 14.63, "16", undefined, 20, 100],
  [12, 20.03, 7.5, 16.63, "18", undefined, 25, 120],
  [14, 23.36, 8.8, 19.64, "21", undefined, 30, 140],
  [16, 26.75, 10, 22.49, "24", undefined, 30, 150],
  [20, 33.53, 12.5, 28.19, "30", undefined, 40, 150],
  [24, 39.98, 15, 33.61, "36", undefined, 50, 150],
]

const origin = {
  standard: "ISO 4014 / ISO 4017",
  edition: "2011",
  table: "table 1: e min, k nom, dw min, s nom, product grade A",
  confidence: "compared",
} as const

/** Hexagon head bolt with shank. */
export const iso4014: ScrewStandard = {
  name: "ISO 4014",
  words: "hexagon head bolt",
  head: "hexagon",
  drive: "hexagon",
  usualClass: "8.8",
  thread: "2d+6",
  loadFactor: 1,
  rows: headRows(origin, lines),
}

/** Hexagon head screw, threaded to the head. */
export const iso4017: ScrewStandard = {
  ...iso4014,
  name: "ISO 4017",
  words: "hexagon head screw",
  thread: "full",
  rows: headRows(origin, lines),
}
