/** Search in ascending lists of indexes. */

/** Index of the first number above `limit` in an ascending list. */
export function firstAbove(sorted: readonly number[], limit: number): number {
  let low = 0
  let high = sorted.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((sorted[middle] ?? Number.POSITIVE_INFINITY) > limit) high = middle
    else low = middle + 1
  }
  return low
}
