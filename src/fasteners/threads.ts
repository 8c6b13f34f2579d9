/** Geometry of metric threads after ISO 68-1 and ISO 724, and their limits after ISO 965-1. Lengths in mm, areas in mm2. */
import { externalDeviationMm, findTolerances } from "./tables/iso-965-1.ts"

export type Thread = {
  readonly diameterMm: number
  readonly pitchMm: number
  /** d2 = D2 = d - 0.649519 P */
  readonly pitchDiameterMm: number
  /** D1 = d1 = d - 1.082532 P */
  readonly minorDiameterMm: number
  /** d3 = d - 1.226869 P, root of the external thread (DIN 13-1) */
  readonly rootDiameterMm: number
  /** As = pi / 4 (d - 0.938194 P)^2, ISO 898-1 */
  readonly stressAreaMm2: number
  /** As to three figures, as ISO 898-1 tabulates it and computes its loads from it. */
  readonly nominalStressAreaMm2: number
  /** pi / 4 d3^2 */
  readonly rootAreaMm2: number
}

/** Limits of size of tolerance class 6g (screw) and 6H (nut, tapped hole). */
export type ThreadLimits = {
  readonly majorMaxMm: number
  readonly majorMinMm: number
  readonly pitchMaxMm: number
  readonly pitchMinMm: number
  /** D1 max of the internal thread. */
  readonly internalMinorMaxMm: number
  /** D2 max of the internal thread. */
  readonly internalPitchMaxMm: number
}

/** Computes the basic profile of a thread. H = sqrt(3)/2 P. */
export function computeThread(diameterMm: number, pitchMm: number): Thread {
  const heightMm = (Math.sqrt(3) / 2) * pitchMm
  const pitchDiameterMm = diameterMm - (3 / 4) * heightMm
  const rootDiameterMm = diameterMm - (17 / 12) * heightMm
  const stressAreaMm2 = (Math.PI / 4) * ((pitchDiameterMm + rootDiameterMm) / 2) ** 2
  return {
    diameterMm,
    pitchMm,
    pitchDiameterMm,
    minorDiameterMm: diameterMm - (5 / 4) * heightMm,
    rootDiameterMm,
    stressAreaMm2,
    nominalStressAreaMm2: Number(stressAreaMm2.toPrecision(3)),
    rootAreaMm2: (Math.PI / 4) * rootDiameterMm ** 2,
  }
}

/** Computes the limits of 6g and 6H; undefined for a pitch or diameter that the tolerance tables do not list. */
export function computeThreadLimits(thread: Thread): ThreadLimits | undefined {
  const { diameterMm, pitchMm, pitchDiameterMm, minorDiameterMm } = thread
  const tolerances = findTolerances(diameterMm, pitchMm)
  if (tolerances === undefined) return undefined
  const deviationMm = externalDeviationMm(pitchMm)
  if (deviationMm === undefined) return undefined
  // ISO 965-2 lists limits to the micrometre, from basic sizes that ISO 724 rounds to the micrometre.
  const micrometre = (value: number): number => Math.round(value * 1000) / 1000
  const basicPitch = micrometre(pitchDiameterMm)
  const basicMinor = micrometre(minorDiameterMm)
  return {
    majorMaxMm: micrometre(diameterMm - deviationMm),
    majorMinMm: micrometre(diameterMm - deviationMm - tolerances.majorMm),
    pitchMaxMm: micrometre(basicPitch - deviationMm),
    pitchMinMm: micrometre(basicPitch - deviationMm - tolerances.pitchMm),
    internalMinorMaxMm: micrometre(basicMinor + tolerances.internalMinorMm),
    internalPitchMaxMm: micrometre(basicPitch + tolerances.internalPitchMm),
  }
}
