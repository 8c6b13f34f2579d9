/**
 * The table of our own printed words for one language. A sentence with numbers or names is one function, never put
 * together from pieces elsewhere. Names arrive ready: `plate (1)` with its item reference, `2 × ISO 4762 - M4 x 14 (4)`.
 * Lines that may become a heading (acts) carry no full stop; sentences do.
 */
import type { Fastener } from "../../fasteners/types.ts"
import type { Act } from "../../kit/types.ts"
import type { AboutWords, AfterWords, RemovalWords, TroubleWords } from "./after-types.ts"
import type { Measures } from "./measures.ts"
import type { TighteningWords } from "./tightening.ts"

/** A thing that an act moves, with how many of it. */
export type Counted = { readonly count: number; readonly what: string }

export type SignalWord = "danger" | "warning" | "caution" | "notice"
export type Harm = "death" | "serious" | "moderate" | "minor" | "damage"
export type ToolKind =
  | "hex-key"
  | "hexalobular"
  | "cross-pz"
  | "cross-ph"
  | "slot"
  | "wrench"
  | "torque-driver"
  | "side-cutters"

export type Words = {
  /** BCP 47 tag. */
  readonly language: string
  readonly measures: Measures
  /** `a, b and c`. */
  readonly list: (names: readonly string[]) => string
  /** Gives a name as it stands inside a sentence; `isOwnLanguage` when the maker wrote it in this language. */
  readonly nameInSentence: (name: string, isOwnLanguage: boolean) => string
  /** An end of a cable, where several cables have an end of that name. */
  readonly endOf: (end: string, cable: string) => string
  /** The kind of a fastener in words, before its designation: `cap screw`. */
  readonly fastener: (fastener: FastenerKind) => string

  readonly signal: Readonly<Record<SignalWord, string>>
  readonly signalMeaning: Readonly<Record<SignalWord, string>>
  readonly consequence: (harm: Harm, may: "will" | "could") => string

  readonly acts: ActWords
  readonly tightening: TighteningWords
  readonly labels: Labels
  readonly front: FrontWords
  readonly box: BoxWords
  readonly tools: ToolWords
  readonly steps: StepWords
  readonly notices: NoticeWords
  readonly after: AfterWords
  readonly trouble: TroubleWords
  readonly removal: RemovalWords
  readonly about: AboutWords
  readonly card: CardWords
  readonly index: IndexWords
  readonly report: ReportWords
}

/** Where a screw must not be turned further: its torque, or the seat of its head when none is known. */
export type Stop = { readonly items: string; readonly torque: string | undefined }

/** What tells one kind of fastener from another. */
export type FastenerKind = Pick<Fastener, "kind" | "head" | "isThreadForming">

/** One act as a command without full stop. */
export type ActWords = {
  /** An act that the maker put in words of their own. */
  readonly inWords: (verb: Act["verb"], words: string) => string
  readonly place: (what: Counted, position: string | undefined) => string
  readonly remove: (what: Counted) => string
  readonly align: (what: string) => string
  readonly start: (items: string, through: readonly string[], into: readonly string[]) => string
  readonly tighten: (items: string, tool: string | undefined) => string
  /** Without a torque: the end state stands in the line. */
  readonly tightenToSeat: (items: string, tool: string | undefined) => string
  readonly unscrew: (items: string, from: string | undefined) => string
  /** `turnDeg`: the end passes only turned by so much. */
  readonly feed: (end: string, passage: string, turnDeg: number | undefined) => string
  /** A cable goes into an opening that is open at one side. */
  readonly layIn: (cable: string, passage: string) => string
  readonly withdraw: (end: string, passage: string | undefined) => string
  readonly connect: (end: string, socket: string | undefined) => string
  readonly disconnect: (end: string, socket: string | undefined) => string
  readonly strap: (items: string, round: string | undefined, until: string | undefined) => string
  readonly trim: (items: string) => string
  readonly clean: (what: string) => string
  readonly stick: (items: string, on: string | undefined) => string
  readonly open: (what: string) => string
  readonly close: (what: string) => string
  /** A cable gland. */
  readonly tightenGland: (gland: string) => string
  readonly loosenGland: (gland: string) => string
  readonly turn: (what: string, to: string | undefined) => string
  readonly isolate: (what: string) => string
  readonly verify: (what: string) => string
  readonly restore: (what: string) => string
  readonly inspect: (what: string | undefined) => string
  readonly setAside: (what: string, bag: string | undefined) => string
  readonly discard: (what: string) => string
  readonly wait: string
  /** A pad or screws that rest until they hold. */
  readonly waitFor: (what: string) => string
  readonly everything: string
  /** Directions a thing is turned to or seen from: `back`, `front-left-top`. */
  readonly direction: (name: string) => string
}

