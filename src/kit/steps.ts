/** Steps with their acts and texts. */
import type { StepSpec } from "../spec/types.ts"
import { type Resolved, resolveAct } from "./acts.ts"
import { placeOf } from "./desk.ts"
import { lookUpOrReport } from "./names.ts"
import type { Shop } from "./shop.ts"
import { resolveText } from "./texts.ts"
import type { Step } from "./types.ts"

/** Resolves a step; acts and names that are not there are reported and left out. A step may be left without acts. */
export function resolveStep(shop: Shop, resolved: Resolved, spec: StepSpec): Step {
  const needsAfter = spec.needsAfter.flatMap(({ step, why, path }) => {
    const named = lookUpOrReport(shop, ["step"], step, spec.path, placeOf(shop, path))
    return named === undefined ? [] : [{ step: named.id, why, path }]
  })
  const tools = spec.tools.flatMap((name, index) => {
    const where = placeOf(shop, spec.path, "tools", String(index))
    return lookUpOrReport(shop, ["tool", "consumable"], name, spec.path, where)?.id ?? []
  })
  return {
    id: spec.id,
    path: spec.path,
    title: spec.title,
    acts: spec.acts.flatMap((act) => resolveAct(shop, resolved, act) ?? []),
    text: resolveText(shop, spec.text),
    result: resolveText(shop, spec.result),
    caution: spec.caution.flatMap((source) => resolveText(shop, source) ?? []),
    needsAfter,
    minutes: spec.minutes,
    view: spec.view,
    tools,
    pinned: spec.pinned,
  }
}
