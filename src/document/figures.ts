/** Drawings as pictures of a document, always with a text alternative made from the data. */
import { renderSvg } from "../drawing/index.ts"
import type { Drawing } from "../drawing/types.ts"
import { type Context, sayFastener } from "./context.ts"
import { pieceKinds, sayName } from "./names.ts"
import type { Html } from "./render.ts"
import type { Taken } from "./taken.ts"
import type { Sheet } from "./types.ts"

/** A numbered figure with its words. */
export type FigureView = {
  readonly id: string
  readonly label: string
  readonly caption: string
  readonly picture: Html
  /** Width of the drawing on paper, in mm. */
  readonly widthMm: number
}

/** A figure whose size on paper is not settled yet. */
export type FigureDraft = Omit<FigureView, "picture" | "widthMm"> & { readonly drawing: Drawing; readonly alt: string }

/** A drawing in the form that the sheet asks for. `prefix` keeps ids apart where many drawings share a page. */
export function renderPicture(sheet: Sheet, drawing: Drawing, prefix: string, alt: string): Html {
  const svg = renderSvg(drawing, prefix, { title: alt, description: "" })
  return toPicture(sheet, svg, alt, drawing.widthMm)
}

/** How much of the millimetre scale of a life-size drawing is shown: with its numbers, ticks alone, or none of it. */
export type ScaleChoice = "numbered" | "ticks" | "none"

/** A life-size drawing cut to what is to be seen of it; for places with little room. */
export function cropLifeSize(drawing: Drawing, scale: ScaleChoice): Drawing {
  if (scale === "numbered") return drawing
  const piece = drawing.strokes.filter(({ role }) => role === "new" || role === "context")
  if (piece.length === 0) return drawing
  const bottomOfPiece = Math.max(...piece.flatMap(({ points }) => points.filter((_, index) => index % 2 === 1)))
  // Break marks of a long tie lie within the height of the piece, the scale below it; its numbers have their own role.
  const strokes = drawing.strokes.filter(({ role, points }) =>
    scale === "ticks"
      ? role !== "triad"
      : points.every((value, index) => index % 2 === 0 || value <= bottomOfPiece + 0.1),
  )
  const marginMm = 0.4
  const xs = strokes.flatMap(({ points }) => points.filter((_, index) => index % 2 === 0))
  const ys = strokes.flatMap(({ points }) => points.filter((_, index) => index % 2 === 1))
  const [left, top] = [Math.min(...xs) - marginMm, Math.min(...ys) - marginMm]
  return {
    ...drawing,
    widthMm: Math.max(...xs) + marginMm - left,
    heightMm: Math.max(...ys) + marginMm - top,
    strokes: strokes.map((stroke) => ({
      ...stroke,
      points: stroke.points.map((value, index) => value - (index % 2 === 0 ? left : top)),
    })),
    fills: [],
    references: [],
  }
}

/** Any SVG of ours as an inline element or as an image with its text alternative. */
export function toPicture(sheet: Sheet, svg: string, alt: string, widthMm: number): Html {
  if (sheet.figures === "inline") return { html: svg }
  return {
    html: `<img style="width:${round(widthMm, 3)}mm" alt="${escapeAttribute(alt)}" src="data:image/svg+xml,${encodeSvg(svg)}">`,
  }
}

/** Words the figure of a step; undefined when the step has no drawing. */
export function draftStepFigure(
  context: Context,
  stepId: string,
  number: number,
  taken: readonly Taken[],
): FigureDraft | undefined {
  const drawing = context.drawings.steps[stepId]
  if (drawing === undefined) return undefined
  const { words } = context
  const items = [...sayNew(context, drawing, taken), ...sayOwnCables(context, stepId)]
  const off = sayOff(context, stepId)
  const view = drawing.view.name
  return {
    id: `figure-${number}`,
    label: words.steps.figure(words.measures.number(number)),
    caption: words.steps.caption({ items, off, view, isTurned: drawing.view.isTurned }),
    alt: shorten(words.steps.alt({ items: [...items, ...off], isExploded: drawing.shows.exploded, view }), 200),
    drawing,
  }
}

/** Makes a figure at a scale of at most 1. */
export function renderFigure(
  sheet: Sheet,
  { id, label, caption, alt, drawing }: FigureDraft,
  scale: number,
): FigureView {
  const sized = scaleDrawing(drawing, scale)
  return { id, label, caption, picture: renderPicture(sheet, sized, `${id}-`, alt), widthMm: round(sized.widthMm, 1) }
}

