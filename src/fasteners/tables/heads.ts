/** The form that all tables of screw heads share. Lengths in mm. */
import type { Origin } from "./origin.ts"

export type HeadRow = {
  readonly diameterMm: number
  /** Largest head (or collar) diameter; for a countersunk head the theoretical one at its sharp edge. */
  readonly headDiameterMm: number
  readonly headHeightMm: number
  /** Smallest outer diameter of the face that presses; for a countersunk head its smallest real diameter. */
  readonly bearingDiameterMm: number
  /** `2.5` (key or flats in mm), `T10`, `1` (cross size). */
  readonly driveSize: string
  /** Least depth of the key in the socket; undefined where the standard gives a gauge depth instead. */
  readonly driveDepthMm: number | undefined
  /** Commercial range of lengths. */
  readonly lengthsMm: readonly [number, number]
}

/** A screw standard: what its heads have in common. */
export type ScrewStandard = {
  readonly name: string
  readonly words: string
  readonly head: "cap" | "button" | "countersunk" | "pan" | "hexagon"
  readonly drive: "hexagon-socket" | "hexalobular" | "hexagon" | "cross" | "slot"
  /** Class that is taken when none is written. */
  readonly usualClass: string
  /** Thread length: `b = 2 d + 12`, `b = 2 d + 6`, or threaded to the head. */
  readonly thread: "2d+12" | "2d+6" | "full"
  /** Button and countersunk socket heads carry 80 % of the ISO 898-1 loads. */
  readonly loadFactor: number
  readonly rows: readonly (HeadRow & { readonly origin: Origin })[]
}

/** One line of a table: d, head diameter, height, bearing diameter, drive, drive depth, shortest and longest length. */
export type HeadLine = readonly [
  diameterMm: number,
  headDiameterMm: number,
  headHeightMm: number,
  bearingDiameterMm: number,
  driveSize: string,
  driveDepthMm: number | undefined,
  shortestMm: number,
  longestMm: number,
]

/** Brings the lines of a table to rows with their origin. */
export function headRows(
  origin: Origin,
  lines: readonly HeadLine[],
): readonly (HeadRow & { readonly origin: Origin })[] {
  return lines.map(
    ([diameterMm, headDiameterMm, headHeightMm, bearingDiameterMm, driveSize, driveDepthMm, shortest, longest]) => ({
      diameterMm,
      headDiameterMm,
      headHeightMm,
      bearingDiameterMm,
      driveSize,
      driveDepthMm,
      lengthsMm: [shortest, longest] as const,
      origin,
    }),
  )
}
