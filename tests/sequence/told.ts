/** Faults of an order in one line each, for tests. */
import { expect } from "vitest"
import type { Fit } from "../../src/fit/types.ts"
import { describeAct, proveSequence } from "../../src/sequence/index.ts"
import type { OrderFault, Sequence } from "../../src/sequence/types.ts"
import { emptyFit, type Small, smallKit } from "./small-kit.ts"

/** Proves the order of a small kit. */
export function prove(small: Small, fit: Fit = emptyFit): Sequence {
  return proveSequence(smallKit(small), fit)
}

/** What is needed, where, and the other step. */
function brief(fault: OrderFault): string {
  if (fault.kind === "circle") return `circle ${fault.links.map(({ from, to }) => `${from}>${to}`).join(" ")}`
  if (fault.kind === "declared-later") return `declared ${fault.step} before ${fault.laterStep}`
  if (fault.kind === "goal-missed") return `goal ${fault.need.fact} last ${fault.lastStep ?? "-"}`
  const where = `${fault.step} ${describeAct(fault.act)}`
  if (fault.kind === "needs-later")
    return `${where} before ${fault.laterStep} ${describeAct(fault.laterAct)} [${fault.need.fact}]`
  if (fault.kind === "taken-away")
    return `${where} after ${fault.byStep} ${describeAct(fault.byAct)} [${fault.need.fact}]`
  return `${where} lacks ${fault.need.fact}`
}

/** Expects exactly these faults. */
export function check(small: Small, expected: readonly string[], fit: Fit = emptyFit): void {
  expect(prove(small, fit).faults.map(brief)).toEqual(expected)
}
