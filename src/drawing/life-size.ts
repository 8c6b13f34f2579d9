/** Side views at actual size, with a millimetre scale under them, to tell look-alike fasteners apart. */
import type { Fastener } from "../fasteners/types.ts"
import type { Fit } from "../fit/types.ts"
import type { Kit, Tie } from "../kit/types.ts"
import type { Mesh } from "../solids/types.ts"
import { chainLines } from "./chain-lines.ts"
import { buildFastenerSolid } from "./fastener-solid.ts"
import { flattenScene } from "./flatten.ts"
import { measureLettering, strokeLettering } from "./glyphs.ts"
import { traceLines } from "./hidden-lines.ts"
import { boundsOf, fillItemBuffer } from "./item-buffer.ts"
import { makeLineSet } from "./merge-lines.ts"
import { prepareMesh } from "./prepare-mesh.ts"
import { makeView, type View } from "./projection.ts"
import type { Drawing, Stroke } from "./types.ts"
import { restPose } from "./vector.ts"

/** Fasteners are built along z; the head is drawn at the left. */
const sideView = makeView("side", [0, -1, 0], [1, 0, 0])
/** Washers and nuts tell more from their flat side. */
const planView = makeView("plan", [0, 0, 1], [0, 1, 0])
const gapMm = 2
const tickMm = 1.2
const figureMm = 2.5

/** One drawing for each fastener and tie of the box, keyed by box item. Scale 1:1; things longer than the column are broken off. */
export function drawItems(kit: Kit, fit: Fit, columnMm: number): Readonly<Record<string, Drawing>> {
  const items: Record<string, Drawing> = {}
  for (const box of fit.box) {
    if (box.kind === "fastener" && box.fastener !== undefined) {
      items[box.item] = drawFastenerItem(box.item, box.fastener)
    }
    const tie = box.kind === "tie" ? kit.ties.find(({ id }) => id === box.id) : undefined
    if (tie !== undefined) items[box.item] = drawTieItem(box.item, tie, columnMm)
  }
  return items
}

/** Side view of one fastener at actual size. The scale counts from the bearing face of the head, as lengths are told. */
function drawFastenerItem(id: string, fastener: Fastener): Drawing {
  const isFlat = fastener.kind === "washer" || fastener.kind === "nut"
  const lines = traceView(buildFastenerSolid(fastener), isFlat ? planView : sideView)
  const isScrew = fastener.kind === "screw"
  const zeroMm = isScrew && fastener.head !== "countersunk" ? lines.headMm : 0
  const measuredMm = isScrew ? (fastener.lengthMm ?? lines.widthMm - zeroMm) : lines.widthMm
  return finish(id, lines.strokes, lines.widthMm, lines.heightMm, zeroMm, measuredMm)
}

/** A tie laid flat from above: head and strap. A strap longer than the column is broken off with a gap. */
function drawTieItem(id: string, tie: Tie, columnMm: number): Drawing {
  const headMm = 1.5 * tie.widthMm
  const highMm = 1.4 * tie.widthMm
  const lengthMm = Math.min(tie.lengthMm, columnMm - 3)
  const top = (highMm - tie.widthMm) / 2
  const bottom = top + tie.widthMm
  const isBroken = tie.lengthMm > lengthMm
  const end = lengthMm
  const tipMm = Math.min(8, 1.2 * tie.widthMm)
  const strokes: Stroke[] = [stroke([0, 0, headMm, 0, headMm, highMm, 0, highMm], true)]
  if (isBroken) {
    const breakAt = end - 18
    strokes.push(stroke([breakAt, top, headMm, top], false), stroke([headMm, bottom, breakAt, bottom], false))
    const after = breakAt + 3
    strokes.push(
      stroke(
        [
          after,
          top,
          end - tipMm,
          top,
          end,
          top + 0.3 * tie.widthMm,
          end,
          bottom - 0.3 * tie.widthMm,
          end - tipMm,
          bottom,
          after,
          bottom,
        ],
        false,
      ),
    )
    for (const at of [breakAt, after]) strokes.push(zigzag(at, top - 0.8, bottom + 0.8))
  } else {
    strokes.push(
      stroke(
        [
          headMm,
          top,
          end - tipMm,
          top,
          end,
          top + 0.3 * tie.widthMm,
          end,
          bottom - 0.3 * tie.widthMm,
          end - tipMm,
          bottom,
          headMm,
          bottom,
        ],
        false,
      ),
    )
  }
  const shown = isBroken ? Math.floor((end - 20) / 10) * 10 : end
  return finish(id, strokes, end, highMm, 0, shown)
}

