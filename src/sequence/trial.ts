/** Tries what a finding wants to advise: how much of the order is still broken after a step or an act is moved. */
import type { Kit } from "../kit/types.ts"
import { buildPlan } from "./plan.ts"
import type { Plan } from "./plan-types.ts"
import type { Action, FactKey, Sequence } from "./types.ts"

/** `steps`: broken conditions of the kit with its steps in this order. `acts`: of the acts, one moved behind or before another. */
export type Trial = {
  readonly steps: (order: readonly string[]) => number
  readonly acts: (moved: string, place: "before" | "behind", other: string) => number
}

/** Prepares trials of one kit. Each is linear in the facts of all acts; acts are named by their path. */
export function prepareTrial(kit: Kit, sequence: Sequence): Trial {
  let plan: Plan | undefined
  return {
    steps: (order) => {
      plan ??= buildPlan(kit, sequence)
      return countBrokenSteps(plan, order)
    },
    acts: (moved, place, other) => {
      const rest = sequence.actions.filter(({ act }) => act.path !== moved)
      const lifted = sequence.actions.filter(({ act }) => act.path === moved)
      const at = rest.findIndex(({ act }) => act.path === other)
      const cut = place === "behind" ? at + 1 : at
      return at < 0
        ? Number.POSITIVE_INFINITY
        : countBrokenActs(sequence, [...rest.slice(0, cut), ...lifted, ...rest.slice(cut)])
    },
  }
}

function countBrokenSteps({ initial, goals, steps, declared }: Plan, order: readonly string[]): number {
  const places = new Map(order.map((id, place) => [id, place]))
  const byId = new Map(steps.map((step) => [step.id, step]))
  const placeOf = (index: number): number => places.get(steps[index]?.id ?? "") ?? -1
  const holds = new Set(initial)
  let broken = declared.filter(({ before, after }) => placeOf(before) > placeOf(after)).length
  for (const id of order) {
    const step = byId.get(id)
    if (step === undefined) continue
    broken += walkOne(holds, step.needs, step)
  }
  return broken + goals.filter(({ fact }) => !holds.has(fact)).length
}

function countBrokenActs({ initial, goals }: Sequence, actions: readonly Action[]): number {
  const holds = new Set(initial)
  let broken = 0
  for (const action of actions) broken += walkOne(holds, action.needs, action)
  return broken + goals.filter(({ fact }) => !holds.has(fact)).length
}

function walkOne(
  holds: Set<FactKey>,
  needs: readonly { readonly fact: FactKey }[],
  { gives, takes }: { readonly gives: readonly FactKey[]; readonly takes: readonly FactKey[] },
): number {
  const broken = needs.filter(({ fact }) => !holds.has(fact)).length
  for (const fact of takes) holds.delete(fact)
  for (const fact of gives) holds.add(fact)
  return broken
}
