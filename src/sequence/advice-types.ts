/** What only the order proof can tell the buyer. Plain data; words are made by `document`. */
import type { FactKey } from "./types.ts"

export type Advice = {
  /** Steps that look as if they could wait or come earlier, but cannot. */
  readonly reasons: readonly OrderReason[]
  readonly noReturn: readonly NoReturn[]
  /** Steps after which the work may be left alone. */
  readonly safeStops: readonly SafeStop[]
  /** What is left on the table when all is done. */
  readonly left: readonly LeftOver[]
  /** Own joints of a unit that hold something else as well: one screw at a time. */
  readonly oneAtATime: readonly OneAtATime[]
}

/** `step` must come before `other`: afterwards `act` cannot be done, since `fact` no longer holds. */
export type OrderReason = {
  readonly step: string
  readonly other: string
  /** Path of the act that would be barred, and of the act that bars it. */
  readonly act: string
  readonly byAct: string
  readonly fact: FactKey
}

/** After `step` these checks cannot be made any more without taking something apart or using something up. */
export type NoReturn = {
  readonly step: string
  /** Path of the act that closes the way. */
  readonly act: string
  readonly kind: "used-up" | "closed-in" | "cut" | "stuck"
  /** What can no longer be looked at or changed: ids of joints, ends, ties, pads. */
  readonly lastChance: readonly string[]
}

/** Nothing hangs loose, nothing is live and open, nothing waits to cure with a load on it. */
export type SafeStop = { readonly afterStep: string }

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
  /** Needs of an act on the way back that nothing meets: what cannot be taken apart again. */
  readonly stuck: readonly { readonly act: string; readonly fact: FactKey; readonly why: string }[]
  /** Single-use things that mounting it again needs anew. */
  readonly neededAgain: readonly { readonly item: string; readonly count: number }[]
}

/** One act on the way back. `undoes` is the path of the act of mounting that it undoes. */
export type RemovalAct = {
  readonly verb: string
  readonly target: string
  readonly other: string | undefined
  readonly instances: readonly string[]
  readonly count: number | undefined
  readonly undoes: string | undefined
}
