/** Repairs against all orders of small plans, and properties of larger ones. Seeds are fixed and told on failure. */
import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { repairOrder } from "../../src/sequence/index.ts"
import type { Plan, PlanStep, Repair } from "../../src/sequence/plan-types.ts"
import type { listRequirements } from "../../src/sequence/repair/problem.ts"
import { anyArcs, anyPlan, isFullRun, permutations, precedencePlan } from "./order-plans.ts"
import { countLifts, isOrderValid, orderOfRepair } from "./plans.ts"

const runs = (few: number): { readonly seed: number; readonly numRuns: number } => ({
  seed: 20260131,
  numRuns: isFullRun ? few * 20 : few,
})

/** What trying all orders tells. */
type Tried = {
  readonly validCount: number
  /** Undefined when no order is valid. */
  readonly fewest: number | undefined
  readonly bestCount: number
  /** Least sum of |new place - old place| among the orders with the fewest moves. */
  readonly nearest: number
}

/** Steps to lift when pinned ones stay: what is on the wrong side of a pinned one, and all but the longest run of the rest. */
function countLiftsAround(plan: Plan, order: readonly number[]): number {
  const place = new Map(order.map((step, index) => [step, index]))
  const isPinned = (step: number): boolean => plan.steps[step]?.isPinned === true
  const rest = order.filter((step) =>
    order.every(
      (pin) => !isPinned(pin) || pin === step || pin < step === (place.get(pin) ?? 0) < (place.get(step) ?? 0),
    ),
  )
  return order.length - rest.length + countLifts(rest)
}

function tryAll(plan: Plan): Tried {
  let found: Tried = { validCount: 0, fewest: undefined, bestCount: 0, nearest: 0 }
  for (const order of permutations(plan.steps.length)) {
    if (!isOrderValid(plan, order)) continue
    const lifts = countLiftsAround(plan, order)
    const farness = farnessOf(order)
    const { fewest = Number.POSITIVE_INFINITY, bestCount, nearest } = found
    const validCount = found.validCount + 1
    if (lifts < fewest) found = { validCount, fewest: lifts, bestCount: 1, nearest: farness }
    else if (lifts > fewest) found = { ...found, validCount }
    else found = { validCount, fewest, bestCount: bestCount + 1, nearest: Math.min(nearest, farness) }
  }
  return found
}

function farnessOf(order: readonly number[]): number {
  return order.reduce((sum, step, place) => sum + Math.abs(step - place), 0)
}

/** Everything a repair says, held against all orders. */
function compareWithAll(plan: Plan): void {
  const { fewest, bestCount, nearest } = tryAll(plan)
  const repair = repairOrder(plan)
  if (fewest === undefined) {
    compareCore(plan, repair)
    return
  }
  const order = orderOfRepair(plan, repair)
  if (order === undefined) throw new Error(`it is ${repair.kind}`)
  expect(isOrderValid(plan, order)).toBe(true)
  expect(countLiftsAround(plan, order)).toBe(fewest)
  if (repair.kind !== "moved") {
    expect(fewest).toBe(0)
    return
  }
  expect(repair).toMatchObject({ isProved: true, atLeast: fewest, isLeastFar: true })
  expect(repair.moves).toHaveLength(fewest)
  expect(repair.moves.filter(({ step }) => plan.steps[step]?.isPinned === true)).toEqual([])
  for (const { step, after } of repair.moves) expect(order[order.indexOf(step) - 1]).toBe(after)
  expect(repair.others).toBe(bestCount === 1 ? "none" : "some")
  expect(farnessOf(order)).toBe(nearest)
}

/** The named requirements alone leave no order; without any one of them there is one. */
function compareCore(plan: Plan, repair: Repair): void {
  if (repair.kind !== "impossible") throw new Error(`no order is valid, told is ${repair.kind}`)
  expect(repair.isMinimal).toBe(true)
  expect(hasOrder(plan, repair.core)).toBe(false)
  for (const one of repair.core)
    expect(
      hasOrder(
        plan,
        repair.core.filter((other) => other !== one),
      ),
    ).toBe(true)
}

function hasOrder(plan: Plan, core: ReturnType<typeof listRequirements>): boolean {
  const steps = plan.steps.map((step, index): PlanStep => {
    const needs = core.flatMap((one) => (one.kind === "need" && one.step === index ? [one.need] : []))
    return { ...step, needs, isPinned: core.some((one) => one.kind === "pinned" && one.step === index) }
  })
  const goals = core.flatMap((one) => (one.kind === "goal" ? [one.need] : []))
  const declared = core.flatMap((one) => (one.kind === "declared" ? [one.order] : []))
  const rest = { ...plan, steps, goals, declared }
  return permutations(plan.steps.length).some((order) => isOrderValid(rest, order))
}

/** Pins some steps. */
function pinSome(plan: Plan, isPinned: readonly boolean[]): Plan {
  return { ...plan, steps: plan.steps.map((step, index) => ({ ...step, isPinned: isPinned[index] ?? false })) }
}

const somePins = fc
  .array(fc.integer({ min: 0, max: 4 }), { minLength: 7, maxLength: 7 })
  .map((list) => list.map((one) => one === 0))

