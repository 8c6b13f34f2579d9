/**
 * Stripping of threads: shear areas at least material after FED-STD-H28/2B, strip loads, engagement.
 * Areas in mm2, forces in N, lengths in mm, stresses in MPa.
 */
import type { Thread, ThreadLimits } from "./threads.ts"

/** Source of the shear areas, for calculations. */
export const strippingSource = "FED-STD-H28/2B, section 2 (shear areas at least material)"

const tan30 = Math.tan(Math.PI / 6)

/** Shear area of the internal thread for each mm of engagement: pi ds / P (P / 2 + tan 30 (ds - D2)). */
export function internalShearAreaPerMm(pitchMm: number, screwMajorMm: number, internalPitchMm: number): number {
  return ((Math.PI * screwMajorMm) / pitchMm) * (pitchMm / 2 + tan30 * (screwMajorMm - internalPitchMm))
}

/** Shear area of the external thread for each mm of engagement: pi D1 / P (P / 2 + tan 30 (d2 - D1)). */
function externalShearAreaPerMm(pitchMm: number, internalMinorMm: number, screwPitchMm: number): number {
  return ((Math.PI * internalMinorMm) / pitchMm) * (pitchMm / 2 + tan30 * (screwPitchMm - internalMinorMm))
}

/** Both areas at least material (6g screw in 6H hole); basic sizes where the limits are not listed. */
export function leastMaterialAreas(
  thread: Thread,
  limits: ThreadLimits | undefined,
): { readonly internalMm2: number; readonly externalMm2: number } {
  const { pitchMm, diameterMm, pitchDiameterMm, minorDiameterMm } = thread
  return {
    internalMm2: internalShearAreaPerMm(
      pitchMm,
      limits?.majorMinMm ?? diameterMm,
      limits?.internalPitchMaxMm ?? pitchDiameterMm,
    ),
    externalMm2: externalShearAreaPerMm(
      pitchMm,
      limits?.internalMinorMaxMm ?? minorDiameterMm,
      limits?.pitchMinMm ?? pitchDiameterMm,
    ),
  }
}

/** Force that strips a thread: shear strength x area for each mm x engagement. */
export function stripLoadN(shearMpa: number, areaPerMm: number, engagementMm: number): number {
  return shearMpa * areaPerMm * Math.max(0, engagementMm)
}

/** Engagement at which a force strips a thread. */
export function engagementForLoadMm(forceN: number, shearMpa: number, areaPerMm: number): number {
  return forceN / (shearMpa * areaPerMm)
}

/**
 * Engagement at which screw and equally strong thread fail together (Machinery's Handbook, length of engagement, formula 1):
 * LE = 2 As / (pi D1 (1/2 + tan 30 / P (d2 - D1))).
 */
export function equalStrengthEngagementMm(
  stressAreaMm2: number,
  pitchMm: number,
  internalMinorMm: number,
  screwPitchMm: number,
): number {
  return (2 * stressAreaMm2) / externalShearAreaPerMm(pitchMm, internalMinorMm, screwPitchMm)
}
