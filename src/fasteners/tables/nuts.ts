/** Hexagon nuts: ISO 4032, 4035, 7040, 10511 and the withdrawn DIN 934 and DIN 985. Lengths in mm. */
import { type Origin, type Sourced, withOrigin } from "./origin.ts"

export type NutRow = {
  readonly diameterMm: number
  /** Width across flats. */
  readonly flatsMm: number
  /** Largest height, with the clamping ring of a prevailing torque nut. */
  readonly heightMm: number
  /** Smallest height of the thread; undefined where not known: then the height is taken. */
  readonly leastHeightMm: number | undefined
  /** Smallest width across corners. */
  readonly cornersMm: number | undefined
}

export type NutStandard = {
  readonly name: string
  readonly words: string
  readonly usualClass: string
  readonly rows: readonly Sourced<NutRow>[]
}

type Line = readonly [number, number, number, number | undefined, number | undefined]

function nutRows(origin: Origin, lines: readonly Line[]): readonly Sourced<NutRow>[] {
  return withOrigin<NutRow>(
    origin,
    lines.map(([diameterMm, flatsMm, heightMm, leastHeightMm, cornersMm]) => ({
      diameterMm,
      flatsMm,
      heightMm,
      leastHeightMm,
      cornersMm,
    })),
  )
}

/** Hexagon nuts by standard. M3 to M12 of ISO 4032, 4035 and DIN 934 compared with open data. */
export const nutStandards: readonly NutStandard[] = [
  {
    name: "ISO 4032",
    words: "hexagon nut",
    usualClass: "8",
    rows: nutRows(
      { standard: "ISO 4032", edition: "2012", table: "table 1: s, m max, m min, e min", confidence: "compared" },
      [
        [1.6, 3.2, 1.3, 1.05, 3.41],
        [2, 4, 1.6, 1.35, 4.32],
        [2.5, 5, 2, 1.75, 5.45],
        [3, 5.5, 2.4, 2.15, 6.01],
        [3.5, 6, 2.8, 2.55, 6.58],
        [4, 7, 3.2, 2.9, 7.66],
        [5, 8, 4.7, 4.4, 8.79],
        [6, 10, 5.2, 4.9, 11.05],
        [8, 13, 6.8, 6.44, 14.38],
        [10, 16, 8.4, 8.04, 17.77],
        [12, 18, 10.8, 10.37, 20.03],
        [14, 21, 12.8, 12.1, 23.36],
        [16, 24, 14.8, 14.1, 26.75],
        [20, 30, 18, 16.9, 32.95],
        [24, 36, 21.5, 20.2, 39.55],
      ],
    ),
  },
  {
    name: "ISO 4035",
    words: "thin hexagon nut",
    usualClass: "04",
    rows: nutRows(
      { standard: "ISO 4035", edition: "2012", table: "table 1: s, m max, m min", confidence: "compared" },
      [
        [1.6, 3.2, 1, 0.75, undefined],
        [2, 4, 1.2, 0.95, undefined],
        [2.5, 5, 1.6, 1.35, undefined],
        [3, 5.5, 1.8, 1.55, undefined],
        [3.5, 6, 2, 1.75, undefined],
        [4, 7, 2.2, 1.95, undefined],
        [5, 8, 2.7, 2.45, undefined],
        [6, 10, 3.2, 2.9, undefined],
        [8, 13, 4, 3.7, undefined],
        [10, 16, 5, 4.7, undefined],
        [12, 18, 6, 5.7, undefined],
        [16, 24, 8, 7.42, undefined],
        [20, 30, 10, 9.1, undefined],
        [24, 36, 12, 10.9, undefined],
      ],
    ),
  },
  {
    name: "ISO 7040",
    words: "prevailing torque hexagon nut with non-metallic insert",
    usualClass: "8",
    rows: nutRows({ standard: "ISO 7040", edition: "2012", table: "table 1: s, h max, m min", confidence: "memory" }, [
      [3, 5.5, 4.5, 2.15, undefined],
      [4, 7, 6, 2.9, undefined],
      [5, 8, 6.8, 4.4, undefined],
      [6, 10, 8, 4.9, undefined],
      [8, 13, 9.5, 6.44, undefined],
      [10, 16, 11.9, 8.04, undefined],
      [12, 18, 14.9, 10.37, undefined],
      [16, 24, 19.1, 14.1, undefined],
    ]),
  },
  {
    name: "ISO 10511",
    words: "thin prevailing torque hexagon nut with non-metallic insert",
    usualClass: "04",
    rows: nutRows({ standard: "ISO 10511", edition: "2012", table: "table 1: s, h max, m min", confidence: "memory" }, [
      [3, 5.5, 3.9, 1.55, undefined],
      [4, 7, 5, 1.95, undefined],
      [5, 8, 5, 2.45, undefined],
      [6, 10, 6, 2.9, undefined],
      [8, 13, 6.76, 3.7, undefined],
      [10, 16, 8.56, 4.7, undefined],
      [12, 18, 10.23, 5.7, undefined],
      [16, 24, 12.42, 7.42, undefined],
    ]),
  },
  {
    name: "DIN 934",
    words: "hexagon nut, withdrawn standard",
    usualClass: "8",
    rows: nutRows({ standard: "DIN 934", edition: "1987", table: "table 1: s, m max", confidence: "compared" }, [
      [2, 4, 1.6, undefined, undefined],
      [2.5, 5, 2, undefined, undefined],
      [3, 5.5, 2.4, undefined, undefined],
      [4, 7, 3.2, undefined, undefined],
      [5, 8, 4, undefined, undefined],
      [6, 10, 5, undefined, undefined],
      [8, 13, 6.5, undefined, undefined],
      [10, 17, 8, undefined, undefined],
      [12, 19, 10, undefined, undefined],
      [16, 24, 13, undefined, undefined],
    ]),
  },
  {
    name: "DIN 985",
    words: "thin prevailing torque hexagon nut, withdrawn standard",
    usualClass: "8",
    rows: nutRows({ standard: "DIN 985", edition: "1987", table: "table 1: s, h max, m min", confidence: "memory" }, [
      [3, 5.5, 4, 2.4, undefined],
      [4, 7, 5, 2.9, undefined],
      [5, 8, 5, 3.2, undefined],
      [6, 10, 6, 4, undefined],
      [8, 13, 8, 5.5, undefined],
      [10, 17, 10, 6.5, undefined],
      [12, 19, 12, 8, undefined],
    ]),
  },
]