function stroke(points: readonly number[], isClosed: boolean): Stroke {
  return { role: "new", points, isClosed, of: undefined }
}

function zigzag(x: number, top: number, bottom: number): Stroke {
  const middle = (top + bottom) / 2
  return {
    role: "dimension",
    points: [x, top, x, middle - 0.8, x + 0.7, middle - 0.4, x - 0.7, middle + 0.4, x, middle + 0.8, x, bottom],
    isClosed: false,
    of: undefined,
  }
}

function traceView(mesh: Mesh, view: View): { strokes: Stroke[]; widthMm: number; heightMm: number; headMm: number } {
  const flat = flattenScene([{ id: "item", mesh: prepareMesh(mesh), pose: restPose }], view)
  const bounds = boundsOf(flat) ?? { left: 0, top: 0, right: 1, bottom: 1 }
  const { visible } = traceLines(flat, fillItemBuffer(flat, 400))
  const set = makeLineSet()
  const fresh: number[] = []
  for (let index = 0; index < visible.points.length; index += 4) {
    const [ax = 0, ay = 0, bx = 0, by = 0] = visible.points.slice(index, index + 4)
    fresh.push(...set.add(ax - bounds.left, ay - bounds.top, bx - bounds.left, by - bounds.top))
  }
  const strokes = chainLines(fresh).map(({ points, isClosed }) => stroke(points, isClosed))
  return { strokes, widthMm: bounds.right - bounds.left, heightMm: bounds.bottom - bounds.top, headMm: -bounds.left }
}

/** Adds the scale from `zeroMm` over `measuredMm`, a figure every 10 mm, and sets the paper. */
function finish(
  id: string,
  lines: readonly Stroke[],
  widthMm: number,
  heightMm: number,
  zeroMm: number,
  measuredMm: number,
): Drawing {
  const base = heightMm + gapMm
  const strokes: Stroke[] = [...lines]
  const last = Math.floor(measuredMm + 1e-6)
  const rule = (points: readonly number[]): void =>
    void strokes.push({ role: "dimension", points, isClosed: false, of: undefined })
  rule([zeroMm, base, zeroMm + measuredMm, base])
  for (let at = 0; at <= last; at += 1) {
    const long = at % 10 === 0 ? 2 : at % 5 === 0 ? 1.5 : 1
    rule([zeroMm + at, base, zeroMm + at, base + tickMm * long])
  }
  const figures = Array.from({ length: Math.floor(last / 10) + 1 }, (_, index) => 10 * index)
  for (const figure of figures) {
    const text = String(figure)
    const x = zeroMm + figure - measureLettering(text, figureMm) / 2
    for (const points of strokeLettering(text, figureMm, x, base + 2 * tickMm + 1 + figureMm)) {
      strokes.push({ role: "triad", points, isClosed: false, of: undefined })
    }
  }
  const margin = 1.5
  const move = (points: readonly number[]): readonly number[] =>
    points.map((value, index) => Math.round((value + (index % 2 === 0 ? margin : 1)) * 1000) / 1000)
  return {
    id,
    step: undefined,
    widthMm: Math.round((Math.max(widthMm, zeroMm + measuredMm + 1.4) + 2 * margin) * 100) / 100,
    heightMm: Math.round((base + 2 * tickMm + 1 + figureMm + 2) * 100) / 100,
    strokes: strokes.map((one) => ({ ...one, points: move(one.points) })),
    fills: [],
    references: [],
    view: { name: "side", from: sideView.from, up: sideView.up, isTurned: false },
    scale: 1,
    shows: { placed: [], fastened: [], context: [], exploded: false },
  }
}
