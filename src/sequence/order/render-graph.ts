/**
 * The graph of an order as DOT and as SVG: the steps and the links that no others imply. It is an aid for the maker and
 * no drawing of a document, so that its words may stand as text elements.
 */
import type { OrderReport, Plan, StepLink } from "../plan-types.ts"
import { type Layout, layOutGraph } from "./graph-layout.ts"

const bodyMm = 3.2
const lineMm = 4
const letterMm = 1.75
const padMm = 2.4
const rowWidthMm = 176
const marginMm = 7
/** Longer ids are broken at a hyphen. */
const longId = 15

const dashes: Readonly<Record<StepLink["kind"], string>> = {
  gives: "",
  "takes-away": ' stroke-dasharray="2.2 1.2"',
  declared: ' stroke-dasharray="0.01 1" stroke-linecap="round"',
}

const legend: readonly (readonly [StepLink["kind"], string])[] = [
  ["gives", "the upper step gives what the lower one needs"],
  ["takes-away", "the lower step would end what the upper one needs, or brings back what it ends"],
  ["declared", "declared: the maker keeps this order"],
]

/** Gives the graph in the language of Graphviz; each line has its reason as tooltip. */
export function renderOrderDot(plan: Plan, report: OrderReport): string {
  const quote = (text: string): string => `"${text.replace(/[\\"]/g, (sign) => `\\${sign}`)}"`
  const styles: Readonly<Record<StepLink["kind"], string>> = {
    gives: "solid",
    "takes-away": "dashed",
    declared: "dotted",
  }
  return [
    "digraph order {",
    "  rankdir=TB",
    '  node [shape=box, fontname="sans-serif"]',
    ...plan.steps.map(({ id }, index) => `  s${index + 1} [label=${quote(`${index + 1}  ${id}`)}]`),
    ...report.reduction.map(
      ({ from, to, kind, reason }) => `  s${from + 1} -> s${to + 1} [style=${styles[kind]}, tooltip=${quote(reason)}]`,
    ),
    "}",
    "",
  ].join("\n")
}

/**
 * Gives the graph as SVG in millimetres, black on white: numbered boxes in rows, every line going down. Up to 190 mm wide
 * where the links let it. `titles` holds the titles of steps by id, for the tooltip of a box; each line has its reason.
 */
export function renderOrderSvg(plan: Plan, report: OrderReport, titles: ReadonlyMap<string, string>): string {
  const labels = plan.steps.map(({ id }, index) => labelOf(id, index + 1))
  const layout = layOutGraph({ boxes: labels, links: report.reduction, widthMm: rowWidthMm })
  const kinds = legend.filter(([kind]) => report.reduction.some((link) => link.kind === kind))
  const legendWidthMm = Math.max(0, ...kinds.map(([, words]) => 16 + words.length * letterMm * 0.9))
  const width = Math.max(layout.widthMm, legendWidthMm) + 2 * marginMm
  const legendTop = layout.heightMm + 9
  const height = legendTop + kinds.length * 5 + 2 * marginMm
  const size = `width="${round(width)}mm" height="${round(height)}mm" viewBox="0 0 ${round(width)} ${round(height)}"`
  const shift = (width - 2 * marginMm - layout.widthMm) / 2
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" id="order-graph" ${size} role="img" aria-labelledby="order-graph-title order-graph-desc">`,
    `<title id="order-graph-title">Order of ${plan.steps.length} steps</title>`,
    `<desc id="order-graph-desc">${escapeText(describe(plan, report))}</desc>`,
    `<rect width="${round(width)}" height="${round(height)}" fill="#fff"/>`,
    `<g transform="translate(${round(marginMm + shift)} ${marginMm})" font-family="sans-serif" font-size="${bodyMm}" fill="#000">`,
    ...drawLines(layout, report.reduction),
    ...layout.boxes.flatMap((box) => {
      const label = labels[box.node]
      const id = plan.steps[box.node]?.id ?? ""
      return label === undefined ? [] : drawBox(box.xMm, box.yMm, label, titles.get(id) ?? id)
    }),
    "</g>",
    `<g transform="translate(${marginMm} ${round(marginMm + legendTop)})" font-family="sans-serif" font-size="${bodyMm}" fill="#000">`,
    ...kinds.flatMap(([kind, words], index) => [
      `<path d="M0 ${5 * index}H12" fill="none" stroke="#000" stroke-width="${strokeOf(kind)}"${dashes[kind]}/>`,
      `<text x="15" y="${round(5 * index + 1.1)}">${escapeText(words)}</text>`,
    ]),
    "</g>",
    "</svg>",
    "",
  ].join("\n")
}

type Label = {
  readonly number: string
  readonly lines: readonly string[]
  readonly widthMm: number
  readonly heightMm: number
}

