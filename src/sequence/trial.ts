/** Tries what a finding wants to advise: what of the order is still broken after a step or an act is moved. */
import type { Kit } from "../kit/types.ts"
import { buildPlan } from "./plan.ts"
import type { Plan } from "./plan-types.ts"
import type { Action, FactKey, Sequence } from "./types.ts"

/** Keys of broken conditions: who has the need, and the fact. */
export type Broken = ReadonlySet<string>

/** `steps`: what is broken with the steps in this order; `acts`: with one act moved behind or before another. */
export type Trial = {
  readonly steps: (order: readonly string[]) => Broken
  readonly acts: (moved: string, place: "before" | "behind", other: string) => Broken
}

/** True when something is mended and nothing else broken. */
export function isBetter(after: Broken, before: Broken): boolean {
  return after.size < before.size && [...after].every((key) => before.has(key))
}

/** Prepares trials of one kit. Each is linear in the facts of all acts; acts are named by their path. */
export function prepareTrial(kit: Kit, sequence: Sequence): Trial {
  let plan: Plan | undefined
  return {
    steps: (order) => {
      plan ??= buildPlan(kit, sequence)
      return breakSteps(plan, order)
    },
    acts: (moved, place, other) => {
      const rest = sequence.actions.filter(({ act }) => act.path !== moved)
      const lifted = sequence.actions.filter(({ act }) => act.path === moved)
      const at = rest.findIndex(({ act }) => act.path === other)
      const cut = place === "behind" ? at + 1 : at
      return breakInOrder(sequence.initial, [...rest.slice(0, cut), ...lifted, ...rest.slice(cut)], sequence.goals)
    },
  }
}

function breakSteps({ initial, goals, steps, declared }: Plan, order: readonly string[]): Broken {
  const places = new Map(order.map((id, place) => [id, place]))
  const byId = new Map(steps.map((step) => [step.id, step]))
  const placeOf = (index: number): number => places.get(steps[index]?.id ?? "") ?? -1
  const late = declared.filter(({ before, after }) => placeOf(before) > placeOf(after))
  const walked = breakInOrder(
    initial,
    order.flatMap((id) => byId.get(id) ?? []),
    goals,
  )
  return new Set([...walked, ...late.map(({ before, after }) => `declared ${before} ${after}`)])
}

type Walked = Pick<Action, "id" | "needs" | "gives" | "takes">

function breakInOrder(
  initial: readonly FactKey[],
  order: readonly Walked[],
  goals: readonly { readonly fact: FactKey }[],
): Broken {
  const holds = new Set(initial)
  const broken = new Set<string>()
  const judge = (id: string, needs: readonly { readonly fact: FactKey }[]): void => {
    for (const { fact } of needs) if (!holds.has(fact)) broken.add(`${id} ${fact}`)
  }
  for (const { id, needs, gives, takes } of order) {
    judge(id, needs)
    for (const fact of takes) holds.delete(fact)
    for (const fact of gives) holds.add(fact)
  }
  judge("", goals)
  return broken
}
