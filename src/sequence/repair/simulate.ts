/** Walks a plan in some order and tells which conditions it breaks. */
import type { Plan } from "../plan-types.ts"
import type { Condition, Problem } from "./problem.ts"

/** A broken condition. `taker` is the step that took the fact away last; -1 when it never held before. */
export type Violation = { readonly condition: Condition; readonly taker: number }

/** Gives the broken conditions of an order, in its order. Linear in the size of the problem. */
export function findViolations(problem: Problem, order: readonly number[]): readonly Violation[] {
  const { facts, conditionsOf, givenBy, takenBy, count } = problem
  const holds = new Uint8Array(facts.length)
  const taker = new Int32Array(facts.length).fill(-1)
  facts.forEach(({ isInitial }, fact) => {
    holds[fact] = isInitial ? 1 : 0
  })
  const broken: Violation[] = []
  const judge = (step: number): void => {
    for (const condition of conditionsOf[step] ?? [])
      if (holds[condition.fact] !== 1) broken.push({ condition, taker: taker[condition.fact] ?? -1 })
  }
  for (const step of order) {
    judge(step)
    for (const fact of takenBy[step] ?? []) {
      holds[fact] = 0
      taker[fact] = step
    }
    for (const fact of givenBy[step] ?? []) holds[fact] = 1
  }
  judge(count)
  return broken
}

/** Tells whether an order meets all needs, goals and declared orders of a plan, straight from the plan. */
export function isValidOrder(plan: Plan, order: readonly number[]): boolean {
  const holds = new Set(plan.initial)
  const placeOf = new Map(order.map((step, place) => [step, place]))
  if (placeOf.size !== plan.steps.length || order.length !== plan.steps.length) return false
  for (const index of order) {
    const step = plan.steps[index]
    if (step === undefined || !step.needs.every(({ fact }) => holds.has(fact))) return false
    for (const fact of step.takes) holds.delete(fact)
    for (const fact of step.gives) holds.add(fact)
  }
  if (!plan.goals.every(({ fact }) => holds.has(fact))) return false
  const place = (step: number): number => placeOf.get(step) ?? -1
  if (!plan.declared.every(({ before, after }) => place(before) < place(after))) return false
  const pinned = plan.steps.flatMap(({ isPinned }, step) => (isPinned ? [place(step)] : []))
  return pinned.every((one, index) => index === 0 || (pinned[index - 1] ?? -1) < one)
}
