/** Measured and computed facts of one kit: joints, ties, tubes, openings, tools. Plain results, no judgement. */
import type { Fastener } from "../fasteners/types.ts"
import type { Range } from "../kit/types.ts"
import type { Outline } from "../solids/types.ts"

export type Fit = {
  readonly joints: readonly JointFit[]
  readonly ties: readonly TieFit[]
  readonly seats: readonly SeatFit[]
  readonly passages: readonly PassageFit[]
  readonly blockers: readonly Blocker[]
  readonly tools: readonly ToolNeed[]
  readonly box: readonly BoxItem[]
  readonly lookAlikes: readonly LookAlike[]
}

/** A number with its origin, so that a report can say "grip 6.0 mm, measured on plate.stl". */
export type Known = {
  readonly value: number
  readonly origin: "declared" | "measured" | "table" | "computed" | "assumed"
  /** `measured on plate.stl`, `ISO 4762`, `default for PETG`. */
  readonly from: string
}

/** One line of arithmetic, complete enough to be printed with the numbers put in. */
export type Calculation = {
  /** `thread in aluminium strips`, `screw yields`. */
  readonly name: string
  readonly inputs: readonly {
    readonly name: string
    readonly symbol: string
    readonly value: number
    readonly unit: string
  }[]
  /** In plain letters: `F = 0.5 * As * Rp`. */
  readonly formula: string
  readonly value: number
  /** Spread of the value from friction, strength and print quality; undefined where none is reckoned with. */
  readonly band: Range | undefined
  readonly unit: string
  readonly source: string
}

export type JointFit = {
  readonly joint: string
  readonly gripMm: Known | undefined
  /** Screw end beyond the mouth of the thread: length - grip - washer. */
  readonly reachMm: number | undefined
  readonly engagementMm: number | undefined
  readonly neededEngagementMm: Known | undefined
  /** Depth left between screw end and bottom of a blind bore; negative: it bottoms out. Undefined for through bores. */
  readonly depthLeftMm: number | undefined
  readonly clearanceHole:
    | { readonly modelledMm: number; readonly finishedMm: number; readonly neededMm: Range }
    | undefined
  readonly pilotHole: { readonly modelledMm: number; readonly finishedMm: number; readonly neededMm: Range } | undefined
  readonly headMm: { readonly diameter: number; readonly height: number }
  readonly torque: TorqueFit
}

export type TorqueFit = {
  /** To be printed; undefined when neither a formula nor the maker gives one. */
  readonly valueNm: number | undefined
  readonly origin: "maker" | "computed" | undefined
  /** Smallest computed limit, kept beside a maker's value for comparison. */
  readonly computedNm: number | undefined
  /** What is not known though a limit of the joint hangs on it (`the grip`); then nothing is computed. */
  readonly missing: readonly string[]
  /** Name of the governing calculation. */
  readonly governing: string | undefined
  readonly limits: readonly Calculation[]
  /** Spread of the computed value, from friction and print quality. */
  readonly band: Range | undefined
}

export type TieFit = {
  readonly tie: string
  readonly loopMm: number | undefined
  readonly neededMm: number | undefined
  readonly suppliedMm: number
  readonly slotFits: boolean | undefined
  readonly load: { readonly neededN: number; readonly bornN: number; readonly factor: number } | undefined
  readonly calculations: readonly Calculation[]
}

/** Seat of a part against the tube it lies on. */
export type SeatFit = {
  readonly part: string
  readonly frame: string
  readonly seatMm: Known | undefined
  readonly neededMm: number
  readonly gapMm: number | undefined
  readonly contactDeg: number | undefined
}

export type PassageFit = {
  readonly passage: string
  readonly end: string
  readonly envelope: Outline
  readonly opening: Outline
  readonly passes: boolean
  /** Smallest size the opening would have to grow to, in its short direction; undefined when it passes. */
  readonly neededMm: number | undefined
  readonly why: string
}

/** `blocker` in place stops `act` on `subject`: insertion path or driver meets it. */
export type Blocker = {
  readonly kind: "insertion" | "driver" | "overlap"
  readonly subject: string
  readonly blocker: string
  readonly depthMm: number
  readonly atMm: readonly [number, number, number]
  readonly direction: readonly [number, number, number]
}

export type ToolNeed = {
  /** `hex-key-3`, `cross-pz-1`, `torque-driver`, `side-cutters`, `hex-wrench-7`. */
  readonly id: string
  readonly kind:
    | "hex-key"
    | "hexalobular"
    | "cross-pz"
    | "cross-ph"
    | "slot"
    | "wrench"
    | "torque-driver"
    | "side-cutters"
    | "declared"
  readonly size: string
  /** Range of torques a torque driver must cover, in N*m. */
  readonly torqueNm: Range | undefined
  /** Joints, ties or steps it is for. */
  readonly uses: readonly string[]
}

/** One line of the box: derived as joints x copies + spares. */
export type BoxItem = {
  /** `part:plate`, `fastener:<designation>`, `tie:clamp`, `pad:grip`, `cable:lead`. */
  readonly item: string
  readonly kind: "part" | "fastener" | "tie" | "pad" | "cable"
  readonly itemReference: number
  /** Part, tie, pad or cable id; undefined for a fastener. */
  readonly id: string | undefined
  readonly fastener: Fastener | undefined
  readonly count: number
  readonly spare: number
  readonly bag: string | undefined
  /** Joints, ties ... that use it. */
  readonly uses: readonly string[]
}

/** Two fasteners in one box that a person confuses. */
export type LookAlike = { readonly one: string; readonly other: string; readonly difference: string }
