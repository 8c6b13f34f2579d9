/** ISO 965-1: tolerances of metric threads, grade 6, and the deviation of position g. Given in micrometres, returned in mm. */
import type { Origin, Sourced } from "./origin.ts"

const origin: Origin = {
  standard: "ISO 965-1",
  edition: "2013",
  table: "tables 1 to 5: es(g), Td(6), TD1(6), Td2(6), TD2(6)",
  confidence: "compared",
}

/** By pitch: es(g), Td(6) of the major diameter, TD1(6) of the internal minor diameter. */
const byPitch: readonly (readonly [pitchMm: number, deviation: number, major: number, internalMinor: number])[] = [
  [0.35, 19, 85, 100],
  [0.4, 19, 95, 112],
  [0.45, 20, 100, 125],
  [0.5, 20, 106, 140],
  [0.6, 21, 125, 160],
  [0.7, 22, 140, 180],
  [0.75, 22, 140, 190],
  [0.8, 24, 150, 200],
  [1, 26, 180, 236],
  [1.25, 28, 212, 265],
  [1.5, 32, 236, 300],
  [1.75, 34, 265, 335],
  [2, 38, 280, 375],
  [2.5, 42, 335, 450],
  [3, 48, 375, 500],
]

/** By range of diameters (over, up to) and pitch: Td2(6), TD2(6) of the pitch diameters. */
const byRange: readonly (readonly [over: number, upTo: number, pitchMm: number, external: number, internal: number])[] =
  [
    [1.4, 2.8, 0.35, 63, 85],
    [1.4, 2.8, 0.4, 67, 90],
    [1.4, 2.8, 0.45, 71, 95],
    [2.8, 5.6, 0.35, 67, 90],
    [2.8, 5.6, 0.5, 75, 100],
    [2.8, 5.6, 0.6, 85, 112],
    [2.8, 5.6, 0.7, 90, 118],
    [2.8, 5.6, 0.75, 90, 118],
    [2.8, 5.6, 0.8, 95, 125],
    [5.6, 11.2, 0.75, 100, 132],
    [5.6, 11.2, 1, 112, 150],
    [5.6, 11.2, 1.25, 118, 160],
    [5.6, 11.2, 1.5, 132, 180],
    [11.2, 22.4, 1, 118, 160],
    [11.2, 22.4, 1.25, 132, 180],
    [11.2, 22.4, 1.5, 140, 190],
    [11.2, 22.4, 1.75, 150, 200],
    [11.2, 22.4, 2, 160, 212],
    [11.2, 22.4, 2.5, 170, 224],
    [22.4, 45, 1, 125, 170],
    [22.4, 45, 1.5, 150, 200],
    [22.4, 45, 2, 170, 224],
    [22.4, 45, 3, 200, 265],
  ]

export type Tolerances = {
  readonly majorMm: number
  readonly internalMinorMm: number
  readonly pitchMm: number
  readonly internalPitchMm: number
}

/** Tolerances of grade 6 for a thread, undefined when not listed. */
export function findTolerances(diameterMm: number, pitchMm: number): Sourced<Tolerances> | undefined {
  const own = byPitch.find(([pitch]) => pitch === pitchMm)
  const range = byRange.find(([over, upTo, pitch]) => diameterMm > over && diameterMm <= upTo && pitch === pitchMm)
  if (own === undefined || range === undefined) return undefined
  const [, , major, internalMinor] = own
  const [, , , external, internal] = range
  return {
    majorMm: major / 1000,
    internalMinorMm: internalMinor / 1000,
    pitchMm: external / 1000,
    internalPitchMm: internal / 1000,
    origin,
  }
}

/** How far all sizes of a screw of position g lie below the basic ones: -es. */
export function externalDeviationMm(pitchMm: number): number | undefined {
  const deviation = byPitch.find(([pitch]) => pitch === pitchMm)?.[1]
  return deviation === undefined ? undefined : deviation / 1000
}
