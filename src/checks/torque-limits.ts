/** Which limit of a joint a torque exceeds, so that each fault is told once. */
import type { Calculation, TorqueFit } from "../fit/types.ts"

/** Limits that end a thread or a screw; the others are pressures under the head, its washer or the nut. */
function isThreadLimit({ name }: Calculation): boolean {
  return !/ under the (?:head|washer|nut) /.test(name)
}

/** The weakest thread or screw limit whose whole band lies below a torque; undefined when none does. */
export function findExceeded({ limits }: TorqueFit, torqueNm: number): Calculation | undefined {
  return weakest(limits.filter((limit) => isThreadLimit(limit) && (limit.band?.max ?? limit.value) < torqueNm))
}

/** The weakest pressure limit whose whole band lies below a torque. */
export function findPressedTooMuch({ limits }: TorqueFit, torqueNm: number): Calculation | undefined {
  return weakest(limits.filter((limit) => !isThreadLimit(limit) && (limit.band?.max ?? limit.value) < torqueNm))
}

function weakest(limits: readonly Calculation[]): Calculation | undefined {
  return [...limits].sort((one, other) => (one.band?.max ?? one.value) - (other.band?.max ?? other.value))[0]
}
