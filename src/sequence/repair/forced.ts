/** Links between steps that no order can do without. */
import { type Arc, addArc, type Closure, isBefore } from "./closure.ts"
import type { Condition, Problem } from "./problem.ts"

/**
 * A link and the condition it comes from: `gives`: `from` gives what `to` needs; `takes`: `to` ends what `from` needs;
 * `again`: `to` gives again what `from` ended, for the step of the condition.
 */
export type ReasonedArc = Arc & { readonly kind: "gives" | "takes" | "again"; readonly condition: Condition }

/** Conditions with more pairs of givers and takers than this are left to the search. */
const mostPairs = 400

/** Links that follow from one condition alone: one supplier, or what holds on arrival and is only ever taken. Undefined when one cannot be met. */
export function listPlainArcs(problem: Problem): readonly ReasonedArc[] | undefined {
  const arcs: ReasonedArc[] = []
  for (const condition of problem.conditions) {
    const { step, fact } = condition
    const { isInitial, givers, takers } = problem.facts[fact] ?? noFact
    const [only, ...more] = givers.length > 2 ? givers : givers.filter((giver) => giver !== step)
    if (more.length > 0) continue
    if (only === undefined) {
      if (!isInitial || (step === problem.count && takers.length > 0)) return undefined
      for (const taker of takers) if (taker !== step) arcs.push({ from: step, to: taker, kind: "takes", condition })
    } else if (!isInitial && step < problem.count) arcs.push({ from: only, to: step, kind: "gives", condition })
  }
  return arcs
}

const noFact = { isInitial: true, givers: [], takers: [] }

/** Conditions that leave a choice: several suppliers, or one and somebody who takes away. */
export function listOpenConditions(problem: Problem): readonly Condition[] {
  return problem.conditions.filter(({ fact }) => {
    const { isInitial, givers, takers } = problem.facts[fact] ?? noFact
    if (givers.length === 0 || givers.length * Math.max(1, takers.length) > mostPairs) return false
    return isInitial ? takers.length > 0 : givers.length > 1 || takers.length > 0
  })
}

/**
 * Adds in place every link that the closure leaves as the only way to meet an open condition, until none is left.
 * False when a condition cannot be met any more. `onArc` hears of each link that was new.
 */
export function addForced(
  problem: Problem,
  open: readonly Condition[],
  closure: Closure,
  onArc?: (arc: ReasonedArc) => void,
): boolean {
  let didChange = true
  const add = (arc: ReasonedArc): boolean => {
    if (arc.to === problem.count || isBefore(closure, arc.from, arc.to)) return true
    didChange = true
    onArc?.(arc)
    return addArc(closure, arc)
  }
  while (didChange) {
    didChange = false
    for (const condition of open) {
      const { step, fact } = condition
      const { isInitial, givers, takers } = problem.facts[fact] ?? noFact
      const suppliers = givers.filter((giver) => giver !== step && !isBehind(problem, closure, giver, step))
      if (!isInitial) {
        const [only, other] = suppliers
        if (only === undefined) return false
        if (other === undefined && !add({ from: only, to: step, kind: "gives", condition })) return false
      }
      for (const taker of takers) {
        if (taker === step || isBehind(problem, closure, taker, step)) continue
        // Suppliers that can still come between the taker and the step.
        let between = -1
        let number = 0
        for (const giver of suppliers)
          if (!isBefore(closure, giver, taker)) {
            between = giver
            number += 1
          }
        if (number === 0) {
          if (step === problem.count || !add({ from: step, to: taker, kind: "takes", condition })) return false
        } else if (number === 1 && isAhead(problem, closure, taker, step)) {
          if (!add({ from: taker, to: between, kind: "again", condition })) return false
          if (!add({ from: between, to: step, kind: "gives", condition })) return false
        }
      }
    }
  }
  return true
}

/** Tells whether a step must come after the step of a condition; nothing comes after the end. */
export function isBehind(problem: Problem, closure: Closure, one: number, step: number): boolean {
  return step < problem.count && isBefore(closure, step, one)
}

/** Tells whether a step must come before the step of a condition; all come before the end. */
function isAhead(problem: Problem, closure: Closure, one: number, step: number): boolean {
  return step === problem.count || isBefore(closure, one, step)
}
