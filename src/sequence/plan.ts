/** The order as whole steps: the acts of each step folded into one, and the plans of several variants joined into one. */
import type { Kit } from "../kit/types.ts"
import { describeAct } from "./actions/build.ts"
import { findDeclared } from "./broken.ts"
import type { DeclaredOrder, Plan, PlanNeed, PlanStep } from "./plan-types.ts"
import type { Action, FactKey, Need, Sequence } from "./types.ts"

/**
 * Folds the acts of each step: what the step needs when it begins, and what holds after it. Left out is what no order
 * of the steps can change: a need that an earlier act of the same step ended, a need or goal that no other step gives
 * and that does not hold on arrival, a goal that is ended and never given again, a step that waits for itself.
 * The proof tells all of these. Linear in the number of facts of all acts.
 */
export function buildPlan(kit: Kit, sequence: Sequence): Plan {
  const actionsOf: Action[][] = kit.steps.map(() => [])
  for (const action of sequence.actions) actionsOf[action.stepIndex]?.push(action)
  const folded = kit.steps.map(({ id, pinned }, index): PlanStep => {
    return { id, ...foldActs(actionsOf[index] ?? []), isPinned: pinned !== undefined }
  })
  const initial = new Set(sequence.initial)
  const givers = countSteps(folded, ({ gives }) => gives)
  const takers = countSteps(folded, ({ takes }) => takes)
  const steps = folded.map((step): PlanStep => {
    const own = new Set(step.gives)
    const isGiven = ({ fact }: PlanNeed): boolean => (givers.get(fact) ?? 0) > (own.has(fact) ? 1 : 0)
    return { ...step, needs: step.needs.filter((need) => initial.has(need.fact) || isGiven(need)) }
  })
  const isReached = ({ fact }: Need): boolean => givers.has(fact) || (initial.has(fact) && !takers.has(fact))
  return { initial: [...initial], goals: sequence.goals.filter(isReached), steps, declared: declaredOrders(kit) }
}

/** The facts of the acts of one step, one after another, as those of one act. */
function foldActs(actions: readonly Action[]): Pick<PlanStep, "needs" | "gives" | "takes"> {
  const needs = new Map<FactKey, PlanNeed>()
  const holds = new Map<FactKey, boolean>()
  for (const { act, needs: wanted, gives, takes } of actions) {
    for (const { fact, why } of wanted)
      if (!holds.has(fact) && !needs.has(fact)) needs.set(fact, { fact, why, act: describeAct(act) })
    for (const fact of takes) holds.set(fact, false)
    for (const fact of gives) holds.set(fact, true)
  }
  const keysThat = (isTrue: boolean): readonly FactKey[] =>
    [...holds].flatMap(([fact, value]) => (value === isTrue ? [fact] : []))
  return { needs: [...needs.values()], gives: keysThat(true), takes: keysThat(false) }
}

function countSteps(
  steps: readonly PlanStep[],
  factsOf: (step: PlanStep) => readonly FactKey[],
): ReadonlyMap<FactKey, number> {
  const counts = new Map<FactKey, number>()
  for (const step of steps) for (const fact of factsOf(step)) counts.set(fact, (counts.get(fact) ?? 0) + 1)
  return counts
}

/**
 * The orders that the maker wrote. Steps kept first form a chain in front of all others, steps kept last one behind
 * them: a pinned step is not moved, so that their order among themselves stays what it is.
 */
function declaredOrders(kit: Kit): readonly DeclaredOrder[] {
  const written = findDeclared(kit)
    .filter(({ step, other }) => step !== other)
    .map(({ step, other, why }): DeclaredOrder => {
      return { before: other, after: step, why: why?.replace(/\.$/, "") ?? "as its `needs-after` says" }
    })
  const indexesOf = (pinned: "first" | "last" | undefined): readonly number[] =>
    kit.steps.flatMap((step, index) => (step.pinned === pinned ? [index] : []))
  const [first, free, last] = [indexesOf("first"), indexesOf(undefined), indexesOf("last")]
  const name = (index: number): string => `\`${kit.steps[index]?.id ?? ""}\``
  const links: DeclaredOrder[] = []
  const end = first.at(-1)
  const begin = last[0]
  const keepFirst = (before: number, after: number): void => {
    links.push({ before, after, why: `${name(before)} is kept first` })
  }
  const keepLast = (before: number, after: number): void => {
    links.push({ before, after, why: `${name(after)} is kept last` })
  }
  for (const [index, after] of first.slice(1).entries()) keepFirst(first[index] ?? 0, after)
  if (end !== undefined) for (const after of free) keepFirst(end, after)
  if (begin !== undefined) for (const before of free) keepLast(before, begin)
  if (end !== undefined && begin !== undefined && free.length === 0) keepFirst(end, begin)
  for (const [index, after] of last.slice(1).entries()) keepLast(last[index] ?? 0, after)
  return [...written, ...links]
}
