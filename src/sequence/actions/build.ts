/** All acts of all steps with their facts. */
import type { Act } from "../../kit/types.ts"
import type { Lookup } from "../lookup.ts"
import type { Action, Need } from "../types.ts"
import { actionKinds } from "./registry.ts"
import type { Facts } from "./types.ts"

/** Gives the actions in the order of the steps. */
export function buildActions(lookup: Lookup): readonly Action[] {
  return lookup.kit.steps.flatMap((step, stepIndex) =>
    step.acts.map((act, actIndex): Action => {
      const facts = factsOf(lookup, act)
      return { id: `${step.id}/${actIndex + 1}`, step: step.id, stepIndex, act, verb: act.verb, ...facts }
    }),
  )
}

/** The facts of one act, each once; what it gives it does not take. */
export function factsOf(lookup: Lookup, act: Act): Facts {
  const { needs, gives, takes } = actionKinds[act.verb].facts(lookup, act)
  const given = new Set(gives)
  const once = new Map<string, Need>()
  for (const need of needs) if (!once.has(need.fact)) once.set(need.fact, need)
  return { needs: [...once.values()], gives: [...given], takes: [...new Set(takes)].filter((key) => !given.has(key)) }
}

/** What a step does by an act, third person with names: "tightens joint `foot`". */
export function describeAct(act: Act): string {
  return actionKinds[act.verb].words(act)
}
