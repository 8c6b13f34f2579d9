/** Screws in plastic: pressure under a head, thread-forming screws, heat-set inserts. All results are bands, never exact. */

import { shearYieldShare } from "./tables/parents.ts"
import {
  findBoss,
  findPlastic,
  insertShares,
  type PlasticRow,
  plasticFriction,
  stripShares,
} from "./tables/plastics.ts"
import { computeLeverMm } from "./tightening.ts"

export type Band = { readonly min: number; readonly max: number }

/** Source of the arithmetic of plastics, for calculations. */
export const plasticSource =
  "shear of the formed thread on printed strengths of data sheets; share of strip torque from plastics design guides"

/** Ring under a head or washer: pi / 4 (outer^2 - hole^2), in mm2. */
export function bearingAreaMm2(outerMm: number, holeMm: number): number {
  return (Math.PI / 4) * Math.max(0, outerMm ** 2 - holeMm ** 2)
}

/** Force in N that presses a ring with a pressure in MPa. */
export function forceOfPressureN(pressureMpa: number, areaMm2: number): number {
  return pressureMpa * areaMm2
}

/** Shear strength of a printed plastic in MPa: tensile / sqrt 3, across the layers at worst, along them at best. */
function plasticShearMpa(plastic: PlasticRow): Band {
  return { min: plastic.acrossMpa[0] * shearYieldShare, max: plastic.alongMpa[1] * shearYieldShare }
}

/** Pilot hole of a thread-forming screw as finished, in mm, from the factor of the plastic +- 0.04 d. */
export function pilotHoleMm(plasticName: string, diameterMm: number): Band {
  const { holeD } = findBoss(plasticName)
  return { min: (holeD - 0.04) * diameterMm, max: (holeD + 0.06) * diameterMm }
}

/** What a thread-forming screw in plastic bears. Forces in N, torques in N*m. */
export type PlasticThread = {
  readonly shearMpa: Band
  readonly areaMm2: number
  readonly pullOutN: Band
  readonly stripTorqueNm: Band
  /** Torque to work with: half of the weakest strip torque up to 0.7 of the strongest; `valueNm` lies at the safe side. */
  readonly torqueNm: Band
  readonly valueNm: number
}

/**
 * Computes a thread-forming screw in printed plastic. The formed thread shears on the cylinder of diameter d over the
 * engagement less one pitch (point and first turn do not bear).
 */
export function computePlasticThread(inputs: {
  readonly plasticName: string
  readonly diameterMm: number
  readonly pitchMm: number
  readonly engagementMm: number
  readonly headBearingMm: number
  readonly holeMm: number
}): PlasticThread {
  const { plasticName, diameterMm, pitchMm, engagementMm, headBearingMm, holeMm } = inputs
  const shearMpa = plasticShearMpa(findPlastic(plasticName))
  const areaMm2 = Math.PI * diameterMm * Math.max(0, engagementMm - pitchMm)
  const pullOutN = { min: shearMpa.min * areaMm2, max: shearMpa.max * areaMm2 }
  const bearing = { outerMm: headBearingMm, holeMm }
  const thread = { pitchMm, pitchDiameterMm: diameterMm * (1 + findBoss(plasticName).holeD) * 0.5 }
  const lever = (friction: number): number => computeLeverMm(thread, { thread: friction, head: friction }, bearing)
  const stripTorqueNm = {
    min: (pullOutN.min * lever(plasticFriction[0])) / 1000,
    max: (pullOutN.max * lever(plasticFriction[1])) / 1000,
  }
  const torqueNm = { min: stripShares[0] * stripTorqueNm.min, max: stripShares[1] * stripTorqueNm.max }
  // The geometric mean of weakest and strongest, times the cautious share: the safe side of the middle.
  const valueNm = stripShares[0] * Math.sqrt(stripTorqueNm.min * stripTorqueNm.max)
  return { shearMpa, areaMm2, pullOutN, stripTorqueNm, torqueNm, valueNm }
}

/** Pull-out force in N of a heat-set insert: 0.35 to 0.6 of the shear on the cylinder round it. */
export function insertPullOutN(plasticName: string, outerMm: number, lengthMm: number): Band {
  const shearMpa = plasticShearMpa(findPlastic(plasticName))
  const areaMm2 = Math.PI * outerMm * lengthMm
  return { min: insertShares[0] * shearMpa.min * areaMm2, max: insertShares[1] * shearMpa.max * areaMm2 }
}
