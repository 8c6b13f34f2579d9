/**
 * Part of a plan whose valid orders are counted on their own: facts are numbers, and only those are left that an order
 * of these steps can decide.
 */
import type { Plan } from "../plan-types.ts"
import type { FactKey } from "../types.ts"

/** A plan with numbers for facts. Facts that no step and no goal needs are gone. */
export type NumberedPlan = {
  readonly needs: readonly (readonly number[])[]
  readonly gives: readonly (readonly number[])[]
  readonly takes: readonly (readonly number[])[]
  readonly initial: ReadonlySet<number>
  readonly goals: readonly number[]
  /** Steps that a declared order puts behind each step. */
  readonly followers: readonly (readonly number[])[]
}

/** Steps in their present order, ascending; which facts hold before the first of them, and must hold after the last. */
export type Piece = {
  readonly steps: readonly number[]
  readonly facts: readonly PieceFact[]
  /** Pairs of steps of which the first stands before the second in every valid order. */
  readonly arcs: readonly (readonly [number, number])[]
}

/** A fact that the order of the steps can decide; lists of steps, ascending. */
export type PieceFact = {
  readonly fact: number
  readonly holds: boolean
  readonly isGoal: boolean
  readonly needers: readonly number[]
  readonly givers: readonly number[]
  readonly takers: readonly number[]
  /** The arcs say all that there is to say about it. */
  readonly isInArcs: boolean
}

/** What is left of a part of the plan: no valid order, smaller pieces with a factor of their own, or a piece to be counted step by step. */
export type Split = { readonly factor: bigint; readonly pieces: readonly Piece[] } | "none" | "whole"

/** Numbers the facts of a plan. */
export function numberPlan(plan: Plan): NumberedPlan {
  const numbers = new Map<FactKey, number>()
  const numberOf = (fact: FactKey): number => {
    const known = numbers.get(fact)
    if (known !== undefined) return known
    numbers.set(fact, numbers.size)
    return numbers.size - 1
  }
  const needs = plan.steps.map((step) => [...new Set(step.needs.map(({ fact }) => numberOf(fact)))])
  const goals = [...new Set(plan.goals.map(({ fact }) => numberOf(fact)))]
  const known = (facts: readonly FactKey[]): readonly number[] =>
    [...new Set(facts)].flatMap((fact) => numbers.get(fact) ?? [])
  const followers: number[][] = plan.steps.map(() => [])
  for (const { before, after } of plan.declared) followers[before]?.push(after)
  return {
    needs,
    gives: plan.steps.map(({ gives }) => known(gives)),
    takes: plan.steps.map(({ gives, takes }) => known(takes.filter((fact) => !gives.includes(fact)))),
    initial: new Set(known(plan.initial)),
    goals,
    followers,
  }
}

/**
 * Takes some steps as a piece of their own. Gives undefined when no order of them can be valid for a reason that is
 * plain to see. Goals that none of the steps touches are not looked at.
 */
export function cutPiece(
  plan: NumberedPlan,
  steps: readonly number[],
  holdsBefore: (fact: number) => boolean,
  isGoal: (fact: number) => boolean,
): Piece | undefined {
  const members = new Set(steps)
  const touched = new Map<number, { needers: number[]; givers: number[]; takers: number[] }>()
  const touch = (fact: number): { needers: number[]; givers: number[]; takers: number[] } => {
    const known = touched.get(fact) ?? { needers: [], givers: [], takers: [] }
    touched.set(fact, known)
    return known
  }
  for (const step of steps) {
    for (const fact of plan.needs[step] ?? []) touch(fact).needers.push(step)
    for (const fact of plan.gives[step] ?? []) touch(fact).givers.push(step)
    for (const fact of plan.takes[step] ?? []) touch(fact).takers.push(step)
  }
  const facts: PieceFact[] = []
  const arcs: (readonly [number, number])[] = []
  for (const [fact, { needers, givers, takers }] of touched) {
    const holds = holdsBefore(fact)
    const goal = isGoal(fact)
    if (givers.length === 0 && !holds && (needers.length > 0 || goal)) return undefined
    if (givers.length === 0 && takers.length > 0 && goal) return undefined
    // Nothing ends it, nobody minds whether it holds, or it is enough that some step gives it.
    if (takers.length === 0 && holds) continue
    if (needers.length === 0 && (!goal || takers.length === 0)) continue
    const one: PieceFact = { fact, holds, isGoal: goal, needers, givers, takers, isInArcs: false }
    const isInArcs = addArcs(one, arcs)
    facts.push({ ...one, isInArcs })
  }
  for (const step of steps)
    for (const follower of plan.followers[step] ?? []) if (members.has(follower)) arcs.push([step, follower])
  const known = new Set(arcs.map(([from, to]) => `${from} ${to}`))
  const isBefore = (from: number, to: number): boolean => known.has(`${from} ${to}`)
  return {
    steps,
    facts: facts.map((one) => (one.isInArcs ? one : { ...one, isInArcs: settle(one, arcs, isBefore) })),
    arcs,
  }
}

/** Adds what every valid order must keep because of one fact; true when keeping it is enough. */
function addArcs({ holds, isGoal, needers, givers, takers }: PieceFact, arcs: (readonly [number, number])[]): boolean {
  const [giver] = givers
  const add = (from: number, to: number): void => {
    arcs.push([from, to])
  }
  if (givers.length === 0) {
    // It holds and only ends: whoever needs it comes before all that end it. Two that both need and end it make a circle.
    for (const needer of needers) for (const taker of takers) if (needer !== taker) add(needer, taker)
    return true
  }
  if (giver === undefined || givers.length > 1) return false
  if (isGoal) for (const taker of takers) add(taker, giver)
  if (holds) return false
  // A step that needs what only it gives makes a circle of one.
  for (const needer of needers) add(giver, needer)
  const lateTakers = takers.filter((taker) => needers.includes(taker))
  for (const taker of lateTakers) for (const needer of needers) if (needer !== taker) add(needer, taker)
  return isGoal || lateTakers.length === takers.length
}

/** Says by arcs what follows from those of other facts; true when that is then all there is to say about this one. */
function settle(
  { holds, isGoal, needers, givers, takers }: PieceFact,
  arcs: (readonly [number, number])[],
  isBefore: (from: number, to: number) => boolean,
): boolean {
  const [giver] = givers
  const [taker] = takers
  if (giver === undefined || givers.length > 1 || taker === undefined) return false
  if (holds)
    return (
      takers.length === 1 &&
      isBefore(taker, giver) &&
      needers.every((needer) => needer === taker || isBefore(needer, taker) || isBefore(giver, needer))
    )
  let isSettled = !isGoal
  for (const one of takers) {
    // Whoever ends it after its only giver ends it for good; whoever does before has nothing to end.
    if (isBefore(giver, one)) {
      for (const needer of needers) if (needer !== one && !isBefore(needer, one)) arcs.push([needer, one])
    } else isSettled &&= isBefore(one, giver)
  }
  return isSettled
}
