/** Drawings as pictures of a document, always with a text alternative made from the data. */
import { renderSvg } from "../drawing/index.ts"
import type { Drawing } from "../drawing/types.ts"
import { type Context, findName, sayFasteners, sayName } from "./context.ts"
import type { Html } from "./render.ts"
import type { Sheet } from "./types.ts"

/** A numbered figure with its words. */
export type FigureView = {
  readonly id: string
  readonly label: string
  readonly caption: string
  readonly picture: Html
  /** Size of the drawing on paper, in mm. */
  readonly widthMm: number
  readonly heightMm: number
}

/** A drawing in the form that the sheet asks for. `prefix` keeps ids apart where many drawings share a page. */
export function renderPicture(sheet: Sheet, drawing: Drawing, prefix: string, alt: string): Html {
  const svg = renderSvg(drawing, prefix, { title: alt, description: "" })
  return toPicture(sheet, svg, alt, drawing.widthMm)
}

/** Any SVG of ours as an inline element or as an image with its text alternative. */
export function toPicture(sheet: Sheet, svg: string, alt: string, widthMm: number): Html {
  if (sheet.figures === "inline") return { html: svg }
  return {
    html: `<img style="width:${round(widthMm)}mm" alt="${escapeAttribute(alt)}" src="data:image/svg+xml,${encodeSvg(svg)}">`,
  }
}

/** Makes the figure of a step; undefined when the step has no drawing. */
export function viewStepFigure(context: Context, stepId: string, number: number): FigureView | undefined {
  const drawing = context.drawings.steps[stepId]
  if (drawing === undefined) return undefined
  const { words, sheet } = context
  const placed = sayPlaced(context, drawing.shows.placed)
  const fastened = drawing.shows.fastened.map(({ joint: id, count }) => sayFastened(context, id, count))
  const view = drawing.view.name
  const alt = shorten(words.steps.alt({ placed, fastened, isExploded: drawing.shows.exploded, view }), 200)
  const label = words.steps.figure(words.measures.number(number))
  return {
    id: `figure-${number}`,
    label,
    caption: words.steps.caption({ placed, fastened, view, isTurned: drawing.view.isTurned }),
    picture: renderPicture(sheet, drawing, `s${number}-`, alt),
    widthMm: drawing.widthMm,
    heightMm: drawing.heightMm,
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
    heightMm: drawings.overview.heightMm,
  }
}

/** `2 × saddle (1)` for pieces of one part, each part once, in the order given. */
function sayPlaced(context: Context, instances: readonly string[]): readonly string[] {
  const counts = new Map<string, number>()
  for (const id of instances) {
    const of = context.kit.instances.find((piece) => piece.id === id)?.of ?? id
    counts.set(of, (counts.get(of) ?? 0) + 1)
  }
  return [...counts].map(([id, count]) => {
    const name = sayName(context, id)
    return count === 1 ? name : `${context.words.measures.times(count)}\u00a0${name}`
  })
}

function sayFastened(context: Context, id: string, count: number): string {
  const joint = context.kit.joints.find((each) => each.id === id)
  if (joint !== undefined) return sayFasteners(context, joint, count)
  const own = context.kit.ownJoints.find((each) => each.id === id)
  const said = own === undefined ? findName(context, id).name : own.fastener.designation
  return `${context.words.measures.times(count)}\u00a0${said}`
}

/** Cuts a text alternative at the last whole word within a length. */
function shorten(text: string, length: number): string {
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

function round(value: number): string {
  return String(Number(value.toFixed(3)))
}
