/** All rules, sorted by hand, and the one function that runs them. */
import type { Finding } from "../findings/types.ts"
import { applyAcceptances } from "./acceptances.ts"
import { allScrewsOutAtOnce } from "./all-screws-out-at-once.ts"
import { bendTooTight } from "./bend-too-tight.ts"
import { boreDeeperThanPiece } from "./bore-deeper-than-piece.ts"
import { boxDiffers } from "./box-differs.ts"
import { cableOutsideGlandRange } from "./cable-outside-gland-range.ts"
import { cableTooShort } from "./cable-too-short.ts"
import { connectorDoesNotPass } from "./connector-does-not-pass.ts"
import { consumableNotListed } from "./consumable-not-listed.ts"
import { countDiffersFromJoint } from "./count-differs-from-joint.ts"
import { cureTimeTooShort } from "./cure-time-too-short.ts"
import { declaredOrderBroken } from "./declared-order-broken.ts"
import { dischargeTimeTooShort } from "./discharge-time-too-short.ts"
import { dripLoopMissing } from "./drip-loop-missing.ts"
import { endInWrongSocket } from "./end-in-wrong-socket.ts"
import { gapInJoint } from "./gap-in-joint.ts"
import { goalNotReached } from "./goal-not-reached.ts"
import { gripDiffersFromModel } from "./grip-differs-from-model.ts"
import { headSinksIntoPlastic } from "./head-sinks-into-plastic.ts"
import { holeBelowSeries } from "./hole-below-series.ts"
import { holeTooSmall } from "./hole-too-small.ts"
import { holesDoNotMeet } from "./holes-do-not-meet.ts"
import { inspectionMissingAfterCriticalAct } from "./inspection-missing-after-critical-act.ts"
import { isolatedWithoutVerification } from "./isolated-without-verification.ts"
import { itemNeverUsed } from "./item-never-used.ts"
import { languageNotBuilt } from "./language-not-built.ts"
import { liveWorkWithoutIsolate } from "./live-work-without-isolate.ts"
import { loadAboveTie } from "./load-above-tie.ts"
import { lookAlikesInOneBag } from "./look-alikes-in-one-bag.ts"
import { lookAlikesInOpenBags } from "./look-alikes-in-open-bags.ts"
import { needlessTurnOver } from "./needless-turn-over.ts"
import { needsSomethingLater } from "./needs-something-later.ts"
import { nobodyGives } from "./nobody-gives.ts"
import { openingLargerThanModel } from "./opening-larger-than-model.ts"
import { orderIsCircular } from "./order-is-circular.ts"
import { ownScrewsMissPiece } from "./own-screws-miss-piece.ts"
import { ownScrewsUnaccounted } from "./own-screws-unaccounted.ts"
import { passageNeverUsed } from "./passage-never-used.ts"
import { passageNotOnWay } from "./passage-not-on-way.ts"
import { patternSplitOverSteps } from "./pattern-split-over-steps.ts"
import { pilotHoleUnsuitable } from "./pilot-hole-unsuitable.ts"
import { placeholderInText } from "./placeholder-in-text.ts"
import { placesDifferFromCount } from "./places-differ-from-count.ts"
import { removalStuck } from "./removal-stuck.ts"
import { restoredWithoutInspection } from "./restored-without-inspection.ts"
import { screwBottomsOut } from "./screw-bottoms-out.ts"
import { screwTooShort } from "./screw-too-short.ts"
import { seatDoesNotFitTube } from "./seat-does-not-fit-tube.ts"
import { sizeImplausible } from "./size-implausible.ts"
import { stepDoesSeveralThings } from "./step-does-several-things.ts"
import { stepWithoutAction } from "./step-without-action.ts"
import { stepWithoutEffect } from "./step-without-effect.ts"
import { suppliedTooFew } from "./supplied-too-few.ts"
import { suppliedTooMany } from "./supplied-too-many.ts"
import { supplierNotNamed } from "./supplier-not-named.ts"
import { surfaceNotCleaned } from "./surface-not-cleaned.ts"
import { takenAwayBefore } from "./taken-away-before.ts"
import { threadBeginsTooLate } from "./thread-begins-too-late.ts"
import { tieTooShort } from "./tie-too-short.ts"
import { tieTooWideForSlot } from "./tie-too-wide-for-slot.ts"
import { toolNeverUsed } from "./tool-never-used.ts"
import { toolPickedUpAgain } from "./tool-picked-up-again.ts"
import { torqueFarBelowLimit } from "./torque-far-below-limit.ts"
import { torqueStripsThread } from "./torque-strips-thread.ts"
import { torqueWithoutValue } from "./torque-without-value.ts"
import { tubeOutsideLimits } from "./tube-outside-limits.ts"
import { typedNumberDiffers } from "./typed-number-differs.ts"
import type { Rule, Subject } from "./types.ts"
import { unitAboveLoadLimit } from "./unit-above-load-limit.ts"
import { washerTooSmall } from "./washer-too-small.ts"
import { wrongThreadForBore } from "./wrong-thread-for-bore.ts"

