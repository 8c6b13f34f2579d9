/** ISO 888: nominal lengths of screws, in mm. Second-choice lengths are made and sold, so they are accepted. */
import { type Origin, withOrigin } from "./origin.ts"

const origin: Origin = { standard: "ISO 888", edition: "2012", table: "table 1: nominal lengths", confidence: "memory" }

const preferred = [
  2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150,
  160, 180, 200, 220, 240, 260, 280, 300,
]
const second = [3.5, 7, 14, 18, 22, 28, 32, 38, 75, 85, 95, 170, 190]

export type LengthRow = {
  readonly lengthMm: number
  /** False for the lengths in brackets in the product standards. */
  readonly isPreferred: boolean
}

/** All listed lengths, shortest first. */
export const lengthTable = withOrigin<LengthRow>(
  origin,
  [
    ...preferred.map((lengthMm) => ({ lengthMm, isPreferred: true })),
    ...second.map((lengthMm) => ({ lengthMm, isPreferred: false })),
  ].sort((one, other) => one.lengthMm - other.lengthMm),
)

/** True for a length that screws are made in. */
export function isListedLengthMm(lengthMm: number): boolean {
  return lengthTable.some((row) => row.lengthMm === lengthMm)
}

/** The listed lengths next below and next above one that is not listed. */
export function nearLengthsMm(lengthMm: number): readonly number[] {
  const around = [nearestListedLengthMm(lengthMm, "down"), nearestListedLengthMm(lengthMm, "up")]
  return around.filter((one) => one !== undefined)
}

/** The listed length next above or below, or the length itself when it is listed; undefined beyond the series. */
function nearestListedLengthMm(lengthMm: number, direction: "up" | "down"): number | undefined {
  const lengths = lengthTable.map((row) => row.lengthMm)
  return direction === "up"
    ? lengths.find((one) => one >= lengthMm - 1e-6)
    : lengths.filter((one) => one <= lengthMm + 1e-6).at(-1)
}

/**
 * A length to take between `leastMm` and `mostMm`: the shortest that is no second choice, else the shortest listed one;
 * undefined when the series has none there.
 */
export function suggestLengthMm(leastMm: number, mostMm: number): number | undefined {
  const within = lengthTable.filter(({ lengthMm }) => lengthMm >= leastMm - 1e-6 && lengthMm <= mostMm + 1e-6)
  return (within.find(({ isPreferred }) => isPreferred) ?? within[0])?.lengthMm
}
