/** A plan in numbers: what each order must meet, for the search. */
import type { Plan, Requirement } from "../plan-types.ts"
import type { FactKey } from "../types.ts"

/** A fact must hold when a step begins, or at the end. */
export type Condition = {
  /** Index of the step; the number of steps for what must hold at the end. */
  readonly step: number
  readonly fact: number
  readonly requirement: Requirement
}

/** A fact that some condition is about. Facts with the same steps are one. */
export type ProblemFact = {
  readonly isInitial: boolean
  /** Steps that give and that take it, ascending. */
  readonly givers: readonly number[]
  readonly takers: readonly number[]
}

export type Problem = {
  readonly count: number
  readonly facts: readonly ProblemFact[]
  /** Conditions that some order breaks, each once. */
  readonly conditions: readonly Condition[]
  /** By step: its conditions, and the facts it gives and takes. The last entry holds the conditions of the end. */
  readonly conditionsOf: readonly (readonly Condition[])[]
  readonly givenBy: readonly (readonly number[])[]
  readonly takenBy: readonly (readonly number[])[]
  readonly pinned: readonly number[]
}

/** Everything that an order of the plan must respect. */
export function listRequirements(plan: Plan): readonly Requirement[] {
  return [
    ...plan.steps.flatMap(({ needs }, step) => needs.map((need): Requirement => ({ kind: "need", step, need }))),
    ...plan.goals.map((need): Requirement => ({ kind: "goal", need })),
    ...plan.declared.map((order): Requirement => ({ kind: "declared", order })),
    ...plan.steps.flatMap(({ isPinned }, step): readonly Requirement[] => (isPinned ? [{ kind: "pinned", step }] : [])),
  ]
}

/**
 * Puts the requirements into numbers. Pinned steps keep their order among themselves; a declared order and each pair of
 * pinned steps become a fact that the earlier step gives. Linear in the size of the plan.
 */
export function compileProblem(plan: Plan, requirements: readonly Requirement[]): Problem {
  const count = plan.steps.length
  const events = indexEvents(plan)
  const initial = new Set(plan.initial)
  const facts: ProblemFact[] = []
  const numberOf = new Map<string, number>()
  const factOf = new Map<FactKey, number>()
  const conditionsOf: Condition[][] = Array.from({ length: count + 1 }, () => [])
  const known = new Set<string>()
  const numberFact = (fact: ProblemFact): number => {
    const signature = `${fact.isInitial}|${fact.givers.join()}|${fact.takers.join()}`
    const number = numberOf.get(signature) ?? facts.length
    if (number === facts.length) facts.push(fact)
    numberOf.set(signature, number)
    return number
  }
  const numberKey = (key: FactKey): number => {
    const { givers, takers } = events.get(key) ?? { givers: [], takers: [] }
    const number = factOf.get(key) ?? numberFact({ isInitial: initial.has(key), givers, takers })
    factOf.set(key, number)
    return number
  }
  const add = (step: number, fact: number, requirement: Requirement): void => {
    const { isInitial, takers } = facts[fact] ?? { isInitial: true, takers: [] }
    if (known.has(`${step} ${fact}`) || (isInitial && takers.every((taker) => taker === step))) return
    known.add(`${step} ${fact}`)
    conditionsOf[step]?.push({ step, fact, requirement })
  }
  const order = (before: number, after: number, requirement: Requirement): void =>
    add(after, numberFact({ isInitial: false, givers: [before], takers: [] }), requirement)
  const pinned: number[] = []
  for (const requirement of requirements) {
    if (requirement.kind === "need") add(requirement.step, numberKey(requirement.need.fact), requirement)
    else if (requirement.kind === "goal") add(count, numberKey(requirement.need.fact), requirement)
    else if (requirement.kind === "declared") order(requirement.order.before, requirement.order.after, requirement)
    else {
      const previous = pinned.at(-1)
      if (previous !== undefined) order(previous, requirement.step, requirement)
      pinned.push(requirement.step)
    }
  }
  const givenBy: number[][] = Array.from({ length: count }, () => [])
  const takenBy: number[][] = Array.from({ length: count }, () => [])
  for (const [fact, { givers, takers }] of facts.entries()) {
    for (const step of givers) givenBy[step]?.push(fact)
    for (const step of takers) takenBy[step]?.push(fact)
  }
  return { count, facts, conditions: conditionsOf.flat(), conditionsOf, givenBy, takenBy, pinned }
}

/** The steps that give and take each fact; what a step both gives and takes it gives. */
function indexEvents(
  plan: Plan,
): ReadonlyMap<FactKey, { readonly givers: readonly number[]; readonly takers: readonly number[] }> {
  const events = new Map<FactKey, { readonly givers: number[]; readonly takers: number[] }>()
  const eventsOf = (fact: FactKey): { readonly givers: number[]; readonly takers: number[] } => {
    const found = events.get(fact) ?? { givers: [], takers: [] }
    events.set(fact, found)
    return found
  }
  for (const [step, { gives, takes }] of plan.steps.entries()) {
    const given = new Set(gives)
    for (const fact of given) eventsOf(fact).givers.push(step)
    for (const fact of new Set(takes)) if (!given.has(fact)) eventsOf(fact).takers.push(step)
  }
  return events
}