/** Headings and labels. */
export type Labels = {
  readonly guide: string
  readonly card: string
  readonly variant: string
  readonly revision: string
  readonly date: string
  readonly supplier: string
  readonly language: string
  readonly contents: string
  readonly use: string
  readonly box: string
  readonly tools: string
  readonly consumables: string
  readonly safety: string
  readonly steps: string
  readonly inspection: string
  readonly aftercare: string
  readonly trouble: string
  readonly removal: string
  readonly order: string
  readonly about: string
  readonly skip: string
  readonly take: string
  readonly figure: string
  readonly how: string
  readonly do: string
  readonly check: string
  readonly reference: string
  readonly count: string
  readonly designation: string
  readonly bag: string
  readonly spare: string
  readonly lifeSize: string
  readonly torque: string
  readonly tool: string
  readonly limits: string
  readonly hazard: string
  readonly yes: string
}

/** Page 1: right kit, right frame, can I start? */
export type FrontWords = {
  readonly fits: string
  readonly tube: (shape: "round" | "square" | undefined, size: string) => string
  readonly load: (mass: string) => string
  readonly temperature: (range: string) => string
  readonly other: (name: string, value: string) => string
  readonly finished: string
  readonly finishedAlt: (title: string, parts: string) => string
  readonly checkHeading: string
  readonly checkIntro: string
  readonly checkTube: (shape: "round" | "square" | undefined, size: string) => string
  readonly checkTubeNot: string
  readonly checkUnit: (unit: string, product: string, revision: string | undefined) => string
  readonly checkUnitNot: string
  readonly checkLoad: (mass: string) => string
  readonly checkLoadNot: string
  readonly checkTemperature: (range: string) => string
  readonly checkTemperatureNot: string
  readonly checkBox: string
  readonly checkBoxNot: string
  readonly ifNot: string
  readonly need: string
  readonly resources: (persons: number | undefined, duration: string | undefined) => string
  readonly skills: string
  /** `1 to 7`, for numbers of steps. */
  readonly fromTo: (first: string, last: string) => string
  readonly stops: (steps: string, count: number) => string
  readonly worst: string
  readonly invented: string
  readonly readFirst: string
  readonly translated: (original: string) => string
  readonly environment: {
    readonly heading: string
    readonly sun: string
    readonly wet: string
    readonly salt: string
    readonly vibration: string
  }
  readonly intended: string
  readonly notFor: string
  readonly noHazard: string
  /** Stands there instead when a unit or cable carries energy and the maker names no hazard. */
  readonly energyUnnamed: string
  readonly noUse: string
  readonly unitFacts: {
    readonly earth: string
    readonly cooling: string
    readonly up: (direction: string) => string
  }
}

export type BoxWords = {
  readonly intro: string
  readonly bag: (id: string, name: string) => string
  readonly loose: string
  /** The same in a narrow column. */
  readonly looseShort: string
  readonly ownScrews: string
  readonly ofWhichSpare: (count: number) => string
  readonly tie: (name: string, size: string) => string
  readonly band: (name: string, size: string) => string
  readonly pad: (name: string, size: string | undefined) => string
  readonly hand: (name: string, hand: "left" | "right") => string
  readonly cable: (name: string, length: string | undefined) => string
  readonly lookAlikeHeading: string
  readonly lookAlikeIntro: string
  readonly lookAlikeLength: (one: string, oneLength: string, other: string, otherLength: string) => string
  readonly lookAlikeOther: (one: string, other: string) => string
  readonly lifeSizeNote: string
  readonly itemAlt: (designation: string, length: string | undefined) => string
}

