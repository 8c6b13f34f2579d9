/** Arrows round the heads of screws that are tightened in their place. */
import { add, cross, scale } from "../solids/vectors.ts"
import { headLongMm, makeHeads, type PaperArrow } from "./arrows.ts"
import { type PaperGrid, type Placing, walkLine } from "./free-space.ts"
import { projectPoint, type View } from "./projection.ts"
import type { Turn } from "./things.ts"
import { squareTo } from "./vector.ts"

/** Clear space between head and arrow on paper. */
const clearMm = 3
/** How far the arrow reaches round, and the starts that are tried. */
const reachDeg = 230
const startCount = 12
const stepDeg = 10

/**
 * The least covered of the arrows round the given heads, one at each twelfth of a turn; undefined when all heads show their
 * backs. A screw turns clockwise as seen from its head (right-hand thread, ISO 68-1).
 */
export function placeTurn(
  turns: readonly Turn[],
  view: View,
  placing: Placing,
  grid: PaperGrid,
): { readonly of: string; readonly arrow: PaperArrow } | undefined {
  let best: { of: string; points: readonly number[]; cost: number } | undefined
  for (const turn of turns) {
    const { axis } = turn
    if (axis[0] * view.from[0] + axis[1] * view.from[1] + axis[2] * view.from[2] <= 0.1) continue
    for (let start = 0; start < startCount; start += 1) {
      const points = arcOf(turn, (360 * start) / startCount, view, placing)
      const cost = coverOf(grid, points)
      if (best === undefined || cost < best.cost) best = { of: turn.of, points, cost }
    }
  }
  return best === undefined ? undefined : { of: best.of, arrow: makeArc(best.points) }
}

/** Points of the arc on paper, in the direction of the turn. */
function arcOf({ middle, axis, radiusMm }: Turn, startDeg: number, view: View, placing: Placing): readonly number[] {
  const radius = radiusMm + clearMm / placing.scale
  const across = squareTo(axis)
  const aside = cross(axis, across)
  const points: number[] = []
  for (let angle = 0; angle <= reachDeg; angle += stepDeg) {
    const turned = (-(startDeg + angle) * Math.PI) / 180
    const place = add(middle, add(scale(across, radius * Math.cos(turned)), scale(aside, radius * Math.sin(turned))))
    const { x, y } = projectPoint(view, place)
    points.push((x - placing.leftMm) * placing.scale, (y - placing.topMm) * placing.scale)
  }
  return points
}

function coverOf(grid: PaperGrid, points: readonly number[]): number {
  let cost = 0
  for (let index = 0; index + 3 < points.length; index += 2) {
    const [ax = 0, ay = 0, bx = 0, by = 0] = points.slice(index, index + 4)
    walkLine(grid, ax, ay, bx, by, (cell) => {
      cost += grid.weight[cell] ?? 0
    })
  }
  return cost
}

/** The shaft ends where the head begins. */
function makeArc(points: readonly number[]): PaperArrow {
  const [x = 0, y = 0] = points.slice(-2)
  let end = points.length - 2
  while (end > 2 && Math.hypot((points[end] ?? 0) - x, (points[end + 1] ?? 0) - y) < headLongMm - 0.3) end -= 2
  const [bx, by] = [x - (points[end] ?? 0), y - (points[end + 1] ?? 0)]
  const length = Math.hypot(bx, by) || 1
  return { shaft: points.slice(0, end + 2), heads: makeHeads(x, y, [bx / length, by / length]) }
}
