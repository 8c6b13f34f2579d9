/**
 * The resolved variant: names are things, counts are numbers, texts have references that exist. Plain data.
 * What could not be resolved is left out and reported once. Everything made from the spec carries `path`,
 * the key of its place in `places`; `placeAt(kit.places, thing.path, "torque")` points at one field of it.
 * Lengths in mm, angles in degrees, forces in N, torques in N*m, masses in kg, temperatures in degC.
 */

import type { Places } from "../findings/types.ts"
import type { Mesh, Outline, Pose, TubeProfile, Vec3 } from "../solids/types.ts"
import type { Verb } from "../spec/types.ts"
import type { MakerText } from "../text/types.ts"
import type { Bore, BorePoint, Joint, OwnJoint } from "./joint-types.ts"

export type Kit = {
  readonly id: string
  readonly title: string
  readonly variant: Variant
  readonly places: Places
  readonly identity: Identity
  readonly limits: Limits
  readonly environment: Environment
  readonly printing: readonly Printing[]
  readonly units: readonly Unit[]
  readonly frames: readonly Frame[]
  readonly parts: readonly Part[]
  /** Every piece in its place: of parts, units, unit pieces and frames. Sorted by id. */
  readonly instances: readonly Instance[]
  /** Meshes by key (content hash); parts with equal meshes share one. */
  readonly meshes: Readonly<Record<string, Mesh>>
  readonly bores: readonly Bore[]
  readonly joints: readonly Joint[]
  /** Screws that sit in a unit when it arrives. */
  readonly ownJoints: readonly OwnJoint[]
  /** Groups of pieces that are joined first and then placed as one; no items of the box. */
  readonly assemblies: readonly Assembly[]
  readonly cables: readonly Cable[]
  readonly sockets: readonly Socket[]
  readonly passages: readonly Passage[]
  readonly ties: readonly Tie[]
  readonly pads: readonly Pad[]
  readonly bags: readonly Bag[]
  readonly tools: readonly Tool[]
  readonly consumables: readonly Consumable[]
  readonly hazards: readonly Hazard[]
  /** What the maker says is really in the box; empty when not typed. Compared by supply rules. */
  readonly box: readonly BoxCount[]
  /** Acts done before the box is opened (`arrives:`): an insert set, a tie laid in its slot, a lid on the unit. */
  readonly arrives: readonly Act[]
  /** In the order of writing, after `place-before` and `place-after` of the variant. */
  readonly steps: readonly Step[]
  readonly accepts: readonly Acceptance[]
  /**
   * Paths of values about which an error was told before, and of things that an unknown name may have meant. What only
   * follows from them is told by no rule: look up with `isTold`.
   */
  readonly told: readonly string[]
}

export type Variant = {
  /** `round-32` or `round-32+left` when several axes combine; `base` when the kit has no variant files. */
  readonly id: string
  readonly title: string
  readonly axes: Readonly<Record<string, string>>
}

export type Identity = {
  readonly supplier: { readonly name: string; readonly address: string; readonly contact: string }
  readonly revision: { readonly id: string; readonly date: string; readonly guide: string }
  readonly intendedUse: MakerText | undefined
  readonly notFor: MakerText | undefined
  readonly persons: number | undefined
  readonly minutes: number | undefined
  readonly languages: readonly string[]
  /** Set when the kit says that its numbers are invented (`invented: true`); shown on every document. */
  readonly isInvented: boolean
}

/** Numeric limits of use, from `fits:`; shown on guide, card and index. */
export type Limits = {
  readonly tube: "round" | "square" | undefined
  /** Outside diameter of a round, width of a square tube. */
  readonly tubeMm: Range | undefined
  readonly loadKg: number | undefined
  readonly temperatureC: Range | undefined
  /** Further limits in the maker's words: name and value, e.g. `wind`, `up to 12 m/s`. */
  readonly others: readonly { readonly name: string; readonly value: string }[]
}

export type Range = { readonly min: number; readonly max: number }

export type Environment = {
  readonly temperatureC: Range | undefined
  readonly sun: boolean
  readonly wet: boolean
  readonly salt: boolean
  readonly vibration: boolean
}

export type Printing = {
  readonly material: string
  readonly holeMm: number
  readonly outsideMm: number
  readonly shrinkagePercent: number
  readonly compensatedIn: "model" | "slicer" | "none"
}

