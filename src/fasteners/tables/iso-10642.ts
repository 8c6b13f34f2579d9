/** Countersunk screws: ISO 10642, the withdrawn DIN 7991, ISO 7046-1 and ISO 14581. Head angle 90 degrees. Lengths in mm. */
import { type HeadLine, headRows, type ScrewStandard } from "./heads.ts"

const shared = { head: "countersunk", thread: "full" } as const

/** Hexagon socket countersunk head screw: d, dk theoretical max (2.24 d), k max (0.62 d), dk actual min, s nom, t min. */
export const iso10642: ScrewStandard = {
  ...shared,
  name: "ISO 10642",
  words: "hexagon socket countersunk head screw",
  drive: "hexagon-socket",
  usualClass: "8.8",
  loadFactor: 0.8,
  rows: headRows(
    {
      standard: "ISO 10642",
      edition: "2004",
      table: "table 1: dk theoretical max, k max, dk actual min, s nom, t min",
      confidence: "compared",
    },
    [
      [3, 6.72, 1.86, 5.54, "2", 1.1, 8, 30],
      [4, 8.96, 2.48, 7.53, "2.5", 1.5, 8, 40],
      [5, 11.2, 3.1, 9.43, "3", 1.9, 8, 50],
      [6, 13.44, 3.72, 11.34, "4", 2.2, 8, 60],
      [8, 17.92, 4.96, 15.24, "5", 3, 10, 80],
      [10, 22.4, 6.2, 19.22, "6", 3.6, 12, 100],
      [12, 26.88, 7.44, 23.12, "8", 4.3, 20, 100],
      [16, 33.6, 8.8, 29.01, "10", 4.8, 30, 100],
    ],
  ),
}

/** Withdrawn DIN 7991, still sold: lower heads than ISO 10642. The bearing diameter is dk min (from memory). */
export const din7991: ScrewStandard = {
  ...iso10642,
  name: "DIN 7991",
  rows: headRows(
    { standard: "DIN 7991", edition: "1986", table: "table 1: dk max, k max, dk min, s nom", confidence: "compared" },
    [
      [3, 6, 1.7, 5.7, "2", 1.2, 8, 30],
      [4, 8, 2.3, 7.64, "2.5", 1.8, 8, 40],
      [5, 10, 2.8, 9.64, "3", 2.3, 8, 50],
      [6, 12, 3.3, 11.57, "4", 2.5, 8, 60],
      [8, 16, 4.4, 15.57, "5", 3.5, 10, 80],
      [10, 20, 5.5, 19.48, "6", 4.4, 12, 100],
      [12, 24, 6.5, 23.48, "8", 4.6, 20, 100],
    ],
  ),
}

/** d, dk theoretical max, k max, dk actual min, cross number. */
const flat: readonly HeadLine[] = [
  [1.6, 3.6, 1, 2.7, "0", undefined, 3, 16],
  [2, 4.4, 1.2, 3.5, "0", undefined, 3, 20],
  [2.5, 5.5, 1.5, 4.4, "1", undefined, 3, 25],
  [3, 6.3, 1.65, 5.2, "1", undefined, 4, 30],
  [3.5, 8.2, 2.35, 6.94, "2", undefined, 5, 35],
  [4, 9.4, 2.7, 8.04, "2", undefined, 5, 40],
  [5, 10.4, 2.7, 8.94, "2", undefined, 6, 50],
  [6, 12.6, 3.3, 10.87, "3", undefined, 8, 60],
  [8, 17.3, 4.65, 15.37, "4", undefined, 10, 60],
  [10, 20, 5, 17.78, "4", undefined, 12, 60],
]

const sockets: Readonly<Record<string, string>> = {
  "2": "T6",
  "2.5": "T8",
  "3": "T10",
  "3.5": "T15",
  "4": "T20",
  "5": "T25",
  "6": "T30",
  "8": "T45",
  "10": "T50",
}

/** Countersunk flat head screw with cross recess. */
export const iso7046: ScrewStandard = {
  ...shared,
  name: "ISO 7046-1",
  words: "countersunk flat head screw with cross recess",
  drive: "cross",
  usualClass: "4.8",
  loadFactor: 1,
  rows: headRows(
    {
      standard: "ISO 7046-1",
      edition: "2011",
      table: "table 1: dk theoretical max, k max, dk actual min, recess number",
      confidence: "memory",
    },
    flat,
  ),
}

/** Countersunk flat head screw with hexalobular socket. */
export const iso14581: ScrewStandard = {
  ...iso7046,
  name: "ISO 14581",
  words: "countersunk flat head screw with hexalobular socket",
  drive: "hexalobular",
  rows: headRows(
    {
      standard: "ISO 14581",
      edition: "2013",
      table: "table 1: dk theoretical max, k max, dk actual min, socket number",
      confidence: "memory",
    },
    flat.flatMap(([diameter, head, height, bearing, , , shortest, longest]): readonly HeadLine[] => {
      const socket = sockets[String(diameter)]
      return socket === undefined ? [] : [[diameter, head, height, bearing, socket, undefined, shortest, longest]]
    }),
  ),
}