/** A graph in some order, each arc by chance the other way round, so that circles occur. */
const anyGraphPlan = (most: number, mayTurn: boolean): fc.Arbitrary<Plan> =>
  anyArcs(most).chain(({ count, arcs }) =>
    fc
      .record({
        order: fc.shuffledSubarray(
          Array.from({ length: count }, (_, step) => step),
          { minLength: count },
        ),
        turned: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: arcs.length, maxLength: arcs.length }),
      })
      .map(({ order, turned }) =>
        precedencePlan(
          count,
          arcs.map(([one, other], index) => (mayTurn && turned[index] === 0 ? [other, one] : [one, other])),
          order,
        ),
      ),
  )

describe("against all orders", () => {
  test("plain precedence to 6 steps, circles too", () => {
    fc.assert(fc.property(anyGraphPlan(6, true), compareWithAll), runs(150))
  })

  test("plain precedence with pinned steps", () => {
    fc.assert(
      fc.property(anyGraphPlan(6, true), somePins, (plan, pins) => compareWithAll(pinSome(plan, pins))),
      runs(100),
    )
  })

  test("facts that come and go, to 6 steps", () => {
    fc.assert(fc.property(anyPlan(6), compareWithAll), runs(250))
  })

  test("facts that come and go, with pinned steps", () => {
    fc.assert(
      fc.property(anyPlan(6), somePins, (plan, pins) => compareWithAll(pinSome(plan, pins))),
      runs(150),
    )
  })

  test("7 steps", () => {
    fc.assert(
      fc.property(anyPlan(7), somePins, (plan, pins) => compareWithAll(pinSome(plan, pins))),
      runs(20),
    )
  })
})

/** A plan that is valid as it stands: a fact is needed only while it holds, and each step may end or give one. */
const anyValidPlan = (most: number): fc.Arbitrary<Plan> =>
  fc
    .array(fc.record({ needs: fc.array(fc.nat(60), { maxLength: 3 }), fact: fc.nat(3), acts: fc.nat(9) }), {
      minLength: 2,
      maxLength: most,
    })
    .map((rows) => {
      const holds = new Set(["toggle-0", "toggle-1"])
      const initial = [...holds]
      const steps = rows.map(({ needs, fact, acts }, index): PlanStep => {
        const known = [...holds]
        const wanted = [...new Set(needs.map((one) => known[one % known.length] ?? ""))].filter((one) => one !== "")
        const toggle = `toggle-${fact}`
        const isTaken = acts < 3 && holds.delete(toggle)
        const isGiven = acts === 3 && !holds.has(toggle)
        if (isGiven) holds.add(toggle)
        holds.add(`done-${index}`)
        return {
          id: `s${index}`,
          needs: wanted.map((one) => ({ fact: one, why: `it uses ${one}`, act: "works" })),
          gives: [`done-${index}`, ...(isGiven ? [toggle] : [])],
          takes: isTaken ? [toggle] : [],
          isPinned: false,
        }
      })
      return { initial, goals: [], steps, declared: [] }
    })

const someLifts = fc.array(fc.tuple(fc.nat(200), fc.nat(200)), { minLength: 1, maxLength: 6 })

function lift(plan: Plan, lifts: readonly (readonly [number, number])[]): Plan {
  const steps = [...plan.steps]
  for (const [from, to] of lifts) {
    const taken = steps.splice(from % steps.length, 1)
    steps.splice(to % (steps.length + 1), 0, ...taken)
  }
  return { ...plan, steps }
}

describe("properties", () => {
  test("a valid order is valid; after so many lifts no more moves are needed", () => {
    fc.assert(
      fc.property(anyValidPlan(40), someLifts, (plan, lifts) => {
        expect(repairOrder(plan)).toEqual({ kind: "valid" })
        const faulty = lift(plan, lifts)
        const repair = repairOrder(faulty)
        const order = orderOfRepair(faulty, repair)
        if (order === undefined) throw new Error(`it is ${repair.kind}`)
        expect(isOrderValid(faulty, order)).toBe(true)
        if (repair.kind !== "moved") return
        expect(countLifts(order)).toBe(repair.moves.length)
        expect(repair.atLeast).toBeLessThanOrEqual(lifts.length)
        if (repair.isProved) expect(repair.moves.length).toBeLessThanOrEqual(lifts.length)
      }),
      runs(150),
    )
  })

  test("plain precedence: the chains prove the moves, and one more arc never needs fewer", () => {
    const lines = fc.tuple(fc.nat(59), fc.nat(59))
    fc.assert(
      fc.property(anyGraphPlan(60, false), lines, (plan, [one, other]) => {
        const moves = movesOf(plan)
        const count = plan.steps.length
        const added = { before: one % count, after: other % count, why: "added" }
        if (added.before === added.after) return
        const more = repairOrder({ ...plan, declared: [...plan.declared, added] })
        if (more.kind === "moved") expect(more.moves.length).toBeGreaterThanOrEqual(moves)
        if (more.kind === "valid") expect(moves).toBe(0)
      }),
      runs(150),
    )
  })
})

function movesOf(plan: Plan): number {
  const repair = repairOrder(plan)
  if (repair.kind === "valid") return 0
  if (repair.kind !== "moved") throw new Error(`it is ${repair.kind}`)
  const { order, moves, chains } = repair
  expect(isOrderValid(plan, order)).toBe(true)
  expect(countLifts(order)).toBe(moves.length)
  expect(chains.reduce((sum, { steps }) => sum + steps.length - 1, 0)).toBe(moves.length)
  const members = chains.flatMap(({ steps }) => steps)
  expect(new Set(members).size).toBe(members.length)
  return moves.length
}
