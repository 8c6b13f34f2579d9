/**
 * Tightening of metal screws after VDI 2230-1: assembly preload at a share of yield with torsion, and the torque for it.
 * Forces in N, torques in N*m, lengths in mm, stresses in MPa. Letters as in the guideline.
 */
import type { Thread } from "./threads.ts"

/** Source of preload and torque, for calculations. */
export const tighteningSource = "VDI 2230-1:2015, section 5.4.3 and annex A"

export type Friction = { readonly thread: number; readonly head: number }

/**
 * Computes the assembly preload FM: FM = As nu Rp / sqrt(1 + 3 (3/2 d2/ds (P / (pi d2) + 1.155 muG))^2), with
 * ds = (d2 + d3) / 2 and nu = 0.9 as usual.
 */
export function computePreloadN(thread: Thread, yieldMpa: number, frictionThread: number, share = 0.9): number {
  const { pitchMm, pitchDiameterMm: d2, rootDiameterMm: d3, stressAreaMm2 } = thread
  const ds = (d2 + d3) / 2
  const twist = 1.5 * (d2 / ds) * (pitchMm / (Math.PI * d2) + 1.155 * frictionThread)
  return (stressAreaMm2 * share * yieldMpa) / Math.sqrt(1 + 3 * twist ** 2)
}

/** Lever in mm between preload and torque: MA = FM (0.16 P + 0.58 d2 muG + DKm / 2 muK), DKm = (dw + dh) / 2. */
export function computeLeverMm(
  thread: Pick<Thread, "pitchMm" | "pitchDiameterMm">,
  friction: Friction,
  bearing: { readonly outerMm: number; readonly holeMm: number },
): number {
  const meanDiameterMm = (bearing.outerMm + bearing.holeMm) / 2
  return 0.16 * thread.pitchMm + 0.58 * thread.pitchDiameterMm * friction.thread + (meanDiameterMm / 2) * friction.head
}

/** Computes the torque in N*m that gives a preload in N. */
export function torqueOfForceNm(forceN: number, leverMm: number): number {
  return (forceN * leverMm) / 1000
}

/** Simple form T = K F d, with F in N and d in mm. */
export function torqueByNutFactorNm(nutFactor: number, forceN: number, diameterMm: number): number {
  return (nutFactor * forceN * diameterMm) / 1000
}

/**
 * Long form of the nut factor (Shigley, Mechanical Engineering Design, eq. 8-26):
 * K = dm / (2 d) (tan lambda + f sec 30) / (1 - f tan lambda sec 30) + fc dc / (2 d).
 */
export function computeNutFactor(inputs: {
  readonly diameterMm: number
  readonly meanDiameterMm: number
  readonly pitchMm: number
  readonly frictionThread: number
  readonly frictionCollar: number
  readonly collarDiameterMm: number
}): number {
  const { diameterMm, meanDiameterMm, pitchMm, frictionThread, frictionCollar, collarDiameterMm } = inputs
  const lead = pitchMm / (Math.PI * meanDiameterMm)
  const friction = frictionThread / Math.cos(Math.PI / 6)
  const inThread = (meanDiameterMm / (2 * diameterMm)) * ((lead + friction) / (1 - friction * lead))
  return inThread + (frictionCollar * collarDiameterMm) / (2 * diameterMm)
}
