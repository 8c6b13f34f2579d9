/** All rules, sorted by hand, and the one function that runs them. */
import type { Finding } from "../findings/types.ts"
import { applyAcceptances } from "./acceptances.ts"
import { boxDiffers } from "./box-differs.ts"
import { countDiffersFromJoint } from "./count-differs-from-joint.ts"
import { declaredOrderBroken } from "./declared-order-broken.ts"
import { goalNotReached } from "./goal-not-reached.ts"
import { itemNeverUsed } from "./item-never-used.ts"
import { liveWorkWithoutIsolate } from "./live-work-without-isolate.ts"
import { needsSomethingLater } from "./needs-something-later.ts"
import { nobodyGives } from "./nobody-gives.ts"
import { orderIsCircular } from "./order-is-circular.ts"
import { ownScrewsUnaccounted } from "./own-screws-unaccounted.ts"
import { passageNeverUsed } from "./passage-never-used.ts"
import { restoredWithoutInspection } from "./restored-without-inspection.ts"
import { stepWithoutAction } from "./step-without-action.ts"
import { suppliedTooFew } from "./supplied-too-few.ts"
import { suppliedTooMany } from "./supplied-too-many.ts"
import { takenAwayBefore } from "./taken-away-before.ts"
import { toolNeverUsed } from "./tool-never-used.ts"
import type { Rule, Subject } from "./types.ts"

/** Every rule once, in alphabetical order of its id. */
export const rules: readonly Rule[] = [
  boxDiffers,
  countDiffersFromJoint,
  declaredOrderBroken,
  goalNotReached,
  itemNeverUsed,
  liveWorkWithoutIsolate,
  needsSomethingLater,
  nobodyGives,
  orderIsCircular,
  ownScrewsUnaccounted,
  passageNeverUsed,
  restoredWithoutInspection,
  stepWithoutAction,
  suppliedTooFew,
  suppliedTooMany,
  takenAwayBefore,
  toolNeverUsed,
]

/**
 * Runs every rule on one variant and marks what the maker accepted.
 * Findings carry the variant's id; order is by rule, sorting is the caller's (`sortFindings`).
 */
export function runChecks(subject: Subject): readonly Finding[] {
  const variants = [subject.kit.variant.id]
  const found = rules.flatMap(({ id, severity, source, check }) =>
    check(subject).map((report): Finding => ({ related: [], subjects: [], ...report, id, severity, source, variants })),
  )
  return applyAcceptances(subject.kit, found, rules)
}
