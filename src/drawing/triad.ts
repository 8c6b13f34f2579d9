/** The turn cue: the axes of the assembly as seen before and as seen now. */

import type { Vec3 } from "../solids/types.ts"
import { countTaken, type PaperGrid, takeLine } from "./free-space.ts"
import { strokeLettering } from "./glyphs.ts"
import { projectDirection, type View } from "./projection.ts"
import type { Stroke } from "./types.ts"

const axisMm = 5.5
const letterMm = 2.5
const halfMm = 9
const axes: readonly { readonly name: string; readonly direction: Vec3 }[] = [
  { name: "X", direction: [1, 0, 0] },
  { name: "Y", direction: [0, 1, 0] },
  { name: "Z", direction: [0, 0, 1] },
]

/** Two triads with a small arrow between them, in the emptiest corner of the paper; the cells are marked as taken. */
export function drawTurnCue(grid: PaperGrid, before: View, now: View): readonly Stroke[] {
  const width = 4 * halfMm + 7
  const height = 2 * halfMm
  const { x, y } = findCorner(grid, width, height)
  const strokes = [
    ...drawTriad(before, x + halfMm, y + halfMm),
    ...drawTriad(now, x + 3 * halfMm + 7, y + halfMm),
    line([x + 2 * halfMm + 0.5, y + halfMm, x + 2 * halfMm + 6.5, y + halfMm]),
    line([
      x + 2 * halfMm + 4.7,
      y + halfMm - 0.9,
      x + 2 * halfMm + 6.5,
      y + halfMm,
      x + 2 * halfMm + 4.7,
      y + halfMm + 0.9,
    ]),
  ]
  for (let row = 0; row <= height; row += 0.5) takeLine(grid, [x, y + row, x + width, y + row])
  return strokes
}

function line(points: readonly number[]): Stroke {
  return { role: "triad", points, isClosed: false, of: undefined }
}

function drawTriad(view: View, x: number, y: number): readonly Stroke[] {
  return axes.flatMap(({ name, direction }) => {
    const [dx, dy] = projectDirection(view, direction)
    const [tipX, tipY] = [x + dx * axisMm, y + dy * axisMm]
    const [nameX, nameY] = [x + dx * (axisMm + 3) - 0.6, y + dy * (axisMm + 3) + letterMm / 2]
    return [line([x, y, tipX, tipY]), ...strokeLettering(name, letterMm, nameX, nameY).map(line)]
  })
}

/** Lower corners first, then upper ones; the one with the least on it. */
function findCorner(grid: PaperGrid, width: number, height: number): { x: number; y: number } {
  const right = grid.leftMm + grid.columns * grid.cellMm
  const bottom = grid.topMm + grid.rows * grid.cellMm
  const corners = [
    { x: grid.leftMm + 1, y: bottom - height - 1 },
    { x: right - width - 1, y: bottom - height - 1 },
    { x: right - width - 1, y: grid.topMm + 1 },
    { x: grid.leftMm + 1, y: grid.topMm + 1 },
  ]
  const taken = countTaken(grid)
  const counts = corners.map(({ x, y }) => taken(x, y, x + width, y + height))
  return corners[counts.indexOf(Math.min(...counts))] ?? { x: 0, y: 0 }
}