/** Every rule once, in alphabetical order of its id. */
export const rules: readonly Rule[] = [
  allScrewsOutAtOnce,
  bendTooTight,
  boreDeeperThanPiece,
  boxDiffers,
  cableOutsideGlandRange,
  cableTooShort,
  connectorDoesNotPass,
  consumableNotListed,
  countDiffersFromJoint,
  cureTimeTooShort,
  declaredOrderBroken,
  dischargeTimeTooShort,
  dripLoopMissing,
  endInWrongSocket,
  gapInJoint,
  goalNotReached,
  gripDiffersFromModel,
  headSinksIntoPlastic,
  holeBelowSeries,
  holeTooSmall,
  holesDoNotMeet,
  inspectionMissingAfterCriticalAct,
  isolatedWithoutVerification,
  itemNeverUsed,
  languageNotBuilt,
  liveWorkWithoutIsolate,
  loadAboveTie,
  lookAlikesInOneBag,
  lookAlikesInOpenBags,
  needlessTurnOver,
  needsSomethingLater,
  nobodyGives,
  openingLargerThanModel,
  orderIsCircular,
  ownScrewsMissPiece,
  ownScrewsUnaccounted,
  passageNeverUsed,
  passageNotOnWay,
  patternSplitOverSteps,
  pilotHoleUnsuitable,
  placeholderInText,
  placesDifferFromCount,
  removalStuck,
  restoredWithoutInspection,
  screwBottomsOut,
  screwTooShort,
  seatDoesNotFitTube,
  sizeImplausible,
  stepDoesSeveralThings,
  stepWithoutAction,
  stepWithoutEffect,
  suppliedTooFew,
  suppliedTooMany,
  supplierNotNamed,
  surfaceNotCleaned,
  takenAwayBefore,
  threadBeginsTooLate,
  tieTooShort,
  tieTooWideForSlot,
  toolNeverUsed,
  toolPickedUpAgain,
  torqueFarBelowLimit,
  torqueStripsThread,
  torqueWithoutValue,
  tubeOutsideLimits,
  typedNumberDiffers,
  unitAboveLoadLimit,
  washerTooSmall,
  wrongThreadForBore,
]

/**
 * Runs every rule on one variant and marks what the maker accepted.
 * Findings carry the variant's id; in the order of the rules; `mergeFindings` sorts.
 */
export function runChecks(subject: Subject): readonly Finding[] {
  const variants = [subject.kit.variant.id]
  const found = rules.flatMap(({ id, severity, source, check }) =>
    check(subject).map((report): Finding => ({ related: [], subjects: [], ...report, id, severity, source, variants })),
  )
  return applyAcceptances(subject.kit, found, rules)
}
