/** Actions with the facts they need, give and take away; the state after each step; the precedence graph. Plain data. */
import type { Act } from "../kit/types.ts"
import type { Verb } from "../spec/types.ts"
import type { Advice, Removal } from "./advice-types.ts"

/** `on:saddle.1`, `started:foot`, `free:lead.plug`. Only positive facts; a negation is a fact of its own (`off:lid`). */
export type FactKey = string

export type Need = {
  readonly fact: FactKey
  /** Why the act needs it, as a clause for a sentence: "its screws go through the plate". */
  readonly why: string
}

/** One act with its facts. */
export type Action = {
  readonly id: string
  readonly step: string
  readonly stepIndex: number
  readonly act: Act
  readonly verb: Verb
  readonly needs: readonly Need[]
  readonly gives: readonly FactKey[]
  readonly takes: readonly FactKey[]
}

export type Sequence = {
  readonly initial: readonly FactKey[]
  readonly actions: readonly Action[]
  readonly goals: readonly Need[]
  readonly steps: readonly StepChange[]
  /** When each thing is in place; `stateAt` reads from it what is there before a step. */
  readonly presence: Presence
  /** Precedence links between steps, each with its reason. */
  readonly links: readonly Link[]
  readonly faults: readonly OrderFault[]
  /** Words for each fact, for sentences: "`saddle.1` is in place". */
  readonly factWords: Readonly<Record<FactKey, string>>
  /** What only the proof can tell the buyer. */
  readonly advice: Advice
  /** The way back, proved like the way in. */
  readonly removal: Removal
}

/** What one step changes. Instances are ids of the kit; fasteners are joint ids. */
export type StepChange = {
  readonly step: string
  readonly number: number
  /** Instances placed by the step. */
  readonly placed: readonly string[]
  readonly removed: readonly string[]
  /** Groups of pieces that the step puts in their place as one; their pieces are there before. */
  readonly assembliesPlaced: readonly string[]
  /** Joints started, tightened, taken out in this step. */
  readonly jointsStarted: readonly string[]
  readonly jointsTightened: readonly string[]
  readonly jointsRemoved: readonly string[]
  readonly tiesClosed: readonly string[]
  readonly padsStuck: readonly string[]
  /** Cables with the ends connected and the passages threaded after the step. */
  readonly cables: readonly CableState[]
  /** Facts that the step makes true, and facts true before it that it ends. */
  readonly factsGained: readonly FactKey[]
  readonly factsLost: readonly FactKey[]
  /** Bags that lie open while the step is done: from the first step that takes something from a bag to the last. */
  readonly openBags: readonly string[]
}

/** A step with the ids of all that is in place before it, in the order of the kit. Given by `stateAt`, one at a time. */
export type StepState = StepChange & {
  /** Instances. */
  readonly presentBefore: readonly string[]
  readonly jointsBefore: readonly string[]
  readonly tiesBefore: readonly string[]
  readonly padsBefore: readonly string[]
}

/** When things are in place, in the order of the kit; what is never there is left out. */
export type Presence = {
  readonly instances: readonly Stay[]
  readonly joints: readonly Stay[]
  readonly ties: readonly Stay[]
  readonly pads: readonly Stay[]
}

/**
 * Indexes of the steps before which a thing has just come, gone, come again and so on, ascending; 0 is the arrival.
 * Lists of all that is there before each step would grow with the square of the kit.
 */
export type Stay = { readonly id: string; readonly changes: readonly number[] }

export type CableState = {
  readonly cable: string
  /** In order from the first end. */
  readonly passages: readonly string[]
  readonly connected: readonly { readonly end: string; readonly socket: string }[]
  readonly touched: boolean
}

/** `from` must stand before `to`. */
export type Link = {
  readonly from: string
  readonly to: string
  readonly kind: "gives" | "takes-away" | "declared"
  readonly fact: FactKey | undefined
  /** One sentence with names from the spec. */
  readonly reason: string
}

/**
 * One cause, one fault: of several broken links that moving one step (or swapping two) mends, one stands for all
 * and names the others in `also`.
 */
export type OrderFault = {
  readonly also: readonly AlsoBroken[]
} & (
  | /** A later step gives the fact. */
  {
      readonly kind: "needs-later"
      readonly step: string
      readonly act: Act
      readonly need: Need
      readonly laterStep: string
      readonly laterAct: Act
      /** The later step needs this one as well, so that no move of whole steps mends it. */
      readonly isMutual: boolean
    }
  /** An earlier step took it away. */
  | {
      readonly kind: "taken-away"
      readonly step: string
      readonly act: Act
      readonly need: Need
      readonly byStep: string
      readonly byAct: Act
      /** This step needs the other as well, so that no move of whole steps mends it. */
      readonly isMutual: boolean
    }
  | {
      readonly kind: "nobody-gives"
      readonly step: string
      readonly act: Act
      readonly need: Need
      /** Place of an act that was left out of the kit and would have given it; told already. */
      readonly leftOut: string | undefined
    }
  /** Not true when the last step is done. `path` is the place of the thing the goal is about. */
  | {
      readonly kind: "goal-missed"
      readonly need: Need
      /** Last step whose act has to do with the fact, and that act. */
      readonly lastStep: string | undefined
      readonly lastAct: Act | undefined
      readonly subject: string
      readonly path: string
      /** Place of an act that was left out of the kit and would have given it; told already. */
      readonly leftOut: string | undefined
    }
  | {
      readonly kind: "declared-later"
      readonly step: string
      readonly laterStep: string
      readonly why: string | undefined
      readonly path: string
    }
  /** Steps of the shortest circle, in order, with the reason of each link. */
  | { readonly kind: "circle"; readonly links: readonly Link[] }
)

/** A further broken link of the same cause, as a sentence. */
export type AlsoBroken = {
  readonly step: string
  readonly otherStep: string | undefined
  readonly path: string
  readonly sentence: string
}
