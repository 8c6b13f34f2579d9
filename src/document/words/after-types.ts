/** Words for what comes after the last step, and for what the guide says about itself. */
import type { Counted } from "./types.ts"

export type AfterWords = {
  readonly inspectionIntro: string
  readonly jointTight: (items: string, torque: string | undefined) => string
  readonly tieClosed: (items: string, until: string | undefined) => string
  readonly padSits: (items: string) => string
  readonly cableConnected: (end: string, socket: string) => string
  readonly cableThrough: (cable: string, passage: string) => string
  /** A cable gland that was tightened round the cable. */
  readonly glandTight: (gland: string, cable: string) => string
  /** A statement that was to be ticked at a step, since it cannot be looked at any more. */
  readonly tickedAt: (line: string, step: string) => string
  /** Before the list of what is left, as the last check. */
  readonly onTable: string
  readonly leftElse: string
  readonly leftTools: string
  readonly leftPiece: (what: Counted) => string
  readonly leftSpare: (items: string) => string
  readonly leftOwn: (screws: string, bag: string | undefined) => string
  readonly leftMore: string
  readonly retighten: (items: string, torque: string | undefined) => string
  /** What lies before screws that are to be tightened again. */
  readonly retightenBehind: (covers: readonly string[]) => string
  readonly retightenWhen: string
  readonly retightenWhy: string
  readonly ties: string
  readonly tiesSun: string
  readonly practice: string
  readonly salt: string
  readonly nothing: string
}

export type TroubleWords = {
  readonly what: string
  readonly todo: string
  readonly missing: string
  /** `contact` is empty when the supplier gives none. */
  readonly missingTodo: (kit: string, contact: string) => string
  readonly noFit: string
  /** What page 1 tells to compare: the size of a tube, the type of a unit. */
  readonly noFitTodo: (hasTube: boolean, hasUnit: boolean) => string
  readonly stiff: string
  readonly stiffTodo: string
  readonly stripsMetal: (items: string) => string
  readonly stripsMetalTodo: string
  readonly stripsPlastic: (items: string) => string
  readonly stripsPlasticTodo: string
  readonly plug: (end: string, passage: string) => string
  readonly plugTodo: string
  readonly checkFails: string
  readonly checkFailsTodo: string
}

export type RemovalWords = {
  readonly intro: string
  readonly honest: string
  /** Single-use things that mounting it again needs. */
  readonly neededAgain: (items: readonly string[]) => string
  /** Acts of mounting that cannot be undone, as acts. */
  readonly stuck: (acts: readonly string[]) => string
  readonly hazards: string
  readonly takeOut: (items: string, tool: string | undefined) => string
  readonly takeOff: (what: Counted, position: string | undefined) => string
  /** `isCarrying`: a piece hangs on the ties, not a cable alone. */
  readonly cutTie: (items: string, isCarrying: boolean) => string
  readonly peel: (items: string) => string
  readonly putBack: (what: Counted) => string
  readonly ownScrewsBack: (items: string, torqueHint: string) => string
  /** Screws of the kit and those of the unit, changed in turn. */
  readonly changeOneByOne: (items: string, own: string, torqueHint: string) => string
  readonly ownTorque: string
  readonly disposal: string
}

export type AboutWords = {
  readonly orderIntro: string
  readonly orderLine: (first: string, then: string, reason: string | undefined) => string
  /** A cable end goes through an opening before it is connected. */
  readonly feedFirst: (end: string, passage: string) => string
  /** Only one end of a cable fits through an opening. */
  readonly otherEnd: (end: string, other: string, otherSize: string, passage: string, opening: string) => string
  /** What is no longer possible after the later step, as a clause. */
  readonly losses: {
    readonly inPlace: (name: string) => string
    readonly loose: (name: string) => string
    readonly closed: (name: string) => string
    readonly tight: (joint: string) => string
    readonly threaded: (cable: string, passage: string) => string
  }
  readonly torqueHeading: string
  readonly torqueOrigin: string
  readonly torqueNote: string
  readonly torqueMaker: (tried: string | undefined) => string
  readonly torqueComputed: string
  readonly document: (kit: string, variant: string, revision: string, date: string, language: string) => string
  readonly newest: string
  readonly rules: string
  readonly pageOf: (page: string, pages: string) => string
}
