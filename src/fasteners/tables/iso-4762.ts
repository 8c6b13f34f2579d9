/** ISO 4762: hexagon socket head cap screws; ISO 14579 has the same heads with a hexalobular socket. Lengths in mm. */

import { type HeadLine, headRows, type ScrewStandard } from "./heads.ts"
import { withOrigin } from "./origin.ts"

/** d, dk max plain, k max, dw min, s nom, t min, shortest and longest length. */
const lines: readonly HeadLine[] = [
  [1.6, 3, 1.6, 2.72, "1.5", 0.7, 2.5, 16],
  [2, 3.8, 2, 3.48, "1.5", 1, 3, 20],
  [2.5, 4.5, 2.5, 4.18, "2", 1.1, 4, 25],
  [3, 5.5, 3, 5.07, "2.5", 1.3, 5, 30],
  [4, 7, 4, 6.53, "3", 2, 6, 40],
  [5, 8.5, 5, 8.03, "4", 2.5, 8, 50],
  [6, 10, 6, 9.38, "5", 3, 10, 60],
  [8, 13, 8, 12.33, "6", 4, 12, 80],
  [10, 16, 10, 15.33, "8", 5, 16, 100],
  [12, 18, 12, 17.23, "10", 6, 20, 120],
  [14, 21, 14, 20.17, "12", 7, 25, 140],
  [16, 24, 16, 23.17, "14", 8, 25, 160],
  [20, 30, 20, 28.87, "17", 10, 30, 200],
  [24, 36, 24, 34.81, "19", 12, 40, 200],
]

/** Largest diameter of a knurled head: what a counterbore must clear. M4 to M8 compared, the others from memory. */
export const knurledHeads = withOrigin(
  { standard: "ISO 4762", edition: "2004", table: "table 1: dk max for knurled heads", confidence: "compared" },
  [
    { diameterMm: 1.6, headDiameterMm: 3.14 },
    { diameterMm: 2, headDiameterMm: 3.98 },
    { diameterMm: 2.5, headDiameterMm: 4.68 },
    { diameterMm: 3, headDiameterMm: 5.68 },
    { diameterMm: 4, headDiameterMm: 7.22 },
    { diameterMm: 5, headDiameterMm: 8.72 },
    { diameterMm: 6, headDiameterMm: 10.22 },
    { diameterMm: 8, headDiameterMm: 13.27 },
    { diameterMm: 10, headDiameterMm: 16.27 },
    { diameterMm: 12, headDiameterMm: 18.27 },
    { diameterMm: 14, headDiameterMm: 21.33 },
    { diameterMm: 16, headDiameterMm: 24.33 },
    { diameterMm: 20, headDiameterMm: 30.33 },
    { diameterMm: 24, headDiameterMm: 36.39 },
  ],
)

/** Hexagon socket head cap screw. M3 to M8 compared with open data; the other sizes from memory. */
export const iso4762: ScrewStandard = {
  name: "ISO 4762",
  words: "hexagon socket head cap screw",
  head: "cap",
  drive: "hexagon-socket",
  usualClass: "8.8",
  thread: "2d+12",
  loadFactor: 1,
  rows: headRows(
    {
      standard: "ISO 4762",
      edition: "2004",
      table: "table 1: dk max, k max, dw min, s nom, t min",
      confidence: "compared",
    },
    lines,
  ),
}

/** Socket numbers of ISO 14579 by thread. */
const hexalobular: Readonly<Record<string, string>> = {
  "2": "T6",
  "2.5": "T8",
  "3": "T10",
  "4": "T20",
  "5": "T25",
  "6": "T30",
  "8": "T45",
  "10": "T50",
  "12": "T55",
}

/** Hexalobular socket head cap screw: heads as ISO 4762, sockets of ISO 10664. */
export const iso14579: ScrewStandard = {
  ...iso4762,
  name: "ISO 14579",
  words: "hexalobular socket head cap screw",
  drive: "hexalobular",
  rows: headRows(
    {
      standard: "ISO 14579",
      edition: "2011",
      table: "table 1: dk max, k max, dw min, socket number",
      confidence: "memory",
    },
    lines.flatMap(([diameter, head, height, bearing, , , shortest, longest]): readonly HeadLine[] => {
      const socket = hexalobular[String(diameter)]
      return socket === undefined ? [] : [[diameter, head, height, bearing, socket, undefined, shortest, longest]]
    }),
  ),
}
