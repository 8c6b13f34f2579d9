/** What only the order proof can tell the buyer. Plain data; words are made by `document`. */
import type { Verb } from "../spec/types.ts"
import type { FactKey } from "./types.ts"

export type Advice = {
  /** Steps that look as if they could wait or come earlier, but cannot. */
  readonly reasons: readonly OrderReason[]
  /** Feeding acts where the other end of the cable does not pass. */
  readonly otherEnds: readonly OtherEnd[]
  readonly noReturn: readonly NoReturn[]
  /** Steps after which the work may be left alone. */
  readonly safeStops: readonly SafeStop[]
  /** What is left on the table when all is done. */
  readonly left: readonly LeftOver[]
  /** Own joints of a unit that hold something else as well: one screw at a time. */
  readonly oneAtATime: readonly OneAtATime[]
}

/**
 * `step` must come before `other`: afterwards `act` cannot be done, since `fact` no longer holds. Acts of one step are
 * told only where an end is fed before it is connected.
 */
export type OrderReason = {
  /**
   * What bars the way: a piece that is then in the way or shut, or must still be in the hand; an end that is then connected;
   * a joint that is then tight; an opening that is then threaded already.
   */
  readonly kind: "in-the-way" | "shut" | "in-hand" | "connected" | "tight" | "threaded"
  readonly step: string
  readonly other: string
  /** Path of the act that would be barred, and of the act that bars it. */
  readonly act: string
  readonly byAct: string
  readonly fact: FactKey
}

/** `end` is fed through `passage`; `other` is an end of the same cable that is too large for it. */
export type OtherEnd = {
  readonly step: string
  readonly act: string
  readonly end: string
  readonly other: string
  readonly passage: string
}

/** After `step` these checks cannot be made any more without taking something apart or using something up. */
export type NoReturn = {
  readonly step: string
  /** Path of the act that closes the way. */
  readonly act: string
  readonly kind: "used-up" | "closed-in" | "cut" | "stuck"
  /** What can no longer be looked at or changed, in the order in which it was made. */
  readonly lastChance: readonly LastChance[]
}

/** A joint that must be tight, an end in its socket, a tie closed, a pad stuck on, a piece aligned. */
export type LastChance = {
  readonly kind: "joint" | "end" | "tie" | "pad" | "aligned"
  readonly id: string
  /** Socket of an end. */
  readonly other: string | undefined
}

/** Nothing hangs loose, nothing is live and open, nothing waits to cure with a load on it. */
export type SafeStop = {
  readonly afterStep: string
  /** The power is off at this time, and stays off. */
  readonly isIsolated: boolean
  /** The work cannot be left after the step that follows. */
  readonly isLastForNow: boolean
}

export type LeftOver = {
  readonly kind: "spare" | "own-screws" | "taken-off" | "tool"
  /** Item of the box (`fastener:…`, `tie:…`), own joint or piece. */
  readonly item: string
  readonly count: number
}

export type OneAtATime = {
  readonly ownJoint: string
  readonly joint: string | undefined
  readonly holds: string
  readonly count: number
}

/** The way back from the finished work to the state on arrival, proved like the way in. */
export type Removal = {
  readonly acts: readonly RemovalAct[]
  /** No list with fewer acts was left untried. */
  readonly isFewest: boolean
  /** Needs on the way back that nothing meets; `act` is the path of the act of mounting that cannot be undone. */
  readonly stuck: readonly { readonly act: string; readonly fact: FactKey; readonly why: string }[]
  /** Single-use things that mounting it again needs anew. */
  readonly neededAgain: readonly { readonly item: string; readonly count: number }[]
}

/** One act on the way back. `undoes` is the path of the act of mounting that it undoes. */
export type RemovalAct = {
  readonly verb: Verb
  readonly target: string
  readonly other: string | undefined
  readonly instances: readonly string[]
  readonly count: number | undefined
  readonly minutes: number | undefined
  readonly undoes: string | undefined
}
