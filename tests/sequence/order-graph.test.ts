import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { buildPlan, explainOrder, proveSequence, renderOrderDot, renderOrderSvg } from "../../src/sequence/index.ts"
import { countStates } from "../../src/sequence/order/count-states.ts"
import { type Layout, layOutGraph } from "../../src/sequence/order/graph-layout.ts"
import { countByHubs } from "../../src/sequence/order/hubs.ts"
import { cutPiece, numberPlan } from "../../src/sequence/order/piece.ts"
import { gauge } from "./gauge.ts"
import { makeLargeKit } from "./large-kit.ts"
import { anyArcs, anyPlan, isFullRun } from "./order-plans.ts"
import { emptyFit, type Small, smallKit } from "./small-kit.ts"

const explain = (small: Small) => {
  const kit = smallKit(small)
  const sequence = proveSequence(kit, emptyFit)
  const plan = buildPlan(kit, sequence)
  return { sequence, plan, report: explainOrder(plan) }
}

const box = { widthMm: 20, heightMm: 7 }

/** Boxes that overlap, lines that do not go down, and stretches of lines that run through a box. */
function badPlaces(layout: Layout): readonly string[] {
  const bad: string[] = []
  for (const [index, one] of layout.boxes.entries())
    for (const other of layout.boxes.slice(index + 1)) {
      const isApart =
        Math.abs(one.xMm - other.xMm) >= box.widthMm - 1e-6 || Math.abs(one.yMm - other.yMm) >= box.heightMm - 1e-6
      if (!isApart) bad.push(`boxes ${one.node} and ${other.node} overlap`)
    }
  for (const { link, points } of layout.lines)
    for (const [index, [x, y]] of points.entries()) {
      const [beforeX, beforeY] = points[index - 1] ?? [x, y]
      if (y < beforeY) bad.push(`line ${link} goes up`)
      // Curves stay within the space between rows; only upright stretches pass one.
      const isUpright = index > 0 && index % 2 === 0
      if (isUpright && Math.abs(x - beforeX) > 1e-6) bad.push(`line ${link} leans within a row`)
      for (const { node, xMm, yMm } of layout.boxes) {
        const isBeside = Math.abs(xMm - x) >= box.widthMm / 2
        const isAway = y <= yMm + 1e-6 || beforeY >= yMm + box.heightMm - 1e-6
        if (isUpright && !isBeside && !isAway) bad.push(`line ${link} runs through box ${node}`)
      }
    }
  return bad
}

describe("the layout of a graph", () => {
  test("boxes stay apart, lines go down and pass no box; the same again for equal input", () => {
    fc.assert(
      fc.property(anyArcs(isFullRun ? 30 : 18), ({ count, arcs }) => {
        const pairs = new Map(
          arcs.map(([from, to]) => [`${from} ${to}`, { from, to, kind: (from + to) % 3 === 0 ? "a" : "b" }]),
        )
        const input = { boxes: Array.from({ length: count }, () => box), links: [...pairs.values()], widthMm: 80 }
        const layout = layOutGraph(input)
        expect(badPlaces(layout)).toEqual([])
        expect(layout.boxes.map(({ node }) => node)).toEqual(Array.from({ length: count }, (_, node) => node))
        for (const { from, to } of input.links)
          expect(layout.boxes[from]?.yMm ?? 0).toBeLessThan(layout.boxes[to]?.yMm ?? 0)
        for (const { xMm } of layout.boxes) {
          expect(xMm - box.widthMm / 2).toBeGreaterThanOrEqual(-1e-6)
          expect(xMm + box.widthMm / 2).toBeLessThanOrEqual(layout.widthMm + 1e-6)
        }
        expect(layOutGraph(input)).toEqual(layout)
      }),
      { seed: 51, numRuns: isFullRun ? 1000 : 150 },
    )
  })

  test("two lines that need not cross do not", () => {
    const links = [
      { from: 0, to: 3, kind: "a" },
      { from: 1, to: 2, kind: "a" },
    ]
    const { boxes } = layOutGraph({ boxes: [box, box, box, box], links, widthMm: 80 })
    const x = (node: number): number => boxes[node]?.xMm ?? 0
    expect(Math.sign(x(0) - x(1))).toBe(Math.sign(x(3) - x(2)))
  })
})

describe("the graph of a kit", () => {
  const { plan, report } = explain(gauge)
  const titles = new Map([["hood", "Close the <hood> & screw it on"]])

  test("as DOT: one line for each link, with its kind and reason", () => {
    const lines = renderOrderDot(plan, report).split("\n")
    expect(lines).toContain('  s8 [label="8  hood"]')
    expect(lines.filter((line) => line.includes("->"))).toHaveLength(report.reduction.length)
    expect(lines.find((line) => line.startsWith("  s7 -> s8 "))).toBe(
      '  s7 -> s8 [style=dashed, tooltip="Step `hood` comes only after step `connect` connects `lead.plug` to `gauge.power`: `hood` hides `gauge.power`."]',
    )
  })

  test("as SVG: every step and reason, titles for readers, dashes by kind, three decimals at most", () => {
    const svg = renderOrderSvg(plan, report, titles)
    expect(svg).toBe(renderOrderSvg(plan, report, titles))
    for (const { id } of plan.steps) expect(svg).toContain(`>${id}</text>`)
    expect(svg).toContain("<title>Close the &lt;hood&gt; &amp; screw it on</title>")
    expect(svg).toContain('<title id="order-graph-title">Order of 10 steps</title>')
    expect(svg).toContain("7 connect before 8 hood")
    for (const { reason } of report.reduction) expect(svg).toContain(`<title>${reason}</title>`)
    expect(svg.match(/stroke-dasharray="2.2 1.2"/g)).toHaveLength(
      report.reduction.filter(({ kind }) => kind === "takes-away").length + 1,
    )
    expect(svg).not.toMatch(/\d\.\d{4}|NaN|undefined|Infinity/)
    expect(svg).not.toContain("declared")
  })

  test("60 steps: counted, and no wider than a sheet of A3 is long", () => {
    const large = explain(makeLargeKit(60))
    expect(large.sequence.faults).toEqual([])
    expect(large.report.validOrders.kind).toBe("exact")
    const svg = renderOrderSvg(large.plan, large.report, new Map())
    const [, width = "0", height = "0"] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg) ?? []
    // ISO 216: A3 is 297 by 420 mm.
    expect(Number(width)).toBeLessThan(420)
    expect(Number(height)).toBeLessThan(297)
  })
})

describe("orders counted by hubs", () => {
  test("as many as counted state by state", () => {
    let found = 0
    fc.assert(
      fc.property(anyPlan(11), (plan) => {
        const numbered = numberPlan(plan)
        const goals = new Set(numbered.goals)
        const all = plan.steps.map((_, index) => index)
        const piece = cutPiece(
          numbered,
          all,
          (fact) => numbered.initial.has(fact),
          (fact) => goals.has(fact),
        )
        fc.pre(piece !== undefined)
        if (piece === undefined) return
        const byHubs = countByHubs(numbered, piece, 400_000)
        if (byHubs === undefined) return
        found += byHubs.count > 0n ? 1 : 0
        expect(byHubs.count).toBe(countStates(numbered, piece, 400_000).count)
      }),
      { seed: 52, numRuns: isFullRun ? 4000 : 600 },
    )
    expect(found).toBeGreaterThan(30)
  })
})
