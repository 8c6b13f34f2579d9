import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { countOrders } from "../../src/sequence/order/count-orders.ts"
import type { Plan } from "../../src/sequence/plan-types.ts"
import { anyPlan, brokenBy, isFullRun, permutations, planStep, precedencePlan } from "./order-plans.ts"

const exact = (count: bigint | number): { kind: string; count: string } => ({ kind: "exact", count: String(count) })

describe("orders of well known graphs", () => {
  // Euler zigzag numbers: OEIS A000111.
  test.each([1, 1, 2, 5, 16, 61, 272, 1385, 7936, 50521].map((count, index) => [index + 1, count]))(
    "a fence of %i steps has %i",
    (count, orders) => {
      const arcs = Array.from({ length: count - 1 }, (_, index): readonly [number, number] =>
        index % 2 === 0 ? [index, index + 1] : [index + 1, index],
      )
      expect(countOrders(precedencePlan(count, arcs))).toEqual(exact(orders))
    },
  )

  // Linear extensions of the subsets of n things by inclusion: OEIS A046873.
  test.each([
    [1, 1],
    [2, 2],
    [3, 48],
    [4, 1_680_384],
  ])("the subsets of %i things have %i", (things, orders) => {
    const count = 2 ** things
    const arcs = Array.from({ length: count }, (_, set) => set).flatMap((set) =>
      Array.from({ length: things }, (_, thing) => 2 ** thing)
        .filter((bit) => (set & bit) === 0)
        .map((bit): readonly [number, number] => [set, set | bit]),
    )
    expect(countOrders(precedencePlan(count, arcs))).toEqual(exact(orders))
  })

  // Standard Young tableaux by the hook length formula (Frame, Robinson, Thrall 1954).
  test.each([
    [2, 4, 14],
    [2, 7, 429],
    [3, 3, 42],
    [4, 4, 24_024],
  ])("a grid of %i by %i has %i", (rows, columns, orders) => {
    const at = (row: number, column: number): number => row * columns + column
    const arcs = Array.from({ length: rows * columns }, (_, index) => index).flatMap((index) => {
      const [row, column] = [Math.floor(index / columns), index % columns]
      return [
        ...(row + 1 < rows ? [[index, at(row + 1, column)] as const] : []),
        ...(column + 1 < columns ? [[index, at(row, column + 1)] as const] : []),
      ]
    })
    expect(countOrders(precedencePlan(rows * columns, arcs))).toEqual(exact(orders))
  })

  // Scholl, A. (1993), Data of Assembly Line Balancing Problems, TH Darmstadt 16/93; counts by listing all orders.
  test("mertens has 45, bowman 16", () => {
    const mertens = [
      [1, 2],
      [1, 4],
      [2, 3],
      [2, 5],
      [4, 7],
      [5, 6],
    ]
    const bowman = [
      [1, 2],
      [2, 3],
      [2, 4],
      [3, 5],
      [3, 6],
      [4, 6],
      [5, 7],
      [6, 8],
    ]
    const plan = (count: number, arcs: readonly number[][]): Plan =>
      precedencePlan(
        count,
        arcs.map(([from = 1, to = 1]): readonly [number, number] => [from - 1, to - 1]),
      )
    expect(countOrders(plan(7, mertens))).toEqual(exact(45))
    expect(countOrders(plan(8, bowman))).toEqual(exact(16))
  })

  // D. G. Ullman, The Mechanical Design Process, ball-point pen: 5 connections, 3 before 4, 1 before 5: 5! / (2 * 2).
  test("a pen of 5 connections has 30", () => {
    const arcs = [
      [2, 3],
      [0, 4],
    ] as const
    expect(countOrders(precedencePlan(5, arcs))).toEqual(exact(30))
  })

  // Knuth's hook formula for a rooted tree: 5! / (5 * 3 * 1 * 1 * 1) = 8.
  test("a tree of 5 has 8", () => {
    const arcs = [
      [0, 1],
      [0, 2],
      [1, 3],
      [1, 4],
    ] as const
    expect(countOrders(precedencePlan(5, arcs))).toEqual(exact(8))
  })

  test("a circle has none; free steps have all", () => {
    const ring = [
      [0, 1],
      [1, 2],
      [2, 0],
    ] as const
    expect(countOrders(precedencePlan(4, ring))).toEqual(exact(0))
    expect(countOrders(precedencePlan(25, []))).toEqual(exact(15_511_210_043_330_985_984_000_000n))
    expect(countOrders(precedencePlan(0, []))).toEqual(exact(1))
  })
})

