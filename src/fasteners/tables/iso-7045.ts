/** Pan head screws: ISO 7045 (cross recess), ISO 14583 (hexalobular) and ISO 1207 (slotted cheese head). Lengths in mm. */
import { type HeadLine, headRows, type ScrewStandard } from "./heads.ts"

/** d, dk max, k max, bearing diameter (about 0.9 dk: from memory), recess number, lengths. */
const lines: readonly HeadLine[] = [
  [1.6, 3.2, 1.3, 2.9, "0", undefined, 3, 16],
  [2, 4, 1.6, 3.6, "1", undefined, 3, 20],
  [2.5, 5, 2.1, 4.5, "1", undefined, 3, 25],
  [3, 5.6, 2.4, 5, "1", undefined, 4, 30],
  [3.5, 7, 2.6, 6.3, "2", undefined, 5, 35],
  [4, 8, 3.1, 7.2, "2", undefined, 5, 40],
  [5, 9.5, 3.7, 8.5, "2", undefined, 6, 50],
  [6, 12, 4.6, 10.8, "3", undefined, 8, 60],
  [8, 16, 6, 14.4, "4", undefined, 10, 60],
  [10, 20, 7.5, 18, "4", undefined, 12, 60],
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

/** Pan head screw with cross recess, type H or type Z. */
export const iso7045: ScrewStandard = {
  name: "ISO 7045",
  words: "pan head screw with cross recess",
  head: "pan",
  drive: "cross",
  usualClass: "4.8",
  thread: "full",
  loadFactor: 1,
  rows: headRows(
    { standard: "ISO 7045", edition: "2011", table: "table 1: dk max, k max, recess number", confidence: "memory" },
    lines,
  ),
}

/** Pan head screw with hexalobular socket: heads as ISO 7045. */
export const iso14583: ScrewStandard = {
  ...iso7045,
  name: "ISO 14583",
  words: "pan head screw with hexalobular socket",
  drive: "hexalobular",
  rows: headRows(
    { standard: "ISO 14583", edition: "2013", table: "table 1: dk max, k max, socket number", confidence: "compared" },
    lines.flatMap(([diameter, head, height, bearing, , , shortest, longest]): readonly HeadLine[] => {
      const socket = sockets[String(diameter)]
      return socket === undefined ? [] : [[diameter, head, height, bearing, socket, undefined, shortest, longest]]
    }),
  ),
}

/** Slotted cheese head screw; the drive size is the nominal width of the slot. */
export const iso1207: ScrewStandard = {
  ...iso7045,
  name: "ISO 1207",
  words: "slotted cheese head screw",
  head: "cap",
  drive: "slot",
  rows: headRows(
    { standard: "ISO 1207", edition: "2011", table: "table 1: dk max, k max, n nom, t min", confidence: "memory" },
    [
      [1.6, 3, 1.1, 2.6, "0.4", 0.45, 2, 16],
      [2, 3.8, 1.4, 3.3, "0.5", 0.6, 3, 20],
      [2.5, 4.5, 1.8, 4, "0.6", 0.7, 3, 25],
      [3, 5.5, 2, 5, "0.8", 0.85, 4, 30],
      [3.5, 6, 2.4, 5.4, "1", 1, 5, 35],
      [4, 7, 2.6, 6.3, "1.2", 1.1, 5, 40],
      [5, 8.5, 3.3, 7.6, "1.2", 1.3, 6, 50],
      [6, 10, 3.9, 9, "1.6", 1.6, 8, 60],
      [8, 13, 5, 11.7, "2", 2, 10, 80],
      [10, 16, 6, 14.4, "2.5", 2.4, 12, 80],
    ],
  ),
}
