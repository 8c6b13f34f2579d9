/** ISO 888: nominal lengths of screws, in mm. Second-choice lengths are made and sold, so they are accepted. */
import type { Origin } from "./origin.ts"

/** Origin of the lengths below. */
export const lengthOrigin: Origin = {
  standard: "ISO 888",
  edition: "2012",
  table: "table 1: nominal lengths",
  confidence: "memory",
}

/** First-choice lengths. */
export const preferredLengthsMm: readonly number[] = [
  2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150,
  160, 180, 200, 220, 240, 260, 280, 300,
]

/** Lengths between, in brackets in the product standards. */
export const secondLengthsMm: readonly number[] = [3.5, 7, 14, 18, 22, 28, 32, 38, 75, 85, 95, 170, 190]

/** True for a length that screws are made in. */
export function isListedLengthMm(lengthMm: number): boolean {
  return preferredLengthsMm.includes(lengthMm) || secondLengthsMm.includes(lengthMm)
}

/** The listed lengths next below and next above. */
export function nearLengthsMm(lengthMm: number): readonly number[] {
  const all = [...preferredLengthsMm, ...secondLengthsMm].sort((one, other) => one - other)
  const below = all.filter((one) => one < lengthMm).at(-1)
  const above = all.find((one) => one > lengthMm)
  return [below, above].filter((one) => one !== undefined)
}

/** The listed length next above or below, or the length itself when it is listed; undefined beyond the series. */
export function nearestListedLengthMm(lengthMm: number, direction: "up" | "down"): number | undefined {
  const all = [...preferredLengthsMm, ...secondLengthsMm].sort((one, other) => one - other)
  return direction === "up"
    ? all.find((one) => one >= lengthMm - 1e-6)
    : all.filter((one) => one <= lengthMm + 1e-6).at(-1)
}
