/** Heat-set inserts for plastics: no standard, makers' common sizes. Lengths in mm. */
import { type Origin, withOrigin } from "./origin.ts"

const origin: Origin = {
  standard: "makers' common series",
  edition: "",
  table: "heat-set inserts: hole, outer diameter, length",
  confidence: "practice",
}

export type InsertRow = {
  readonly diameterMm: number
  /** Straight hole as finished. */
  readonly holeMm: number
  /** Largest outer diameter over the knurls. */
  readonly outerMm: number
  /** Length of the long series. */
  readonly lengthMm: number
}

/** Two to three makers' tables agree within 0.1 mm on the hole from M3 on; M2 and M2.5 vary between series. */
export const insertTable = withOrigin<InsertRow>(origin, [
  { diameterMm: 2, holeMm: 3.2, outerMm: 3.6, lengthMm: 4 },
  { diameterMm: 2.5, holeMm: 3.6, outerMm: 4, lengthMm: 4.8 },
  { diameterMm: 3, holeMm: 4, outerMm: 4.4, lengthMm: 5.7 },
  { diameterMm: 3.5, holeMm: 4.8, outerMm: 5.2, lengthMm: 7.1 },
  { diameterMm: 4, holeMm: 5.6, outerMm: 6.1, lengthMm: 8.1 },
  { diameterMm: 5, holeMm: 6.4, outerMm: 7.1, lengthMm: 9.5 },
  { diameterMm: 6, holeMm: 8, outerMm: 8.5, lengthMm: 12.7 },
  { diameterMm: 8, holeMm: 9.6, outerMm: 10.1, lengthMm: 12.7 },
])
