import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { buildPlan, explainOrder, proveSequence } from "../../src/sequence/index.ts"
import { computeWidth, reduceDigraph } from "../../src/sequence/order/closure.ts"
import { buildDigraph, type Digraph, sortTopologically } from "../../src/sequence/order/digraph.ts"
import type { Plan, StepLink } from "../../src/sequence/plan-types.ts"
import { gauge } from "./gauge.ts"
import {
  anyArcs,
  anyPlan,
  brokenBy,
  isFullRun,
  permutations,
  planStep,
  precedencePlan,
  presentOrder,
} from "./order-plans.ts"
import { emptyFit, smallKit } from "./small-kit.ts"

const runs = (few: number): number => (isFullRun ? 10 * few : few)

/** First and last place at which a step breaks nothing that is whole now, by trying each. */
function triedPlaces(plan: Plan, step: number): readonly [number, number] {
  const order = presentOrder(plan)
  const now = new Set(brokenBy(plan, order))
  const others = order.filter((one) => one !== step)
  const places = order.filter((place) => {
    const moved = [...others.slice(0, place), step, ...others.slice(place)]
    return brokenBy(plan, moved).every((one) => now.has(one))
  })
  return [places[0] ?? -1, places.at(-1) ?? -1]
}

function keeps(order: readonly number[], links: readonly StepLink[]): boolean {
  return links.every(({ from, to }) => order.indexOf(from) < order.indexOf(to))
}

describe("how far each step moves", () => {
  test("as far as trying every place finds, for random plans of up to 8 steps, valid or faulty", () => {
    let valid = 0
    let free = 0
    fc.assert(
      fc.property(anyPlan(8), (plan) => {
        if (brokenBy(plan, presentOrder(plan)).length === 0) valid += 1
        for (const { step, earliest, latest } of explainOrder(plan).steps) {
          expect([step, earliest, latest]).toEqual([step, ...triedPlaces(plan, step)])
          if (earliest !== latest) free += 1
        }
      }),
      { seed: 41, numRuns: runs(1200) },
    )
    expect(valid).toBeGreaterThan(100)
    expect(free).toBeGreaterThan(500)
  })

  test("what holds a step is the step next to its last place, and there is one exactly where the list goes on", () => {
    fc.assert(
      fc.property(anyPlan(8), (plan) => {
        const order = presentOrder(plan)
        for (const { step, earliest, latest, heldBy } of explainOrder(plan).steps) {
          const others = order.filter((one) => one !== step)
          expect(heldBy.before === undefined).toBe(earliest === 0)
          expect(heldBy.after === undefined).toBe(latest === order.length - 1)
          if (heldBy.before !== undefined)
            expect([heldBy.before.from, heldBy.before.to]).toEqual([others[earliest - 1], step])
          if (heldBy.after !== undefined) expect([heldBy.after.from, heldBy.after.to]).toEqual([step, others[latest]])
        }
      }),
      { seed: 42, numRuns: runs(600) },
    )
  })
})

describe("links", () => {
  test("every order that keeps the reduction of a valid order is valid; its count is a lower bound", () => {
    const orders = new Map([1, 2, 3, 4, 5, 6].map((count) => [count, permutations(count)]))
    let kept = 0
    fc.assert(
      fc.property(anyPlan(6), (plan) => {
        fc.pre(brokenBy(plan, presentOrder(plan)).length === 0)
        const { reduction, validOrders, width } = explainOrder(plan)
        let count = 0
        for (const order of orders.get(plan.steps.length) ?? []) {
          if (!keeps(order, reduction)) continue
          count += 1
          expect(brokenBy(plan, order)).toEqual([])
        }
        kept += count
        expect(count).toBeGreaterThan(0)
        expect(BigInt(validOrders.count)).toBeGreaterThanOrEqual(BigInt(count))
        expect(width).toBe(triedWidth(plan.steps.length, reduction))
      }),
      { seed: 43, numRuns: runs(800) },
    )
    expect(kept).toBeGreaterThan(5000)
  })

  test("every link has a sentence with the names of both steps and what the need says", () => {
    fc.assert(
      fc.property(anyPlan(8), (plan) => {
        const { reduction, steps } = explainOrder(plan)
        const held = steps.flatMap(({ heldBy }) => [heldBy.before, heldBy.after].filter((link) => link !== undefined))
        for (const { from, to, reason } of [...reduction, ...held]) {
          expect(reason).toMatch(/^Step .*(says so of|declares it).*\.$/)
          for (const step of [from, to]) expect(reason).toContain(`\`${plan.steps[step]?.id}\``)
        }
      }),
      { seed: 44, numRuns: runs(500) },
    )
  })
})

/** Largest set of nodes without a way from one to another, by trying all sets. */
function triedWidth(count: number, arcs: readonly { readonly from: number; readonly to: number }[]): number {
  const reach = closureOf(count, arcs)
  let best = 0
  for (let set = 0; set < 2 ** count; set += 1) {
    const members = Array.from({ length: count }, (_, node) => node).filter((node) => (set & (1 << node)) !== 0)
    if (members.length <= best) continue
    if (members.every((one) => members.every((other) => !reach.has(`${one} ${other}`)))) best = members.length
  }
  return best
}

function closureOf(
  count: number,
  arcs: readonly { readonly from: number; readonly to: number }[],
): ReadonlySet<string> {
  const reach = new Set(arcs.map(({ from, to }) => `${from} ${to}`))
  for (let by = 0; by < count; by += 1)
    for (let one = 0; one < count; one += 1)
      for (let other = 0; other < count; other += 1)
        if (reach.has(`${one} ${by}`) && reach.has(`${by} ${other}`)) reach.add(`${one} ${other}`)
  return reach
}

