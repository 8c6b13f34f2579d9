/** One plan for several variants of a kit: an order that is valid for it is valid for each of them. */
import type { DeclaredOrder, Plan, PlanNeed, PlanStep } from "./plan-types.ts"
import type { FactKey, Need } from "./types.ts"

/**
 * Joins the plans of variants whose steps share ids. Each variant keeps facts of its own, marked by `#` and its number
 * (a mark that `describeFact` leaves out); equal plans are taken once; a step that a variant lacks has no facts there.
 * `order` holds the ids in the order of the base; a step that only a variant has follows the one it follows there.
 * A single plan comes back as it is where its order agrees. Linear in the size of all plans.
 */
export function joinPlans(plans: readonly Plan[], order: readonly string[]): Plan {
  const different = [...new Map(plans.map((plan) => [JSON.stringify(plan), plan])).values()]
  const ids = mergeOrder(different, order)
  const [only] = different
  if (only !== undefined && different.length === 1 && only.steps.every(({ id }, index) => id === ids[index]))
    return only
  const indexOf = new Map(ids.map((id, index) => [id, index]))
  const steps = ids.map((id): JoinedStep => ({ id, needs: [], gives: [], takes: [], isPinned: false }))
  const initial: FactKey[] = []
  const goals: Need[] = []
  const declared = new Map<string, DeclaredOrder>()
  for (const [number, plan] of different.entries()) {
    const mark = (fact: FactKey): FactKey => `${fact}#variant-${number + 1}`
    for (const fact of plan.initial) initial.push(mark(fact))
    for (const need of plan.goals) goals.push({ ...need, fact: mark(need.fact) })
    for (const { id, needs, gives, takes, isPinned } of plan.steps) {
      const step = steps[indexOf.get(id) ?? -1]
      if (step === undefined) continue
      for (const need of needs) step.needs.push({ ...need, fact: mark(need.fact) })
      for (const fact of gives) step.gives.push(mark(fact))
      for (const fact of takes) step.takes.push(mark(fact))
      step.isPinned ||= isPinned
    }
    for (const { before, after, why } of plan.declared) {
      const from = indexOf.get(plan.steps[before]?.id ?? "") ?? -1
      const to = indexOf.get(plan.steps[after]?.id ?? "") ?? -1
      if (!declared.has(`${from} ${to}`)) declared.set(`${from} ${to}`, { before: from, after: to, why })
    }
  }
  return { initial, goals, steps, declared: [...declared.values()] }
}

/** A step while it is filled. */
type JoinedStep = Pick<PlanStep, "id"> & {
  readonly needs: PlanNeed[]
  readonly gives: FactKey[]
  readonly takes: FactKey[]
  isPinned: boolean
}

/** The ids of the base that any plan has, with the steps of variants behind the step each follows. */
function mergeOrder(plans: readonly Plan[], order: readonly string[]): readonly string[] {
  const known = new Set(order)
  // For each step, those that only variants have and that follow it; the empty id stands for the very front.
  const followers = new Map<string, string[]>()
  const used = new Set<string>()
  for (const { steps } of plans) {
    let previous = ""
    for (const { id } of steps) {
      used.add(id)
      if (!known.has(id)) {
        known.add(id)
        followers.set(previous, [...(followers.get(previous) ?? []), id])
      }
      previous = id
    }
  }
  const merged: string[] = []
  const open = ["", ...order].reverse()
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (used.has(id)) merged.push(id)
    for (const follower of [...(followers.get(id) ?? [])].reverse()) open.push(follower)
  }
  return merged
}
