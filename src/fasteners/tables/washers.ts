/** Plain washers: ISO 7089 (normal) and ISO 7093-1 (large). Lengths in mm. */
import { type Origin, type Sourced, withOrigin } from "./origin.ts"

export type WasherRow = {
  readonly diameterMm: number
  readonly innerMm: number
  readonly outerMm: number
  readonly thicknessMm: number
}

export type WasherStandard = {
  readonly name: string
  readonly words: string
  readonly rows: readonly Sourced<WasherRow>[]
}

type Line = readonly [number, number, number, number]

function washerRows(origin: Origin, lines: readonly Line[]): readonly Sourced<WasherRow>[] {
  return withOrigin<WasherRow>(
    origin,
    lines.map(([diameterMm, innerMm, outerMm, thicknessMm]) => ({ diameterMm, innerMm, outerMm, thicknessMm })),
  )
}

/** Washers by standard: d1 nominal (smallest), d2 nominal (largest), h nominal. */
export const washerStandards: readonly WasherStandard[] = [
  {
    name: "ISO 7089",
    words: "plain washer",
    rows: washerRows(
      { standard: "ISO 7089", edition: "2000", table: "table 1: d1, d2, h nom", confidence: "compared" },
      [
        [1.6, 1.7, 4, 0.3],
        [2, 2.2, 5, 0.3],
        [2.5, 2.7, 6, 0.5],
        [3, 3.2, 7, 0.5],
        [3.5, 3.7, 8, 0.5],
        [4, 4.3, 9, 0.8],
        [5, 5.3, 10, 1],
        [6, 6.4, 12, 1.6],
        [8, 8.4, 16, 1.6],
        [10, 10.5, 20, 2],
        [12, 13, 24, 2.5],
        [14, 15, 28, 2.5],
        [16, 17, 30, 3],
        [20, 21, 37, 3],
        [24, 25, 44, 4],
      ],
    ),
  },
  {
    name: "ISO 7093-1",
    words: "large plain washer",
    rows: washerRows(
      { standard: "ISO 7093-1", edition: "2000", table: "table 1: d1, d2, h nom", confidence: "memory" },
      [
        [3, 3.2, 9, 0.8],
        [3.5, 3.7, 11, 0.8],
        [4, 4.3, 12, 1],
        [5, 5.3, 15, 1],
        [6, 6.4, 18, 1.6],
        [8, 8.4, 24, 2],
        [10, 10.5, 30, 2.5],
        [12, 13, 37, 3],
        [14, 15, 44, 3],
        [16, 17, 50, 3],
      ],
    ),
  },
]
