/** The explanation of an order: what each step needs from where, how far it could move, and what holds it. */
import type { OrderReport, Plan, StepFreedom } from "../plan-types.ts"
import { computeWidth, reduceDigraph } from "./closure.ts"
import { countOrders } from "./count-orders.ts"
import { digraphOfLinks } from "./digraph.ts"
import { findFreedom } from "./freedom.ts"
import { isUseOfStep, linkPlan, type PlanLink, tellLink, walkPlan } from "./plan-links.ts"

/**
 * Explains the present order of a plan. Links are those that this order ties: every order that keeps them all is as good
 * as the present one. With facts that come and go other orders may be valid as well; `validOrders` counts them, `width`
 * and `reduction` follow the links. Each link has its reason as a sentence.
 * For a faulty order everything is said of what it does meet: a need that is not met has `from` undefined, like one met on
 * arrival (the faults of the proof tell the two apart); `earliest` and `latest` are the places where nothing breaks that
 * is whole now; links of needs that are not met, and declared orders that are broken, are left out.
 */
export function explainOrder(plan: Plan): OrderReport {
  const walk = walkPlan(plan)
  const links = linkPlan(plan, walk)
  const graph = digraphOfLinks(plan.steps.length, links)
  // The links are sorted by their first step, so that arcs of the graph and links have the same indexes.
  const reduction = reduceDigraph(graph).flatMap((arc) => links[arc] ?? [])
  const suppliers = new Map<string, number>()
  for (const use of walk.uses)
    if (use.supplier >= 0 && isUseOfStep(plan, use)) suppliers.set(`${use.action} ${use.need.fact}`, use.supplier)
  const tell = (link: PlanLink | undefined): StepFreedom["heldBy"]["before"] =>
    link === undefined ? undefined : tellLink(plan, link)
  const steps = findFreedom(plan, walk).map(({ earliest, latest, before, after }, step): StepFreedom => {
    const needs = (plan.steps[step]?.needs ?? []).map((need) => ({ need, from: suppliers.get(`${step} ${need.fact}`) }))
    return { step, needs, earliest, latest, heldBy: { before: tell(before), after: tell(after) } }
  })
  return {
    steps,
    validOrders: countOrders(plan),
    width: computeWidth(digraphOfLinks(plan.steps.length, reduction)),
    reduction: reduction.map((link) => tellLink(plan, link)),
  }
}
