/** The order proof: walks the steps, links them, and tells what the order breaks. */
import type { Fit } from "../fit/types.ts"
import type { Kit } from "../kit/types.ts"
import { buildActions, factsOf } from "./actions/build.ts"
import { giveAdvice } from "./advice/index.ts"
import { arrivalFacts } from "./arrival.ts"
import { findBroken, findDeclared } from "./broken.ts"
import { findCircles } from "./circles.ts"
import { describeFact } from "./facts.ts"
import { findFaults } from "./faults.ts"
import { findGoals } from "./finished.ts"
import { linkActs, linkSteps } from "./links.ts"
import { buildLookup, type Lookup } from "./lookup.ts"
import { proveRemoval } from "./removal/index.ts"
import { buildStates } from "./states.ts"
import type { FactKey, Sequence } from "./types.ts"
import { walkActions } from "./walk.ts"

export { describeAct } from "./actions/build.ts"
export { type CapturedEnd, type ChooseEnd, type EndChoice, prepareEndChoice } from "./cable-ends.ts"
export { actThatGives, describeFact, describeMissed, subjectOf } from "./facts.ts"
export { findChance } from "./first-chance.ts"
export { joinPlans } from "./join-plans.ts"
export { findLeftOut } from "./left-out.ts"
export { countOrders } from "./order/count-orders.ts"
export { explainOrder } from "./order/explain-order.ts"
export { renderOrderDot, renderOrderSvg } from "./order/render-graph.ts"
export { buildPlan } from "./plan.ts"
export { repairOrder } from "./repair/repair.ts"
export { tellRepair } from "./repair/words.ts"
export { stateAt } from "./states.ts"
export { isBetter, prepareTrial } from "./trial.ts"

/**
 * Proves the order of the steps of one variant. Never judges sizes: `fit` tells what stands in the way.
 * Faults are data; the rules in `checks` turn them into findings. Source: DEVELOPERS.md, "The order proof".
 */
export function proveSequence(kit: Kit, fit: Fit): Sequence {
  const lookup = buildLookup(kit, fit)
  const initial = initialFacts(lookup)
  const actions = buildActions(lookup)
  const goals = findGoals(lookup)
  const declared = findDeclared(kit)
  const walk = walkActions(initial, actions)
  const { broken, unmet } = findBroken(actions, walk, declared, new Set(goals.map(({ fact }) => fact)))
  const actLinks = linkActs(actions, new Set(initial), walk, broken)
  const stepIds = kit.steps.map(({ id }) => id)
  const isSelfTied = declared.some(({ step, other }) => step === other)
  const circles = broken.length > 0 || isSelfTied ? findCircles(actions, actLinks, declared, stepIds) : []
  return {
    initial,
    actions,
    goals: goals.map(({ fact, why }) => ({ fact, why })),
    ...buildStates(lookup, initial, actions),
    links: linkSteps(actions, actLinks, declared, stepIds),
    faults: findFaults({ kit, actions, walk, goals, broken, unmet, circles, actLinks }),
    factWords: wordAll(initial, actions, goals),
    advice: giveAdvice({ lookup, fit, initial, actions, walk, actLinks }),
    removal: proveRemoval(lookup, fit, initial, actions, walk.final),
  }
}

/** Facts on arrival, after the acts of `arrives`, whose needs are not asked. */
function initialFacts(lookup: Lookup): readonly FactKey[] {
  const facts = new Set(arrivalFacts(lookup))
  for (const act of lookup.kit.arrives) {
    const { gives, takes } = factsOf(lookup, act)
    for (const key of takes) facts.delete(key)
    for (const key of gives) facts.add(key)
  }
  return [...facts]
}

function wordAll(
  initial: readonly FactKey[],
  actions: Sequence["actions"],
  goals: Sequence["goals"],
): Readonly<Record<FactKey, string>> {
  const keys = new Set([
    ...initial,
    ...actions.flatMap(({ needs, gives, takes }) => [...needs.map(({ fact }) => fact), ...gives, ...takes]),
    ...goals.map(({ fact }) => fact),
  ])
  return Object.fromEntries([...keys].map((key) => [key, describeFact(key)]))
}