export type ToolWords = {
  readonly name: (kind: ToolKind, size: string) => string
  readonly torqueDriver: (range: string | undefined) => string
  readonly forItems: (items: string) => string
  readonly use: string
  readonly noneSupplied: string
  readonly consumablesNeeded: string
  readonly supplied: (name: string) => string
  readonly noConsumables: string
}

export type StepWords = {
  readonly heading: (number: string) => string
  readonly reference: (number: string) => string
  /** A step named inside a sentence by number and title. */
  readonly titled: (number: string, title: string) => string
  readonly figure: (number: string) => string
  /** `items` are new in the picture, `off` comes off. */
  readonly caption: (parts: {
    readonly items: readonly string[]
    readonly off: readonly string[]
    readonly view: string
    readonly isTurned: boolean
  }) => string
  readonly alt: (parts: {
    readonly items: readonly string[]
    readonly isExploded: boolean
    readonly view: string
  }) => string
  /** Bags to open now, and those that are to be put away before. */
  readonly openBags: (open: readonly string[], away: readonly string[]) => string
  readonly ownScrews: string
  readonly noResult: string
  readonly time: (duration: string) => string
  readonly tickIntro: string
  /** Why a step cannot wait, as one sentence; `step` is the number of the step that bars its way. */
  readonly whyNow: {
    readonly inTheWay: (name: string, step: string) => string
    readonly inHand: (name: string, step: string) => string
    readonly tight: (name: string, step: string) => string
    readonly threaded: (cable: string, passage: string, step: string) => string
  }
  /** Checks that the act after it takes away; clauses. */
  readonly lastChance: (checks: readonly string[]) => string
  readonly aligned: (name: string) => string
  /** The work may be left after this step; `next` is the number of the next step of that kind. */
  readonly stop: (next: string | undefined, isIsolated: boolean) => string
}

/** Safety messages derived from the joints: command first, then what happens otherwise. */
export type NoticeWords = {
  readonly crossThread: { readonly avoid: (items: string) => string; readonly why: string }
  readonly plasticThread: { readonly avoid: (stops: readonly Stop[]) => string; readonly why: string }
  readonly plasticPart: {
    readonly avoid: (stops: readonly Stop[]) => string
    readonly why: (parts: string) => string
  }
  readonly ownScrews: {
    readonly avoid: (items: string) => string
    readonly why: (long: string, longLength: string, ownLength: string) => string
    readonly whyKept: string
  }
  readonly oneByOne: { readonly avoid: (items: string) => string; readonly why: (held: string) => string }
}

export type CardWords = {
  readonly readGuide: string
  readonly scan: string
  readonly qrAlt: (address: string) => string
  readonly check: string
  readonly seeGuide: string
  readonly torqueNote: string
  readonly empty: string
  readonly steps: (count: number) => string
}

export type IndexWords = {
  readonly title: string
  readonly intro: string
  readonly choose: string
  readonly fits: string
  readonly links: Readonly<Record<"guide" | "a4" | "letter" | "card" | "report", string>>
  readonly linkTitle: (link: string, kit: string, variant: string) => string
  readonly verdict: string
  readonly result: string
  readonly counts: (errors: number, warnings: number) => string
  readonly notCurrent: string
  readonly noDocuments: string
  readonly current: string
  readonly picture: (kit: string, variant: string) => string
  readonly makerHeading: string
  readonly empty: string
}

export type ReportWords = {
  readonly title: (kit: string, variant: string) => string
  readonly none: string
  readonly counts: (errors: number, warnings: number, notes: number) => string
  readonly severity: Readonly<Record<"error" | "warning" | "note", string>>
  readonly why: string
  readonly fix: string
  readonly related: string
  readonly accepted: (reason: string) => string
  readonly source: string
  readonly joints: string
  readonly origin: string
  readonly joint: string
  readonly grip: string
  readonly engagement: string
  readonly governing: string
  readonly ties: string
  readonly tie: string
  readonly loop: string
  readonly needed: string
  readonly supplied: string
  readonly slot: string
  readonly load: string
  readonly loadOf: (needed: string, born: string, factor: string) => string
  readonly seats: string
  readonly part: string
  readonly measured: string
  readonly gap: string
  readonly passages: string
  readonly passage: string
  readonly end: string
  readonly opening: string
  readonly envelope: string
  readonly passes: string
  readonly fitsWords: (fits: boolean) => string
}