export type Unit = {
  readonly id: string
  readonly path: string
  readonly name: string
  readonly model: string | undefined
  readonly revision: string | undefined
  readonly massKg: number | undefined
  /** Carries energy: work on it comes after `isolate`. */
  readonly isPowered: boolean
  /** How long it holds its charge after it is isolated; undefined when it is dead at once. */
  readonly dischargeMinutes: number | undefined
  readonly earth: MakerText | undefined
  /** Faces or features that cool it and must stay free, in words. */
  readonly cooling: MakerText | undefined
  readonly up: Direction | undefined
  /** Ids of what it hides once in place, as `covers` of a part. */
  readonly covers: readonly string[]
  readonly instances: readonly string[]
}

export type Frame = {
  readonly id: string
  readonly path: string
  readonly name: string
  readonly profile: TubeProfile
  readonly instances: readonly string[]
  /** Middle of its axis and direction of the axis. */
  readonly axis: { readonly at: Vec3; readonly along: Vec3 }
  readonly wallMm: number | undefined
  readonly material: string | undefined
}

/** A unit vector; `down` is (0,0,-1), `up`, `left` (-x), `right` (+x), `front` (-y), `back` (+y). */
export type Direction = Vec3

export type Part = {
  readonly id: string
  readonly path: string
  readonly name: string
  /** ISO 6433: one number per kind of part, the same everywhere; counted in the order of assembly. */
  readonly itemReference: number
  readonly material: Material | undefined
  readonly massKg: number | undefined
  readonly hand: "left" | "right" | undefined
  readonly mirrors: string | undefined
  readonly bag: string | undefined
  readonly instances: readonly string[]
  /** How many the box holds: copies, plus spares. */
  readonly copies: number
  readonly spare: number
  /** Direction of travel when it is placed. */
  readonly goes: Direction | undefined
  /** Ids of sockets, joints, bores, ties, parts, units it hides once in place. */
  readonly covers: readonly string[]
  /** Stays where it is put before its joint is tight. */
  readonly holdsItself: boolean
  /** Bends into place (a tie, a strap, a cable): never judged as a rigid path. */
  readonly isFlexible: boolean
  /** A hinged or sliding part that `open` and `close` act on. */
  readonly opens: boolean
  /** How it swings open: a point on the axis and its direction, as exported; clockwise as seen along it. */
  readonly hinge: { readonly at: Vec3; readonly along: Vec3; readonly angleDeg: number } | undefined
  /** Belongs to the buyer's unit (a lid of the unit), not to the box. */
  readonly ownedBy: string | undefined
}

/** Pieces that are joined on the bench and then placed as one: it is no item, and has no item reference. */
export type Assembly = {
  readonly id: string
  readonly path: string
  readonly name: string
  /** Ids of its parts, copies and units. */
  readonly of: readonly string[]
  readonly instances: readonly string[]
  /** Direction of travel when it is placed. */
  readonly goes: Direction | undefined
}

export type Material = {
  readonly name: string
  readonly kind: "plastic" | "aluminium" | "steel" | "stainless" | "rubber" | "other"
}

export type Instance = {
  /** `saddle` when there is one, else `saddle.1` or `saddle.front`. */
  readonly id: string
  /** Id of the part, unit, frame or pad. */
  readonly of: string
  readonly owner: "part" | "unit" | "frame" | "pad"
  /** Key into `meshes`; undefined when the spec gives no shape: it is then listed but not drawn. */
  readonly mesh: string | undefined
  readonly pose: Pose
}

export type Cable = {
  readonly id: string
  readonly path: string
  readonly name: string
  readonly itemReference: number | undefined
  readonly lengthMm: number | undefined
  readonly diameterMm: number | undefined
  readonly slackMm: number | undefined
  readonly leastBendRadiusMm: number | undefined
  readonly ends: readonly CableEnd[]
  /** Route points in mm, end to end; empty when not given (then the cable is not drawn). */
  readonly route: readonly Vec3[]
  /** Passages in order from the first end. */
  readonly via: readonly string[]
  /** Part of the box, or of the buyer's unit. */
  readonly isSupplied: boolean
  readonly bag: string | undefined
  readonly isLive: boolean
}

export type CableEnd = {
  /** `lead.plug` */
  readonly id: string
  readonly name: string
  /** Cross-section that must pass an opening; undefined when not told. */
  readonly envelope: Outline | undefined
  /** On arrival: `free`, `fixed` for good, or connected to a socket. */
  readonly arrival:
    | { readonly state: "free" }
    | { readonly state: "fixed" }
    | { readonly state: "connected"; readonly socket: string }
}

