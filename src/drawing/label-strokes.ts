/** Strokes of placed references: number, count, leader, and its dot or arrowhead. */
import { type PaperGrid, paperCell } from "./free-space.ts"
import { strokeLettering } from "./glyphs.ts"
import { lineStyles } from "./line-widths.ts"
import {
  type Candidate,
  countHeightMm,
  labelWidthMm,
  numberOffsetMm,
  type PlacedReference,
  referenceHeightMm,
} from "./references.ts"
import type { DrawnReference, Stroke } from "./types.ts"

/** A dot needs this much clear face round its middle. */
const dotRoomMm = lineStyles.dot.widthMm / 2 + 0.2
const headLongMm = 2
const headWideMm = 0.8
/** Clear space between number and leader. */
const clearMm = 1

type Drawn = { readonly strokes: Stroke[]; readonly references: DrawnReference[] }

/** Draws all placed references; `idOf` tells the id of a thing. */
export function drawReferences(
  placed: readonly PlacedReference[],
  candidates: readonly Candidate[],
  grid: PaperGrid,
  idOf: (item: number) => string,
): Drawn {
  const drawn: Drawn = { strokes: [], references: [] }
  for (const { candidate, anchor, x, y } of placed) {
    const wanted = candidates[candidate]
    if (wanted === undefined) continue
    const { itemReference, count } = wanted
    const id = idOf(anchor.item)
    const half = labelWidthMm(itemReference, count) / 2
    const base = y + referenceHeightMm / 2
    if (count > 1) letter(drawn, "count", `${count}×`, countHeightMm, x - half, base, id)
    letter(drawn, "reference", String(itemReference), referenceHeightMm, x - half + numberOffsetMm(count), base, id)
    const hasDot = anchor.roomMm >= dotRoomMm
    const end = hasDot ? anchor : edgeToward(grid, anchor, x, y)
    const start = leaveBox(x, y, half + clearMm, referenceHeightMm / 2 + clearMm, end.x, end.y)
    drawn.strokes.push({ role: "leader", points: [start.x, start.y, end.x, end.y], isClosed: false, of: id })
    drawn.strokes.push(
      hasDot
        ? { role: "dot", points: [end.x, end.y, end.x + 0.01, end.y], isClosed: false, of: id }
        : { role: "leader", points: head(start, end), isClosed: true, of: id },
    )
    const at = [x + half - (half - numberOffsetMm(count) / 2), y] as const
    drawn.references.push({ itemReference, count, at, anchor: [end.x, end.y], end: hasDot ? "dot" : "arrow", of: id })
  }
  return drawn
}

function letter(
  drawn: Drawn,
  role: "count" | "reference",
  text: string,
  heightMm: number,
  x: number,
  y: number,
  of: string,
): void {
  for (const points of strokeLettering(text, heightMm, x, y)) drawn.strokes.push({ role, points, isClosed: false, of })
}

/** First place on the way from a number to the anchor that shows the anchor's own thing. */
function edgeToward(
  grid: PaperGrid,
  anchor: PlacedReference["anchor"],
  x: number,
  y: number,
): { x: number; y: number } {
  const lengthMm = Math.hypot(anchor.x - x, anchor.y - y)
  const stepCount = Math.max(1, Math.ceil(lengthMm / 0.1))
  for (let step = 0; step <= stepCount; step += 1) {
    const px = x + ((anchor.x - x) * step) / stepCount
    const py = y + ((anchor.y - y) * step) / stepCount
    if (grid.item[paperCell(grid, px, py)] === anchor.item) return { x: px, y: py }
  }
  return anchor
}

/** Where a line from the middle of a box to a point leaves the box. */
function leaveBox(
  x: number,
  y: number,
  half: number,
  high: number,
  toX: number,
  toY: number,
): { x: number; y: number } {
  const dx = toX - x
  const dy = toY - y
  const share = Math.min(
    Math.abs(dx) < 1e-9 ? 1 : half / Math.abs(dx),
    Math.abs(dy) < 1e-9 ? 1 : high / Math.abs(dy),
    1,
  )
  return { x: x + dx * share, y: y + dy * share }
}

/** An arrowhead as one line that goes to and fro between tip and base closely enough to be solid. */
function head(start: { x: number; y: number }, end: { x: number; y: number }): readonly number[] {
  const length = Math.hypot(end.x - start.x, end.y - start.y) || 1
  const dx = (end.x - start.x) / length
  const dy = (end.y - start.y) / length
  const [bx, by] = [end.x - dx * headLongMm, end.y - dy * headLongMm]
  return [-0.5, -0.25, 0, 0.25, 0.5].flatMap((share) => {
    const aside = share * headWideMm
    return [end.x, end.y, bx - dy * aside, by + dx * aside]
  })
}
