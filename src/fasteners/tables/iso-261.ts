/** ISO 261 / ISO 262: diameters and pitches of metric threads, in mm. The first pitch of a diameter is the coarse one. */
import { type Origin, withOrigin } from "./origin.ts"

const origin: Origin = {
  standard: "ISO 261",
  edition: "1998",
  table: "table 2: D, P coarse, P fine",
  confidence: "compared",
}

export type PitchRow = { readonly diameterMm: number; readonly coarseMm: number; readonly fineMm: readonly number[] }

/** Rows of ISO 261 from M1.6 to M24. */
export const pitchTable = withOrigin<PitchRow>(origin, [
  { diameterMm: 1.6, coarseMm: 0.35, fineMm: [] },
  { diameterMm: 2, coarseMm: 0.4, fineMm: [] },
  { diameterMm: 2.5, coarseMm: 0.45, fineMm: [] },
  { diameterMm: 3, coarseMm: 0.5, fineMm: [] },
  { diameterMm: 3.5, coarseMm: 0.6, fineMm: [] },
  { diameterMm: 4, coarseMm: 0.7, fineMm: [0.5] },
  { diameterMm: 5, coarseMm: 0.8, fineMm: [0.5] },
  { diameterMm: 6, coarseMm: 1, fineMm: [0.75] },
  { diameterMm: 7, coarseMm: 1, fineMm: [0.75] },
  { diameterMm: 8, coarseMm: 1.25, fineMm: [1, 0.75] },
  { diameterMm: 10, coarseMm: 1.5, fineMm: [1.25, 1, 0.75] },
  { diameterMm: 12, coarseMm: 1.75, fineMm: [1.5, 1.25, 1] },
  { diameterMm: 14, coarseMm: 2, fineMm: [1.5, 1.25, 1] },
  { diameterMm: 16, coarseMm: 2, fineMm: [1.5, 1] },
  { diameterMm: 18, coarseMm: 2.5, fineMm: [2, 1.5, 1] },
  { diameterMm: 20, coarseMm: 2.5, fineMm: [2, 1.5, 1] },
  { diameterMm: 22, coarseMm: 2.5, fineMm: [2, 1.5, 1] },
  { diameterMm: 24, coarseMm: 3, fineMm: [2, 1.5, 1] },
])

/** Coarse pitch of a diameter, undefined when ISO 261 lists none. */
export function coarsePitchMm(diameterMm: number): number | undefined {
  return pitchTable.find((row) => row.diameterMm === diameterMm)?.coarseMm
}

/** True when ISO 261 pairs the diameter with the pitch. */
export function isListedThread(diameterMm: number, pitchMm: number): boolean {
  const row = pitchTable.find((one) => one.diameterMm === diameterMm)
  return row !== undefined && (row.coarseMm === pitchMm || row.fineMm.includes(pitchMm))
}