describe("orders with facts that come and go", () => {
  const lid: Plan = {
    initial: ["on:lid"],
    goals: [{ fact: "on:lid", why: "the lid belongs to the unit" }],
    steps: [
      planStep("open", "on:lid", "off:lid", "on:lid"),
      planStep("one", "off:lid", "", ""),
      planStep("two", "off:lid", "", ""),
      planStep("close", "off:lid", "on:lid", "off:lid"),
      planStep("free", "", "", ""),
    ],
    declared: [],
  }

  test("work under a lid stays between taking it off and putting it back", () => {
    // open, one and two in either order, close; the free step at any of 5 places.
    expect(countOrders(lid)).toEqual(exact(10))
  })

  test("a goal that nobody reaches, and a need that nobody meets, leave none", () => {
    expect(countOrders({ ...lid, goals: [{ fact: "tight:lid", why: "x" }] })).toEqual(exact(0))
    expect(countOrders({ ...lid, steps: [...lid.steps, planStep("late", "clean:lid", "", "")] })).toEqual(exact(0))
  })

  test("as many as plain trying finds, for random plans of up to 7 steps", () => {
    const orders = new Map([1, 2, 3, 4, 5, 6, 7].map((count) => [count, permutations(count)]))
    let some = 0
    fc.assert(
      fc.property(anyPlan(isFullRun ? 7 : 6), (plan) => {
        const valid = (orders.get(plan.steps.length) ?? []).filter((order) => brokenBy(plan, order).length === 0).length
        if (valid > 0) some += 1
        expect(countOrders(plan)).toEqual(exact(valid))
      }),
      { seed: 31, numRuns: isFullRun ? 800 : 1500 },
    )
    expect(some).toBeGreaterThan(200)
  })

  test("never more than there are when the cap is small", () => {
    const orders = new Map([1, 2, 3, 4, 5, 6].map((count) => [count, permutations(count)]))
    let less = 0
    fc.assert(
      fc.property(anyPlan(6), fc.integer({ min: 1, max: 20 }), (plan, cap) => {
        const valid = (orders.get(plan.steps.length) ?? []).filter((order) => brokenBy(plan, order).length === 0).length
        const { kind, count } = countOrders(plan, cap)
        if (kind === "exact") expect(count).toBe(String(valid))
        else {
          less += 1
          expect(BigInt(count)).toBeLessThanOrEqual(BigInt(valid))
          const isPresentValid =
            brokenBy(
              plan,
              plan.steps.map((_, index) => index),
            ).length === 0
          if (isPresentValid) expect(BigInt(count)).toBeGreaterThan(0n)
        }
      }),
      { seed: 32, numRuns: isFullRun ? 3000 : 700 },
    )
    expect(less).toBeGreaterThan(20)
  })
})

describe("large plans", () => {
  test("30000 steps in a chain have one order", () => {
    const arcs = Array.from({ length: 29_999 }, (_, index): readonly [number, number] => [index, index + 1])
    expect(countOrders(precedencePlan(30_000, arcs))).toEqual(exact(1))
  })

  test("two chains of 1000 mix in 2000 over 1000 ways", () => {
    const arcs = Array.from({ length: 1998 }, (_, index): readonly [number, number] => [index, index + 2])
    let ways = 1n
    for (let index = 1n; index <= 1000n; index += 1n) ways = (ways * (1000n + index)) / index
    expect(countOrders(precedencePlan(2000, arcs))).toEqual(exact(ways))
  })

  test("too many states give a bound that grows with the cap and stays below the count", () => {
    // A grid of 7 by 7: standard Young tableaux by the hook length formula (OEIS A039622); 14 over 7 = 3432 states.
    const arcs = Array.from({ length: 49 }, (_, index) => index).flatMap((index) => [
      ...(index < 42 ? [[index, index + 7] as const] : []),
      ...(index % 7 < 6 ? [[index, index + 1] as const] : []),
    ])
    const plan = precedencePlan(49, arcs)
    const few = countOrders(plan, 800)
    const more = countOrders(plan, 3300)
    const all = countOrders(plan)
    expect(all).toEqual(exact(475_073_684_264_389_879_228_560n))
    expect([few.kind, more.kind]).toEqual(["at-least", "at-least"])
    expect(BigInt(few.count)).toBeGreaterThan(0n)
    expect(BigInt(more.count)).toBeGreaterThan(BigInt(few.count))
    expect(BigInt(more.count)).toBeLessThan(BigInt(all.count))
  })

  test("many steps that hang together are counted in stretches of the present order", () => {
    // Two rows, each step after its neighbour on the left and every second one after the other row.
    const count = 400
    const arcs = Array.from({ length: count }, (_, index) => index).flatMap((index) => [
      ...(index + 4 < count ? [[index, index + 4] as const] : []),
      ...(index + 7 < count ? [[index, index + 7] as const] : []),
    ])
    const bound = countOrders(precedencePlan(count, arcs))
    expect(bound.kind).toBe("at-least")
    expect(BigInt(bound.count)).toBeGreaterThan(10n ** 60n)
    // The same backwards: the present order is faulty, so that nothing is claimed.
    const backwards = precedencePlan(
      count,
      arcs,
      Array.from({ length: count }, (_, index) => count - 1 - index),
    )
    expect(countOrders(backwards)).toEqual({ kind: "at-least", count: "0" })
  })
})
