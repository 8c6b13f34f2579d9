/** ISO 10664: hexalobular sockets, nominal outside diameter A in mm. */
import { withOrigin } from "./origin.ts"

/** Sockets T6 to T55. T40 and above T45 from memory. */
export const hexalobularSockets = withOrigin(
  { standard: "ISO 10664", edition: "2014", table: "table 1: A nominal", confidence: "compared" },
  [
    { size: "T6", outsideMm: 1.75 },
    { size: "T8", outsideMm: 2.4 },
    { size: "T10", outsideMm: 2.8 },
    { size: "T15", outsideMm: 3.35 },
    { size: "T20", outsideMm: 3.95 },
    { size: "T25", outsideMm: 4.5 },
    { size: "T30", outsideMm: 5.6 },
    { size: "T40", outsideMm: 6.75 },
    { size: "T45", outsideMm: 7.95 },
    { size: "T50", outsideMm: 8.95 },
    { size: "T55", outsideMm: 11.35 },
  ],
)
