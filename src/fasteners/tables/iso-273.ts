/** ISO 273 clearance holes, ISO 2306 tapping drills, and counterbores for ISO 4762. Diameters and depths in mm. */
import { type Origin, withOrigin } from "./origin.ts"

const clearanceOrigin: Origin = {
  standard: "ISO 273",
  edition: "1979",
  table: "table 1: fine H12, medium H13, coarse H14",
  confidence: "compared",
}

export type ClearanceRow = {
  readonly diameterMm: number
  readonly fineMm: number
  readonly mediumMm: number
  readonly coarseMm: number
}

/** Clearance holes. M12 is 13.5 and 14.5 here; 14 and 15 in some lists are those of another standard. */
const clearanceTable = withOrigin<ClearanceRow>(
  clearanceOrigin,
  (
    [
      [1.6, 1.7, 1.8, 2],
      [2, 2.2, 2.4, 2.6],
      [2.5, 2.7, 2.9, 3.1],
      [3, 3.2, 3.4, 3.6],
      [3.5, 3.7, 3.9, 4.2],
      [4, 4.3, 4.5, 4.8],
      [5, 5.3, 5.5, 5.8],
      [6, 6.4, 6.6, 7],
      [8, 8.4, 9, 10],
      [10, 10.5, 11, 12],
      [12, 13, 13.5, 14.5],
      [14, 15, 15.5, 16.5],
      [16, 17, 17.5, 18.5],
      [20, 21, 22, 24],
      [24, 25, 26, 28],
    ] as const
  ).map(([diameterMm, fineMm, mediumMm, coarseMm]) => ({ diameterMm, fineMm, mediumMm, coarseMm })),
)

/** Clearance holes of a screw; a diameter between rows takes d + 0.3, 0.1 d + d, 0.2 d + d (common practice). */
export function findClearance(diameterMm: number): ClearanceRow {
  const row = clearanceTable.find((one) => one.diameterMm === diameterMm)
  const rounded = (value: number): number => Math.round(value * 10) / 10
  return (
    row ?? {
      diameterMm,
      fineMm: rounded(diameterMm * 1.05 + 0.1),
      mediumMm: rounded(diameterMm * 1.1),
      coarseMm: rounded(diameterMm * 1.2),
    }
  )
}

/** Drills for tapped holes. */
const tappingDrills = withOrigin(
  { standard: "ISO 2306", edition: "1972", table: "table 1: drill by thread", confidence: "compared" },
  [
    { diameterMm: 1.6, pitchMm: 0.35, drillMm: 1.25 },
    { diameterMm: 2, pitchMm: 0.4, drillMm: 1.6 },
    { diameterMm: 2.5, pitchMm: 0.45, drillMm: 2.05 },
    { diameterMm: 3, pitchMm: 0.5, drillMm: 2.5 },
    { diameterMm: 3.5, pitchMm: 0.6, drillMm: 2.9 },
    { diameterMm: 4, pitchMm: 0.7, drillMm: 3.3 },
    { diameterMm: 5, pitchMm: 0.8, drillMm: 4.2 },
    { diameterMm: 6, pitchMm: 1, drillMm: 5 },
    { diameterMm: 8, pitchMm: 1.25, drillMm: 6.8 },
    { diameterMm: 8, pitchMm: 1, drillMm: 7 },
    { diameterMm: 10, pitchMm: 1.5, drillMm: 8.5 },
    { diameterMm: 10, pitchMm: 1.25, drillMm: 8.8 },
    { diameterMm: 10, pitchMm: 1, drillMm: 9 },
    { diameterMm: 12, pitchMm: 1.75, drillMm: 10.2 },
    { diameterMm: 12, pitchMm: 1.5, drillMm: 10.5 },
    { diameterMm: 12, pitchMm: 1.25, drillMm: 10.8 },
    { diameterMm: 14, pitchMm: 2, drillMm: 12 },
    { diameterMm: 16, pitchMm: 2, drillMm: 14 },
    { diameterMm: 20, pitchMm: 2.5, drillMm: 17.5 },
    { diameterMm: 24, pitchMm: 3, drillMm: 21 },
  ],
)

/** Drill for a tapped hole, undefined when not listed. */
export function findTappingDrillMm(diameterMm: number, pitchMm: number): number | undefined {
  return tappingDrills.find((row) => row.diameterMm === diameterMm && row.pitchMm === pitchMm)?.drillMm
}

/** Counterbores for ISO 4762 screws without washer: diameter and depth. M4's depth is from memory. */
export const counterbores = withOrigin(
  { standard: "DIN 974-1", edition: "2008", table: "counterbores of the H13 series (DIN 74)", confidence: "compared" },
  [
    { diameterMm: 3, boreMm: 6, depthMm: 3.4 },
    { diameterMm: 4, boreMm: 8, depthMm: 4.4 },
    { diameterMm: 5, boreMm: 10, depthMm: 5.4 },
    { diameterMm: 6, boreMm: 11, depthMm: 6.4 },
    { diameterMm: 8, boreMm: 15, depthMm: 8.6 },
  ],
)