/** A drawing made smaller. Lines keep the widths of their roles, which a scaled picture would not (ISO 128-2). */
function scaleDrawing(drawing: Drawing, scale: number): Drawing {
  if (scale === 1) return drawing
  const shrink = <T extends { readonly points: readonly number[] }>(shape: T): T => ({
    ...shape,
    points: shape.points.map((value) => value * scale),
  })
  return {
    ...drawing,
    widthMm: drawing.widthMm * scale,
    heightMm: drawing.heightMm * scale,
    scale: drawing.scale * scale,
    strokes: drawing.strokes.map(shrink),
    fills: drawing.fills.map(shrink),
  }
}

/** The finished view. */
export function viewOverview(context: Context): FigureView {
  const { words, kit, drawings, sheet } = context
  const alt = shorten(words.front.finishedAlt(kit.title, words.list(kit.parts.map((part) => part.name))), 200)
  return {
    id: "figure-1",
    label: words.steps.figure(words.measures.number(1)),
    caption: words.front.finished,
    picture: renderPicture(sheet, drawings.overview, "o-", alt),
    widthMm: drawings.overview.widthMm,
  }
}

/** What the step takes from the box, as far as the drawing points at it, and what it places of the buyer's own. */
function sayNew(context: Context, drawing: Drawing, taken: readonly Taken[]): readonly string[] {
  const { kit, words } = context
  const shown = new Set(drawing.references.map(({ itemReference }) => itemReference))
  const own = drawing.shows.placed.filter((id) => isBuyers(context, id))
  const counts = new Map<string, number>()
  const count = (name: string, by: number): unknown => counts.set(name, (counts.get(name) ?? 0) + by)
  for (const { item, count: pieces } of taken) {
    if (!shown.has(item.itemReference)) continue
    const name =
      item.fastener === undefined
        ? sayName(context, item.id ?? "", item.kind === "fastener" ? [] : [item.kind])
        : sayFastener(context, item.fastener, item.itemReference)
    count(name, pieces)
  }
  for (const id of own) count(sayName(context, id, pieceKinds), 1)
  for (const { id } of kit.assemblies)
    if (drawing.shows.placed.includes(id)) count(sayName(context, id, ["assembly"]), 1)
  return [...counts].map(([name, pieces]) => (pieces === 1 ? name : `${words.measures.times(pieces)}\u00a0${name}`))
}

/** What the step takes off the buyer's unit; it has no number in the drawing. */
function sayOff(context: Context, stepId: string): readonly string[] {
  const removed = context.sequence.steps.find(({ step }) => step === stepId)?.removed ?? []
  return removed.filter((id) => isBuyers(context, id)).map((id) => sayName(context, id, pieceKinds))
}

/** Cables of the buyer's own that the step leads through an opening or plugs in; they have no number in the drawing. */
function sayOwnCables(context: Context, stepId: string): readonly string[] {
  const { kit } = context
  const acts = kit.steps.find(({ id }) => id === stepId)?.acts ?? []
  const moved = acts.filter(({ verb }) => verb === "feed" || verb === "connect").map(({ target }) => target)
  return kit.cables
    .filter(({ itemReference, route }) => itemReference === undefined && route.length > 0)
    .filter(({ id, ends }) => moved.includes(id) || ends.some((end) => moved.includes(end.id)))
    .map(({ id }) => sayName(context, id, ["cable"]))
}

/** A unit of the buyer's, or a piece of one. */
function isBuyers({ kit }: Context, instance: string): boolean {
  return (
    kit.instances.some(({ id, owner }) => id === instance && owner === "unit") ||
    kit.parts.some(({ ownedBy, instances }) => ownedBy !== undefined && instances.includes(instance))
  )
}

/** Cuts a text alternative at the last whole word within a length. */
export function shorten(text: string, length: number): string {
  if (text.length <= length) return text
  const cut = text.slice(0, length - 1)
  return `${cut.slice(0, Math.max(cut.lastIndexOf(" "), 1)).replace(/[,:;]$/, "")}…`
}

function encodeSvg(svg: string): string {
  const standalone = svg.includes("xmlns=") ? svg : svg.replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"')
  return encodeURIComponent(standalone).replace(/'/g, "%27")
}

/** Escapes text for a quoted attribute. */
export function escapeAttribute(text: string): string {
  return text.replace(/&/g, "&amp;").replace(/"/g, "&quot;").replace(/</g, "&lt;").replace(/>/g, "&gt;")
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits))
}
