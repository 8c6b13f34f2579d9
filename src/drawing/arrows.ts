/** Arrows of motion: narrow, black, with a filled head; set on free paper beside the way they show. */
import { type PaperGrid, walkLine } from "./free-space.ts"
import { lineStyles } from "./line-widths.ts"

/** Length of a head. */
export const headLongMm = 4
const headWideMm = 2.6
const longestMm = 13
const shortestMm = 7
/** A millimetre of arrow over something costs as much as this many millimetres away from the way. */
const coverCost = 8
const backCost = 8

/** Shaft as an open line; head as two nested triangles, which lines of the arrow's width fill. */
export type PaperArrow = { readonly shaft: readonly number[]; readonly heads: readonly (readonly number[])[] }

/**
 * Finds a place for an arrow that starts near (x, y) and runs along a direction on paper (unit vector). Free paper close to the
 * way wins, before the thing or behind it (`behindMm` from its front); with no free paper the least covered place is taken.
 */
export function placeArrow(
  grid: PaperGrid,
  x: number,
  y: number,
  direction: readonly [number, number],
  wayMm: number,
  behindMm: number,
): PaperArrow {
  const lengthMm = Math.min(longestMm, Math.max(shortestMm, wayMm))
  const [dx, dy] = direction
  let best: { cost: number; x: number; y: number } = { cost: Number.POSITIVE_INFINITY, x, y }
  for (let aside = -30; aside <= 30; aside += 1.5) {
    for (let ahead = -behindMm - lengthMm - 4; ahead <= 10; ahead += 2) {
      const sx = x + dx * ahead - dy * aside
      const sy = y + dy * ahead + dx * aside
      if (!isOnPaper(grid, sx, sy) || !isOnPaper(grid, sx + dx * lengthMm, sy + dy * lengthMm)) continue
      const covered = coveredMm(grid, sx, sy, direction, lengthMm)
      const middle = ahead + lengthMm / 2
      const toFront = Math.abs(middle - wayMm / 2)
      const toBack = Math.abs(middle + behindMm + lengthMm / 2 + 2) + backCost
      const cost = coverCost * covered + Math.abs(aside) + 0.6 * Math.min(toFront, toBack)
      if (cost < best.cost - 1e-9) best = { cost, x: sx, y: sy }
    }
  }
  return makeArrow(best.x, best.y, direction, lengthMm)
}

function isOnPaper({ leftMm, topMm, columns, rows, cellMm }: PaperGrid, x: number, y: number): boolean {
  const edgeMm = headWideMm / 2 + 0.2
  const [right, bottom] = [leftMm + columns * cellMm, topMm + rows * cellMm]
  return x > leftMm + edgeMm && x < right - edgeMm && y > topMm + edgeMm && y < bottom - edgeMm
}

/** Length of the arrow that lies over a new thing or lines, with a margin beside it; plain faces count a quarter. */
function coveredMm(
  grid: PaperGrid,
  x: number,
  y: number,
  [dx, dy]: readonly [number, number],
  lengthMm: number,
): number {
  let weight = 0
  for (const aside of [-2, -1, 0, 1, 2]) {
    const ax = x - dy * aside - dx * 1.5
    const ay = y + dx * aside - dy * 1.5
    const bx = x + dx * (lengthMm + 1.5) - dy * aside
    const by = y + dy * (lengthMm + 1.5) + dx * aside
    walkLine(grid, ax, ay, bx, by, (cell) => {
      weight += grid.weight[cell] ?? 0
    })
  }
  return (weight * grid.cellMm * 0.7) / 20
}

function makeArrow(x: number, y: number, direction: readonly [number, number], lengthMm: number): PaperArrow {
  const [dx, dy] = direction
  const half = lineStyles.arrow.widthMm / 2
  const end = lengthMm - headLongMm + half
  return {
    shaft: [x + dx * half, y + dy * half, x + dx * end, y + dy * end],
    heads: makeHeads(x + dx * lengthMm, y + dy * lengthMm, direction),
  }
}

/** Head of an arrow whose tip is at (x, y). */
export function makeHeads(x: number, y: number, [dx, dy]: readonly [number, number]): PaperArrow["heads"] {
  const half = lineStyles.arrow.widthMm / 2
  const triangle = (tip: number, base: number, wide: number): readonly number[] => {
    const [tipX, tipY, baseX, baseY] = [x - dx * tip, y - dy * tip, x - dx * base, y - dy * base]
    return [tipX, tipY, baseX - dy * wide, baseY + dx * wide, baseX + dy * wide, baseY - dx * wide]
  }
  // Lines are as wide outside as inside: the outer triangle stands back by half a line, at the sharp tip by more.
  return [
    triangle(3 * half, headLongMm - half, headWideMm / 2 - 1.2 * half),
    triangle(5 * half, headLongMm - 2 * half, 0.35 * headWideMm - half),
  ]
}
