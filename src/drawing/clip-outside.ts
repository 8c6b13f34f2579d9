/** Cuts straight lines where they would run through discs, so that numbers stand on free paper. */

export type Disc = { readonly x: number; readonly y: number; readonly radiusMm: number }

/** Takes stretches as x y x y ... and gives what of them lies outside all discs, in the same form. */
export function clipOutside(stretches: readonly number[], discs: readonly Disc[]): readonly number[] {
  const kept: number[] = []
  for (let index = 0; index + 3 < stretches.length; index += 4) {
    const [ax = 0, ay = 0, bx = 0, by = 0] = stretches.slice(index, index + 4)
    for (const [from, to] of freeParts(ax, ay, bx, by, discs))
      kept.push(ax + (bx - ax) * from, ay + (by - ay) * from, ax + (bx - ax) * to, ay + (by - ay) * to)
  }
  return kept
}

/** Shares of a line that lie outside all discs, each as begin and end between 0 and 1. */
function freeParts(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  discs: readonly Disc[],
): readonly (readonly [number, number])[] {
  let parts: readonly (readonly [number, number])[] = [[0, 1]]
  for (const { x, y, radiusMm } of discs) {
    const [dx, dy] = [bx - ax, by - ay]
    const [fx, fy] = [ax - x, ay - y]
    // |a + t d - c| = r is a quadratic equation in t; between its roots the line runs inside.
    const a = dx * dx + dy * dy
    const b = fx * dx + fy * dy
    const root = b * b - a * (fx * fx + fy * fy - radiusMm * radiusMm)
    if (a === 0 || root <= 0) continue
    const enter = (-b - Math.sqrt(root)) / a
    const leave = (-b + Math.sqrt(root)) / a
    parts = parts.flatMap(([from, to]) =>
      [[from, Math.min(to, enter)] as const, [Math.max(from, leave), to] as const].filter(
        ([begin, end]) => end - begin > 1e-9,
      ),
    )
  }
  return parts
}
