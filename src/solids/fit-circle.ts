/** The circle through points in a plane. */

export type Circle = { readonly x: number; readonly y: number; readonly radius: number }

/**
 * Gives the circle that comes nearest to the points by the algebraic least squares of Kasa (1976): exact when they lie
 * on a circle. Points on a line, or fewer than three, give undefined.
 */
export function fitCircle(points: readonly { readonly x: number; readonly y: number }[]): Circle | undefined {
  const count = points.length
  if (count < 3) return undefined
  const meanX = points.reduce((sum, { x }) => sum + x, 0) / count
  const meanY = points.reduce((sum, { y }) => sum + y, 0) / count
  let [xx, yy, xy, xr, yr, rr] = [0, 0, 0, 0, 0, 0]
  for (const point of points) {
    const x = point.x - meanX
    const y = point.y - meanY
    const square = x * x + y * y
    xx += x * x
    yy += y * y
    xy += x * y
    xr += x * square
    yr += y * square
    rr += square
  }
  const determinant = 2 * (xx * yy - xy * xy)
  if (Math.abs(determinant) <= 1e-12 * rr * rr) return undefined
  const x = (xr * yy - yr * xy) / determinant
  const y = (yr * xx - xr * xy) / determinant
  return { x: x + meanX, y: y + meanY, radius: Math.sqrt(x * x + y * y + rr / count) }
}
