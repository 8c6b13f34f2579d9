/** Lengths of straps: loops round tubes, boxes and bundles; what a cable tie must have in addition. All in mm. */

export type Disc = { readonly x: number; readonly y: number; readonly radiusMm: number }

/** Head and grip tail that a tie needs beyond the loop: 30 to 60 mm in catalogues, 35 mm here (common practice). */
export const tieAllowanceMm = 35

/** Length of a taut belt round any discs (a point is a disc of radius 0): the perimeter of their convex hull. */
export function loopRoundMm(discs: readonly Disc[]): number {
  const outline = convexHull(discs.flatMap(outlineOf))
  return outline.reduce((sum, [x, y], index) => {
    const [nextX, nextY] = outline[(index + 1) % outline.length] ?? [x, y]
    return sum + Math.hypot(nextX - x, nextY - y)
  }, 0)
}

/** A strap lies with its middle half a thickness outside: every loop grows by pi t. */
export function strapLoopMm(loopMm: number, thicknessMm: number): number {
  return loopMm + Math.PI * thicknessMm
}

/** Length of tie that closes round a loop. */
export function tieLengthMm(loopMm: number, thicknessMm: number, allowanceMm = tieAllowanceMm): number {
  return strapLoopMm(loopMm, thicknessMm) + allowanceMm
}

/** Largest round bundle that a tie closes round. */
export function largestBundleMm(tieMm: number, allowanceMm: number): number {
  return (tieMm - allowanceMm) / Math.PI
}

/** Round tube with a box on it: the box stands on the top of the tube, centred. */
export function tubeWithBox(tubeRadiusMm: number, widthMm: number, heightMm: number): readonly Disc[] {
  const corners = [tubeRadiusMm, tubeRadiusMm + heightMm].flatMap((y) =>
    [-widthMm / 2, widthMm / 2].map((x) => ({ x, y, radiusMm: 0 })),
  )
  return [{ x: 0, y: 0, radiusMm: tubeRadiusMm }, ...corners]
}

/** Rectangle with rounded corners, as four discs. */
export function roundedBox(widthMm: number, heightMm: number, cornerMm: number): readonly Disc[] {
  const [x, y] = [widthMm / 2 - cornerMm, heightMm / 2 - cornerMm]
  return [-x, x].flatMap((atX) => [-y, y].map((atY) => ({ x: atX, y: atY, radiusMm: cornerMm })))
}

/** Outside perimeter of a rectangular tube: 2 (a + b - 4 r) + 2 pi r. */
export function tubePerimeterMm(widthMm: number, heightMm: number, cornerMm: number): number {
  return 2 * (widthMm + heightMm - 4 * cornerMm) + 2 * Math.PI * cornerMm
}

/** Corners of a circumscribed polygon would be too long, of an inscribed one too short: 7200 points are 1e-7 short. */
const pointsPerCircle = 7200

function outlineOf({ x, y, radiusMm }: Disc): readonly (readonly [number, number])[] {
  if (radiusMm === 0) return [[x, y]]
  return Array.from({ length: pointsPerCircle }, (_, index) => {
    const angle = (2 * Math.PI * index) / pointsPerCircle
    return [x + radiusMm * Math.cos(angle), y + radiusMm * Math.sin(angle)] as const
  })
}

/** Convex hull by the monotone chain, anticlockwise. */
function convexHull(points: readonly (readonly [number, number])[]): readonly (readonly [number, number])[] {
  const sorted = [...points].sort(([x, y], [otherX, otherY]) => x - otherX || y - otherY)
  const halfHull = (ordered: readonly (readonly [number, number])[]): (readonly [number, number])[] => {
    const hull: (readonly [number, number])[] = []
    for (const point of ordered) {
      while (hull.length >= 2 && !turnsLeft(hull.at(-2), hull.at(-1), point)) hull.pop()
      hull.push(point)
    }
    return hull.slice(0, -1)
  }
  return sorted.length < 3 ? sorted : [...halfHull(sorted), ...halfHull(sorted.reverse())]
}

function turnsLeft(
  one: readonly [number, number] | undefined,
  two: readonly [number, number] | undefined,
  three: readonly [number, number],
): boolean {
  if (one === undefined || two === undefined) return true
  return (two[0] - one[0]) * (three[1] - one[1]) - (two[1] - one[1]) * (three[0] - one[0]) > 0
}