export type Socket = {
  /** `gauge.power` */
  readonly id: string
  readonly path: string
  readonly name: string
  readonly owner: string
  /** End that belongs here, when told. */
  readonly takes: string | undefined
  readonly at: Vec3 | undefined
}

export type Passage = {
  readonly id: string
  readonly path: string
  readonly name: string
  readonly part: string
  readonly opening: Outline | undefined
  readonly isClosed: boolean
  /** A gland: `close` tightens it round the cable, `open` loosens it. Holds cables of these diameters, when told. */
  readonly clamps: { readonly cableMm: Range | undefined } | undefined
  readonly at: BorePoint | undefined
}

export type Tie = {
  readonly id: string
  readonly path: string
  readonly name: string
  readonly itemReference: number
  readonly kind: "tie" | "band"
  readonly count: number
  readonly spare: number
  readonly widthMm: number
  readonly thicknessMm: number
  readonly lengthMm: number
  readonly loopStrengthN: number | undefined
  readonly holds: readonly string[]
  readonly frame: string | undefined
  readonly slot: { readonly in: string; readonly widthMm: number; readonly heightMm: number } | undefined
  /** Height of what lies between tube and tie, measured from the tube. */
  readonly seatHeightMm: number | undefined
  readonly pad: string | undefined
  /** How the buyer knows that it is tight enough. */
  readonly until: string | undefined
  readonly bag: string | undefined
  /** Middle of each loop, along the frame's axis. */
  readonly points: readonly BorePoint[]
}

export type Pad = {
  readonly id: string
  readonly path: string
  readonly name: string
  readonly itemReference: number
  readonly count: number
  readonly spare: number
  readonly sizeMm: readonly [number, number] | undefined
  readonly thicknessMm: number | undefined
  /** Part, unit or frame it sticks to. */
  readonly on: string
  readonly isAdhesive: boolean
  /** How long it rests after it is stuck on, before a load; undefined when it holds at once. */
  readonly cureMinutes: number | undefined
  readonly bag: string | undefined
  readonly instances: readonly string[]
}

export type Bag = {
  readonly id: string
  readonly path: string
  readonly name: string
  readonly side: string | undefined
  readonly isForOwnScrews: boolean
}

export type Tool = { readonly id: string; readonly path: string; readonly name: string; readonly isSupplied: boolean }

export type Consumable = { readonly id: string; readonly path: string; readonly name: string }

export type Hazard = {
  readonly id: string
  readonly path: string
  readonly source: MakerText
  readonly harm: "death" | "serious" | "moderate" | "minor" | "damage"
  readonly may: "will" | "could"
  readonly avoid: MakerText
  readonly consequence: MakerText | undefined
  /** ANSI Z535.6: computed from harm and likelihood, never typed. */
  readonly signalWord: "danger" | "warning" | "caution" | "notice"
  /** Steps it is shown at, before the acts; empty means only in the safety section. */
  readonly steps: readonly string[]
}

export type BoxCount = { readonly item: string; readonly count: number; readonly path: string }

/** One checkable act. `target` is the id it acts on: an instance or part, joint, cable end, tie, pad, unit ... */
export type Act = {
  readonly verb: Verb
  readonly path: string
  readonly target: string
  /** Instances of the target that the act moves (place, remove, stick); else empty. */
  readonly instances: readonly string[]
  /** `feed: lead.plug through hood-hole`. */
  readonly through: string | undefined
  /** `connect: lead.plug to gauge.power`; `turn: all to back`; `disconnect: lead.plug from gauge.power`. */
  readonly to: string | undefined
  /** Typed count, compared with the joint's or tie's. */
  readonly count: number | undefined
  readonly minutes: number | undefined
  /** Free words of `inspect` and the like when the target is no id. */
  readonly words: string | undefined
}

export type Step = {
  readonly id: string
  readonly path: string
  /** Imperative title; undefined when it is to be made from the first act. */
  readonly title: string | undefined
  readonly acts: readonly Act[]
  readonly text: MakerText | undefined
  readonly result: MakerText | undefined
  readonly caution: readonly MakerText[]
  readonly needsAfter: readonly { readonly step: string; readonly why: string | undefined; readonly path: string }[]
  readonly minutes: number | undefined
  /** Direction the drawing looks from, when the maker fixed it, e.g. `front-left-top`. */
  readonly view: string | undefined
  readonly tools: readonly string[]
  /** Kept first or last by the maker. */
  readonly pinned: "first" | "last" | undefined
}

export type Acceptance = {
  readonly rule: string
  readonly subjects: readonly string[]
  readonly reason: string
  readonly path: string
}
