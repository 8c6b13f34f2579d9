/** Measured and computed facts of one kit: joints, ties, tubes, openings, tools. Plain results, no judgement. */
import type { Fastener } from "../fasteners/types.ts"
import type { Range } from "../kit/types.ts"
import type { Outline, Vec3 } from "../solids/types.ts"

export type Fit = {
  readonly joints: readonly JointFit[]
  /** Screws of units that hold one of their pieces. */
  readonly ownJoints: readonly OwnJointFit[]
  readonly ties: readonly TieFit[]
  readonly seats: readonly SeatFit[]
  readonly passages: readonly PassageFit[]
  /** Cables with a route: its length, its tightest bend, and how water runs along it. */
  readonly cables: readonly CableFit[]
  /** Written openings that are larger than the one found in the model. */
  readonly openings: readonly OpeningFit[]
  readonly blockers: readonly Blocker[]
  readonly tools: readonly ToolNeed[]
  readonly box: readonly BoxItem[]
  readonly lookAlikes: readonly LookAlike[]
  /** Instances of parts that stand clear of all frames and standing units, by their boxes: they cannot be on them. */
  readonly apart: readonly string[]
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
  /** The way of each screw whose bore has a place, through the meshes. */
  readonly screws: readonly ScrewPath[]
  /** Undefined when the place of a screw is not known. */
  readonly tightening: TighteningSequence | undefined
}

/** The way of the screws of a unit through the piece that they hold. */
export type OwnJointFit = {
  readonly ownJoint: string
  readonly piece: string
  readonly screws: readonly ScrewPath[]
  readonly tightening: TighteningSequence | undefined
}

/** In which order and in how many passes the screws of a joint are tightened. */
export type TighteningSequence = {
  readonly faces: readonly TighteningFace[]
  readonly passes: number
  /** How far the first of several passes goes: to about half the torque, or until the heads rest. */
  readonly firstPass: "half-torque" | "until-seated" | undefined
}

/** The screws that clamp one piece from one side. */
export type TighteningFace = {
  /** The clamped piece under the heads; undefined when it stands nowhere. */
  readonly instance: string | undefined
  /** Driving direction, and what points right and up when one looks along it. */
  readonly along: Vec3
  readonly right: Vec3
  readonly up: Vec3
  /**
   * `cross`: to and fro on a ring; `outwards`: the same, ring by ring from the middle; `row`: in a line, from the middle
   * outwards; `plain`: too few screws for the order to matter.
   */
  readonly pattern: "cross" | "outwards" | "row" | "plain"
  /** Indexes of the points of the joint, the first to be tightened first. */
  readonly order: readonly number[]
}

/** What one screw meets on its way. `at` is the mouth of its thread, `along` its driving direction. */
export type ScrewPath = {
  readonly at: Vec3
  readonly along: Vec3
  /** One for each clamped part or copy with a mesh, head side first. */
  readonly clamped: readonly ClampedPath[]
  /** The piece of the bore lies behind the mouth: the screw is driven out of it. */
  readonly isReversed: boolean
  /** How far the mouth of the thread lies beyond the end of the clamped parts: a recess, a pad. 0 where they meet. */
  readonly recessMm: number
  /** How thick the piece of the bore is from the mouth on, beside the hole; undefined without its mesh. */
  readonly materialMm: number | undefined
  /** The worst gap or overlap between pieces that should touch; undefined when not known. */
  readonly gap: JointGap | undefined
}

/**
 * How a screw meets one clamped part: it `passes`; its hole is only too small (`narrow`); material is in its way
 * (`blocked`); or the part is not there at all (`missed`).
 */
export type ClampedPath = {
  /** As `through` names it. */
  readonly part: string
  readonly kind: "passes" | "narrow" | "blocked" | "missed"
  /** Narrowest hole on the axis as modelled; undefined when it is wide enough, or not round. */
  readonly holeMm: number | undefined
  /** Nearest hole along the screw where the part is in the way; undefined when there is none. */
  readonly beside: HoleBeside | undefined
}

/** A hole beside the axis of a screw; `offsetMm` leads from the axis to the hole. */
export type HoleBeside = { readonly diameterMm: number; readonly offsetMm: Vec3 }

/** `before` and `behind` follow each other on a screw; above 0 they are that far apart, below 0 they stand in each other. */
export type JointGap = { readonly before: string; readonly behind: string; readonly gapMm: number }

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
  /** A round hollow on a square tube: it touches the corners only, whatever its size. */
  readonly isRoundOnSquare: boolean
}

export type PassageFit = {
  readonly passage: string
  readonly end: string
  readonly envelope: Outline
  readonly opening: Outline
  readonly passes: boolean
  /** Angle between the long sides at which it passes, 0 when as it lies; undefined when it does not pass. */
  readonly turnDeg: number | undefined
  /** Smallest size the opening would have to grow to, in its short direction; undefined when it passes. */
  readonly neededMm: number | undefined
  readonly why: string
}

export type CableFit = {
  readonly cable: string
  /** From point to point of the route. */
  readonly routeMm: number
  /** Route and slack. */
  readonly neededMm: number
  readonly tightest: TightBend | undefined
  readonly entries: readonly CableEntry[]
}

/** The straight of a route that leaves least room for the bends at its ends. */
export type TightBend = {
  /** Largest inner radius that the bends can have. */
  readonly innerRadiusMm: number
  readonly from: Vec3
  readonly to: Vec3
  readonly lengthMm: number
  /** Millimetres of the straight that its bends take for each millimetre of radius at the middle of the cable. */
  readonly takenPerMm: number
  /** Turns of the route at its ends, without an end of the cable. */
  readonly turnsDeg: readonly number[]
}

/** A cable that comes in from outside through a passage. */
export type CableEntry = {
  readonly passage: string
  /** The end that lies outside. */
  readonly outside: string
  /** How much the first point of the route outside that is not level with the passage is higher; lower: below 0. */
  readonly riseMm: number
}

/** A written opening that is larger than the one `found` at its place in the model. */
export type OpeningFit = { readonly passage: string; readonly written: Outline; readonly found: Outline }

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
