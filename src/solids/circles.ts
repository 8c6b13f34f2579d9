/** How finely circles are cut into straight pieces. */

/** Largest distance between a circle and its chords. */
const chordErrorMm = 0.01
const leastSegments = 48

/**
 * Gives the number of segments for a circle: at least 48, chords at most 0.01 mm from the circle, a multiple of 4 so that
 * the widest points lie on the axes. The corners lie on the circle, the chords inside it.
 */
export function segmentsForCircle(radiusMm: number): number {
  if (radiusMm <= chordErrorMm) return leastSegments
  const needed = Math.PI / Math.acos(1 - chordErrorMm / radiusMm)
  return Math.max(leastSegments, Math.ceil(needed / 4) * 4)
}