function labelOf(id: string, number: number): Label {
  const lines = breakId(id)
  const letters = Math.max(...lines.map(({ length }) => length))
  const widthMm = 2 * padMm + numberWidth(String(number)) + letters * letterMm
  return { number: String(number), lines, widthMm, heightMm: 3.4 + lines.length * lineMm }
}

function numberWidth(number: string): number {
  return number.length * 2.1 + 2
}

/** Breaks a long id in two behind the hyphen next to its middle. */
function breakId(id: string): readonly string[] {
  if (id.length <= longId) return [id]
  const hyphens = [...id.matchAll(/-/g)].map(({ index }) => index)
  const [best] = hyphens.sort((one, other) => Math.abs(one + 1 - id.length / 2) - Math.abs(other + 1 - id.length / 2))
  return best === undefined ? [id] : [id.slice(0, best + 1), id.slice(best + 1)]
}

function drawBox(xMm: number, yMm: number, label: Label, title: string): readonly string[] {
  const left = xMm - label.widthMm / 2
  const baseline = yMm + label.heightMm / 2 + 1.15 - ((label.lines.length - 1) * lineMm) / 2
  const middle = yMm + label.heightMm / 2 + 1.15
  const textX = left + padMm + numberWidth(label.number)
  return [
    `<g><title>${escapeText(title)}</title>`,
    `<rect x="${round(left)}" y="${round(yMm)}" width="${round(label.widthMm)}" height="${round(label.heightMm)}" rx="1" fill="#fff" stroke="#000" stroke-width="0.35"/>`,
    `<text x="${round(left + padMm)}" y="${round(middle)}" font-weight="bold">${label.number}</text>`,
    ...label.lines.map(
      (line, index) => `<text x="${round(textX)}" y="${round(baseline + index * lineMm)}">${escapeText(line)}</text>`,
    ),
    "</g>",
  ]
}

/** Draws each stretch that several lines share once, or their dashes would fill each other's gaps. */
function drawLines(layout: Layout, links: readonly StepLink[]): readonly string[] {
  const drawn = new Set<string>()
  return layout.lines.flatMap(({ link, points }) => {
    const one = links[link]
    const [x, y] = points.at(-1) ?? [0, 0]
    if (one === undefined) return []
    const joins = points.findIndex((point, index) => {
      const key = `${one.kind} ${point.map(round).join(" ")} ${(points[index + 1] ?? []).map(round).join(" ")}`
      const isShared = drawn.has(key)
      drawn.add(key)
      return isShared
    })
    const own = joins < 0 ? points : points.slice(0, joins + 1)
    const path = pathOf(own, joins < 0)
    return [
      `<g><title>${escapeText(one.reason)}</title>`,
      `<path d="${path}" fill="none" stroke="#000" stroke-width="${strokeOf(one.kind)}"${dashes[one.kind]}/>`,
      ...(joins < 0 ? [`<path d="M${round(x)} ${round(y)}l-0.8 -2.4h1.6z"/>`] : []),
      "</g>",
    ]
  })
}

/** Points come in pairs that a curve joins, upright at both ends; between the pairs it runs straight through a row. */
function pathOf(points: readonly (readonly [number, number])[], hasHead: boolean): string {
  const parts: string[] = []
  for (const [index, [x, y]] of points.entries()) {
    const previous = points[index - 1]
    // The line ends at the root of the arrowhead.
    const bottom = hasHead && index === points.length - 1 ? y - 2 : y
    if (previous === undefined) parts.push(`M${round(x)} ${round(y)}`)
    else if (index % 2 === 0 || Math.abs(previous[0] - x) < 0.01) parts.push(`L${round(x)} ${round(bottom)}`)
    else {
      const middle = (previous[1] + bottom) / 2
      parts.push(`C${round(previous[0])} ${round(middle)} ${round(x)} ${round(middle)} ${round(x)} ${round(bottom)}`)
    }
  }
  return parts.join("")
}

function strokeOf(kind: StepLink["kind"]): number {
  return kind === "declared" ? 0.5 : 0.35
}

/** What the picture shows, for readers who do not see it. */
function describe(plan: Plan, report: OrderReport): string {
  const name = (step: number): string => `${step + 1} ${plan.steps[step]?.id ?? ""}`
  const links = report.reduction.map(({ from, to }) => `${name(from)} before ${name(to)}`)
  return links.length === 0 ? "The steps may be done in any order." : `${links.join("; ")}.`
}

function round(value: number): string {
  return String(Number(value.toFixed(3)) + 0)
}

function escapeText(text: string): string {
  const entities: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" }
  return text.replace(/[&<>"]/g, (sign) => entities[sign] ?? sign)
}
