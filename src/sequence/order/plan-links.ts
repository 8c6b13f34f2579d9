/** Links between the steps of a plan, each with its reason in a sentence. */
import { describeFact, hasWords } from "../facts.ts"
import { linkActs } from "../links.ts"
import type { Plan, PlanNeed, PlanStep, StepLink } from "../plan-types.ts"
import type { FactKey, Need } from "../types.ts"
import { type Use, type Walk, walkActions } from "../walk.ts"

/** Why one step must stand before another; `fact` and `why` are those of a need, of a goal where `user` is undefined. */
export type PlanLink = {
  readonly from: number
  readonly to: number
} & (
  | { readonly kind: "gives" | "takes-away"; readonly need: PlanNeed }
  /** `to` gives again what `from` took, for the step `user` or, when it is undefined, for the end. */
  | { readonly kind: "again"; readonly need: Need; readonly user: number | undefined }
  | { readonly kind: "declared"; readonly why: string }
)

/** The walk through the present order; the goals are the needs of one more step behind the last. */
export function walkPlan(plan: Plan): Walk {
  return walkActions(plan.initial, withEnd(plan))
}

/** A met need of a step, not of the goals. */
export function isUseOfStep(plan: Plan, { action }: Use): boolean {
  return action < plan.steps.length
}

function withEnd({ steps, goals }: Plan): readonly Pick<PlanStep, "needs" | "gives" | "takes">[] {
  return [...steps, { needs: goals.map((goal) => ({ ...goal, act: "" })), gives: [], takes: [] }]
}

/**
 * One link for each pair of steps that the present order ties: every order that keeps them all meets each need and goal
 * that is met now. Of several reasons for a pair a step that gives what is needed comes first, then one that would take
 * it away, then what the maker declared. In the order of the steps; a declared order that is broken now is left out.
 */
export function linkPlan(plan: Plan, walk: Walk): readonly PlanLink[] {
  const actions = withEnd(plan)
  const end = plan.steps.length
  const byPair = new Map<number, PlanLink>()
  const rank = { gives: 0, "takes-away": 1, declared: 2, again: 3 } as const
  const add = (link: PlanLink): void => {
    if (link.from >= link.to) return
    const pair = link.from * end + link.to
    const known = byPair.get(pair)
    if (known === undefined || rank[link.kind] < rank[known.kind]) byPair.set(pair, link)
  }
  const userOf = firstUsers(walk)
  for (const { from, to, kind, fact, isAgain } of linkActs(actions, new Set(plan.initial), walk, [])) {
    if (from === end || to === end) continue
    if (isAgain) {
      const user = userOf.get(`${fact} ${to}`)
      if (user === undefined) continue
      add({ from, to, kind: "again", need: user.need, user: user.action === end ? undefined : user.action })
      continue
    }
    const need = plan.steps[kind === "gives" ? to : from]?.needs.find((one) => one.fact === fact)
    if (need !== undefined) add({ from, to, kind, need })
  }
  for (const { before, after, why } of plan.declared) add({ from: before, to: after, kind: "declared", why })
  return [...byPair.entries()].sort(([one], [other]) => one - other).map(([, link]) => link)
}

/** The first step, or the end, that uses what a step gives, by fact and step. */
function firstUsers(walk: Walk): ReadonlyMap<string, Use> {
  const users = new Map<string, Use>()
  for (const use of walk.uses) {
    const key = `${use.need.fact} ${use.supplier}`
    if (!users.has(key)) users.set(key, use)
  }
  return users
}

/** A link with its reason as one sentence with names from the spec. */
export function tellLink(plan: Plan, link: PlanLink): StepLink {
  const { from, to, kind } = link
  return { from, to, kind: kind === "again" ? "takes-away" : kind, reason: tellReason(plan, link) }
}

function tellReason(plan: Plan, link: PlanLink): string {
  const name = (step: number): string => `step \`${plan.steps[step]?.id ?? ""}\``
  const to = name(link.to).replace("step", "Step")
  const from = name(link.from)
  switch (link.kind) {
    case "gives":
      return `${to} ${link.need.act} only after ${from}, once ${wordFact(link.need.fact)}: ${link.need.why}.`
    case "takes-away":
      return `${to} comes only after ${from} ${link.need.act}: ${link.need.why}.`
    case "again": {
      const whom = link.user === undefined ? "as it must be at the end" : `as ${name(link.user)} needs it`
      return `${to} comes only after ${from}: with it ${wordFact(link.need.fact)} again, ${whom}: ${link.need.why}.`
    }
    case "declared":
      return `${to} comes after ${from}: ${link.why}.`
  }
}

function wordFact(fact: FactKey): string {
  return hasWords(fact) ? describeFact(fact) : `fact \`${fact}\` holds`
}
