/** What only the proof of the order can tell the buyer. */
import type { Fit } from "../../fit/types.ts"
import type { Advice } from "../advice-types.ts"
import type { ActLink } from "../links.ts"
import type { Lookup } from "../lookup.ts"
import type { Action, FactKey } from "../types.ts"
import type { Walk } from "../walk.ts"
import { listLeftOver } from "./left-over.ts"
import { findNoReturns } from "./no-return.ts"
import { findOneAtATime } from "./one-at-a-time.ts"
import { findOtherEnds, findReasons } from "./reasons.ts"
import { findSafeStops } from "./safe-stops.ts"

/** Everything that the walk through the steps has come by. */
export type Walked = {
  readonly lookup: Lookup
  readonly fit: Fit
  readonly initial: readonly FactKey[]
  readonly actions: readonly Action[]
  readonly walk: Walk
  readonly actLinks: readonly ActLink[]
}

/** Gives the advice of one proof. It is computed for a faulty order too; documents are made from a proved one only. */
export function giveAdvice(walked: Walked): Advice {
  return {
    reasons: findReasons(walked),
    otherEnds: findOtherEnds(walked),
    noReturn: findNoReturns(walked),
    safeStops: findSafeStops(walked),
    left: listLeftOver(walked),
    oneAtATime: findOneAtATime(walked),
  }
}
