/** Plans made by hand for tests, and what can be said about an order without any code of `src`. */
import type { Plan, PlanStep, Repair } from "../../src/sequence/plan-types.ts"
import { brokenBy } from "./order-plans.ts"

/** A step in the words of planning: what it asks for, adds and deletes. */
export type SmallOperator = {
  readonly id: string
  readonly pre: readonly string[]
  readonly add: readonly string[]
  readonly del: readonly string[]
  readonly isPinned?: boolean
}

/** A plan whose steps stand as written. */
export function planOfOperators(
  init: readonly string[],
  goal: readonly string[],
  operators: readonly SmallOperator[],
): Plan {
  return {
    initial: init,
    goals: goal.map((fact) => ({ fact, why: `${fact} is wanted at the end` })),
    steps: operators.map(({ id, pre, add, del, isPinned = false }): PlanStep => {
      const needs = pre.map((fact) => ({ fact, why: `the test says so of ${fact}`, act: "acts" }))
      return { id, needs, gives: add, takes: del, isPinned }
    }),
    declared: [],
  }
}

/** The new order in words of indexes; the present one when it is valid, undefined when there is none. */
export function orderOfRepair(plan: Plan, repair: Repair): readonly number[] | undefined {
  if (repair.kind === "moved") return repair.order
  return repair.kind === "valid" ? plan.steps.map((_, index) => index) : undefined
}

/**
 * Steps that must be lifted out to turn the ascending order of indexes into this one: all but a longest ascending run,
 * which is their longest common subsequence. Quadratic on purpose: the plainest way.
 */
export function countLifts(order: readonly number[]): number {
  const longest: number[] = []
  for (const [place, step] of order.entries()) {
    let best = 0
    for (let before = 0; before < place; before += 1)
      if ((order[before] ?? 0) < step) best = Math.max(best, longest[before] ?? 0)
    longest.push(best + 1)
  }
  return order.length - Math.max(0, ...longest)
}

/** Tells whether an order of the steps does all that the plan asks for; pinned steps keep their order. */
export function isOrderValid(plan: Plan, order: readonly number[]): boolean {
  if (order.length !== plan.steps.length || new Set(order).size !== order.length) return false
  const pinned = order.filter((step) => plan.steps[step]?.isPinned === true)
  return brokenBy(plan, order).length === 0 && pinned.every((step, place) => (pinned[place - 1] ?? -1) < step)
}
