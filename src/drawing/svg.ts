/** A drawing as SVG text: millimetres, no text elements, no scripts, readable in black and white. */
import { layerOrder, lineStyles } from "./line-widths.ts"
import type { Drawing, Fill, LineRole, Stroke } from "./types.ts"

/** Tint of new things under the lines. */
const tint = "#e3e9ee"

/**
 * Renders a drawing. `idPrefix` goes before every id, so that many drawings share one page; `alt` becomes its title and
 * description for screen readers. Hidden lines are left out. Same drawing, same text.
 */
export function renderSvg(
  drawing: Drawing,
  idPrefix: string,
  alt: { readonly title: string; readonly description: string },
): string {
  const titleId = `${idPrefix}-title`
  const descriptionId = `${idPrefix}-desc`
  const width = number(drawing.widthMm)
  const height = number(drawing.heightMm)
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" id="${escapeText(idPrefix)}" width="${width}mm" height="${height}mm"` +
      ` viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="${escapeText(titleId)} ${escapeText(descriptionId)}">`,
    `<title id="${escapeText(titleId)}">${escapeText(alt.title)}</title>`,
    `<desc id="${escapeText(descriptionId)}">${escapeText(alt.description)}</desc>`,
    ...renderFills(drawing.fills),
    ...layerOrder.flatMap((role) => renderRole(drawing.strokes, role)),
    "</svg>",
    "",
  ].join("\n")
}

function renderFills(fills: readonly Fill[]): readonly string[] {
  if (fills.length === 0) return []
  const path = fills.map(({ points }) => renderPath(points, true)).join("")
  return [`<path class="tint" fill="${tint}" fill-rule="evenodd" stroke="none" d="${path}"/>`]
}

function renderRole(strokes: readonly Stroke[], role: LineRole): readonly string[] {
  const own = strokes.filter((stroke) => stroke.role === role)
  if (own.length === 0) return []
  const { widthMm, dashMm, colour } = lineStyles[role]
  const dash = dashMm.length === 0 ? "" : ` stroke-dasharray="${dashMm.map(number).join(" ")}"`
  const cap = dashMm.length === 0 ? "round" : "butt"
  const path = own.map(({ points, isClosed }) => renderPath(points, isClosed)).join("")
  return [
    `<path class="${role}" fill="none" stroke="${colour}" stroke-width="${number(widthMm)}" stroke-linecap="${cap}"` +
      ` stroke-linejoin="round"${dash} d="${path}"/>`,
  ]
}

/** Absolute start, then relative lines in hundredths of a millimetre, summed without drift. */
function renderPath(points: readonly number[], isClosed: boolean): string {
  const parts: string[] = []
  let lastX = 0
  let lastY = 0
  for (let index = 0; index + 1 < points.length; index += 2) {
    const x = Math.round((points[index] ?? 0) * 100)
    const y = Math.round((points[index + 1] ?? 0) * 100)
    parts.push(
      index === 0 ? `M${hundredths(x)} ${hundredths(y)}` : `l${hundredths(x - lastX)} ${hundredths(y - lastY)}`,
    )
    lastX = x
    lastY = y
  }
  return parts.join("") + (isClosed ? "z" : "")
}

function hundredths(value: number): string {
  return number(value / 100)
}

/** At most three decimals, no exponent, no minus zero. */
function number(value: number): string {
  const rounded = Math.round(value * 1000) / 1000
  return String(rounded === 0 ? 0 : rounded)
}

function escapeText(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;")
}
