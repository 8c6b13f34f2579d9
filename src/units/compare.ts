/** Comparison of lengths and other computed numbers with a tolerance, since sums of decimals are not exact. */

/** Well above the rounding of sums of decimals (about 1e-13 relative), far below anything that can be made. */
const toleranceMm = 1e-6

/** True when `actual` is at least `needed`, rounding errors of sums aside. */
export function atLeast(actual: number, needed: number): boolean {
  return actual >= needed - toleranceMm
}

/** True when `actual` is at most `allowed`, rounding errors of sums aside. */
export function atMost(actual: number, allowed: number): boolean {
  return actual <= allowed + toleranceMm
}

/** True when both are the same number, rounding errors of sums aside. */
export function isSame(one: number, other: number): boolean {
  return Math.abs(one - other) <= toleranceMm
}