function graphOf(count: number, arcs: readonly (readonly [number, number])[]): Digraph {
  return buildDigraph(
    count,
    arcs.map(([from]) => from),
    arcs.map(([, to]) => to),
  )
}

describe("reduction and width of graphs", () => {
  const ends = (arcs: readonly (readonly [number, number])[]) => arcs.map(([from, to]) => ({ from, to }))

  test("the reduction reaches the same and has no arc to spare", () => {
    fc.assert(
      fc.property(anyArcs(9), ({ count, arcs }) => {
        const kept = reduceDigraph(graphOf(count, arcs))
        // Arcs of the graph lie sorted by their first node.
        const sorted = [...arcs].sort(([one], [other]) => one - other)
        const left = kept.flatMap((arc) => (sorted[arc] === undefined ? [] : [sorted[arc]]))
        const reach = closureOf(count, ends(arcs))
        expect(closureOf(count, ends(left))).toEqual(reach)
        for (const arc of left) expect(closureOf(count, ends(left.filter((one) => one !== arc)))).not.toEqual(reach)
      }),
      { seed: 45, numRuns: runs(500) },
    )
  })

  test("the width is that of the largest set found by trying", () => {
    fc.assert(
      fc.property(anyArcs(9), ({ count, arcs }) => {
        expect(computeWidth(graphOf(count, arcs))).toBe(triedWidth(count, ends(arcs)))
      }),
      { seed: 46, numRuns: runs(500) },
    )
  })

  // Scholl, A. (1993), Data of Assembly Line Balancing Problems, TH Darmstadt 16/93: widths 3 and 2, no arc to spare.
  test("mertens is 3 wide, bowman 2", () => {
    const mertens = [
      [0, 1],
      [0, 3],
      [1, 2],
      [1, 4],
      [3, 6],
      [4, 5],
    ] as const
    const bowman = [
      [0, 1],
      [1, 2],
      [1, 3],
      [2, 4],
      [2, 5],
      [3, 5],
      [4, 6],
      [5, 7],
    ] as const
    expect(computeWidth(graphOf(7, mertens))).toBe(3)
    expect(computeWidth(graphOf(8, bowman))).toBe(2)
    expect(reduceDigraph(graphOf(8, bowman))).toHaveLength(8)
  })

  test("sorting keeps every arc and leaves out what hangs on a circle", () => {
    fc.assert(
      fc.property(anyArcs(9), ({ count, arcs }) => {
        const turned = arcs.map(([from, to]) => [count - 1 - from, count - 1 - to] as const)
        const order = [...sortTopologically(graphOf(count, turned))]
        expect([...order].sort((one, other) => one - other)).toEqual(Array.from({ length: count }, (_, node) => node))
        for (const [from, to] of turned) expect(order.indexOf(from)).toBeLessThan(order.indexOf(to))
      }),
      { seed: 47, numRuns: runs(300) },
    )
    expect([
      ...sortTopologically(
        graphOf(4, [
          [0, 1],
          [1, 2],
          [2, 1],
          [2, 3],
        ]),
      ),
    ]).toEqual([0])
  })
})

describe("the explanation of a kit", () => {
  const kit = smallKit(gauge)
  const plan = buildPlan(kit, proveSequence(kit, emptyFit))
  const report = explainOrder(plan)
  const stepOf = (id: string) => report.steps[plan.steps.findIndex((step) => step.id === id)]

  test("says where each need comes from", () => {
    const needs = stepOf("plate")?.needs.map(({ need, from }) => `${need.fact} from ${from ?? "arrival"}`)
    expect(needs).toEqual(["off:plate from arrival", "out:gauge.foot from 1", "out:foot from arrival"])
  })

  test("says what holds a step, in sentences with names", () => {
    expect(stepOf("plate")).toMatchObject({ earliest: 2, latest: 6 })
    expect(stepOf("plate")?.heldBy.before?.reason).toBe(
      "Step `plate` starts joint `foot` only after step `unscrew`, once the screws of `gauge.foot` are out: the unit's own screws `gauge.foot` still sit in the bore.",
    )
    expect(stepOf("connect")?.heldBy.after?.reason).toBe(
      "Step `hood` comes only after step `connect` connects `lead.plug` to `gauge.power`: `hood` hides `gauge.power`.",
    )
    expect(stepOf("feed")).toMatchObject({ earliest: 0, heldBy: { before: undefined } })
  })

  test("counts its orders", () => {
    // off, unscrew, plate | off, connect | feed, connect, then hood and on: 2 pads and mast mixed in, done at the end.
    expect(report.width).toBe(3)
    expect(report.validOrders).toEqual({ kind: "exact", count: "576" })
  })

  test("a fact that comes back is told by the step that brings it back", () => {
    const lid: Plan = {
      initial: ["shut:lid"],
      goals: [{ fact: "shut:lid", why: "an open `lid` covers nothing" }],
      steps: [planStep("open", "shut:lid", "open:lid", "shut:lid"), planStep("close", "", "shut:lid", "open:lid")],
      declared: [],
    }
    expect(explainOrder(lid).reduction).toEqual([
      {
        from: 0,
        to: 1,
        kind: "takes-away",
        reason:
          "Step `close` comes only after step `open`: with it `lid` is shut again, as it must be at the end: an open `lid` covers nothing.",
      },
    ])
  })

  test("30000 steps in a chain are explained without a stack", () => {
    const count = 30_000
    const arcs = Array.from({ length: count - 1 }, (_, index): readonly [number, number] => [index, index + 1])
    const { width, reduction, steps, validOrders } = explainOrder(precedencePlan(count, arcs))
    expect([width, reduction.length, validOrders.count]).toEqual([1, count - 1, "1"])
    expect(steps.every(({ step, earliest, latest }) => step === earliest && step === latest)).toBe(true)
  })
})
