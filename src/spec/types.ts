/**
 * The spec of one variant in its long form: shorthand, variant files and omitted defaults are gone. Plain data.
 * Names are still names: nothing is resolved here. Every collection stands in the order of writing.
 * `path` of an entry is the key of its place in `places` (`joints/foot`); fields add to it (`joints/foot/torque`).
 * Base units: mm, deg, N, N*m, kg, min, degC.
 */
import type { Places } from "../findings/types.ts"
import type { Outline, Shape, TubeProfile } from "../solids/types.ts"
import type { SourceText } from "../text/types.ts"

export type Spec = {
  readonly kit: string
  readonly title: string
  readonly variant: { readonly id: string; readonly title: string; readonly axes: Readonly<Record<string, string>> }
  readonly places: Places
  readonly isInvented: boolean
  readonly supplier: { readonly name: string; readonly address: string; readonly contact: string }
  readonly revision: { readonly id: string; readonly date: string; readonly guide: string }
  readonly intendedUse: SourceText | undefined
  readonly notFor: SourceText | undefined
  readonly persons: number | undefined
  readonly minutes: number | undefined
  readonly languages: readonly string[]
  readonly fits: FitsSpec
  readonly environment: {
    readonly temperatureC: RangeSpec | undefined
    readonly sun: boolean
    readonly wet: boolean
    readonly salt: boolean
    readonly vibration: boolean
  }
  readonly printing: readonly (Entry & {
    readonly holeMm: number
    readonly outsideMm: number
    readonly shrinkagePercent: number
    readonly compensatedIn: "model" | "slicer" | "none"
  })[]
  readonly hosts: readonly (UnitSpec | FrameSpec)[]
  readonly parts: readonly PartSpec[]
  readonly assemblies: readonly AssemblySpec[]
  readonly cables: readonly CableSpec[]
  readonly passages: readonly PassageSpec[]
  readonly joints: readonly JointSpec[]
  readonly ties: readonly TieSpec[]
  readonly pads: readonly PadSpec[]
  readonly bags: readonly (Entry & {
    readonly name: string | undefined
    readonly side: string | undefined
    readonly isForOwnScrews: boolean
  })[]
  readonly tools: readonly (Entry & { readonly name: string; readonly isSupplied: boolean })[]
  readonly consumables: readonly (Entry & { readonly name: string })[]
  readonly hazards: readonly HazardSpec[]
  readonly box: readonly (Entry & { readonly count: number })[]
  readonly arrives: readonly ActSpec[]
  readonly steps: readonly StepSpec[]
  /** Paths of values about which an error was told while reading. */
  readonly told: readonly string[]
  readonly accepts: readonly {
    readonly path: string
    readonly rule: string
    readonly subjects: readonly string[]
    readonly reason: string
  }[]
}

export type Entry = { readonly id: string; readonly path: string }
export type RangeSpec = { readonly min: number; readonly max: number }
export type Triple = readonly [number, number, number]

/** Pieces that are joined first and then placed as one. */
export type AssemblySpec = Entry & {
  readonly name: string | undefined
  readonly of: readonly string[]
  readonly goes: Triple | undefined
}

export type FitsSpec = {
  readonly path: string
  readonly tube: "round" | "square" | undefined
  readonly tubeMm: RangeSpec | undefined
  readonly loadKg: number | undefined
  readonly temperatureC: RangeSpec | undefined
  readonly others: readonly { readonly name: string; readonly value: string }[]
}

/** Where a piece stands: moved by `at`, after turning about x, then y, then z. Both zero: as exported. */
export type PlacementSpec = { readonly at: Triple; readonly turnDeg: Triple }

/** A mesh file of the kit folder, or a described solid. */
export type BodySpec =
  | { readonly kind: "model"; readonly file: string; readonly unit: "mm" | "cm" | "m" | "inch"; readonly path: string }
  | { readonly kind: "shape"; readonly shape: Shape; readonly path: string }

export type UnitSpec = Entry & {
  readonly kind: "unit"
  readonly name: string | undefined
  readonly body: BodySpec | undefined
  readonly placement: PlacementSpec
  readonly product: string | undefined
  readonly revision: string | undefined
  readonly massKg: number | undefined
  readonly isPowered: boolean
  /** How long it holds its charge after it is isolated, in minutes. */
  readonly dischargeMinutes: number | undefined
  readonly earth: SourceText | undefined
  readonly cooling: SourceText | undefined
  readonly up: Triple | undefined
  readonly covers: readonly string[]
  readonly bores: readonly BoreSpec[]
  readonly screwedIn: readonly (Entry & {
    readonly screws: FastenerCount
    readonly into: string | undefined
    readonly alsoHolds: string | undefined
  })[]
  readonly sockets: readonly (Entry & {
    readonly name: string | undefined
    readonly takes: string | undefined
    readonly at: Triple | undefined
  })[]
  /** Removable pieces of the unit itself, in place on arrival. */
  readonly pieces: readonly PartSpec[]
}

export type FrameSpec = Entry & {
  readonly kind: "frame"
  readonly name: string | undefined
  readonly profile: TubeProfile
  readonly placement: PlacementSpec
  /** Length that is drawn. */
  readonly lengthMm: number
  readonly along: Triple
  readonly wallMm: number | undefined
  readonly material: string | undefined
}

export type PartSpec = Entry & {
  readonly name: string | undefined
  readonly body: BodySpec | undefined
  readonly material: string | undefined
  readonly isPlastic: boolean
  readonly massKg: number | undefined
  readonly hand: "left" | "right" | undefined
  readonly mirrors: string | undefined
  readonly bag: string | undefined
  readonly spare: number
  /** One placement a copy. `name` is the part behind the dot of its instance id (`front`), else its number. */
  readonly copies: readonly {
    readonly name: string | undefined
    readonly placement: PlacementSpec
    readonly isPlaced: boolean
  }[]
  readonly goes: Triple | undefined
  readonly covers: readonly string[]
  readonly holdsItself: boolean
  readonly isFlexible: boolean
  readonly opens: boolean
  readonly hinge: { readonly at: Triple; readonly along: Triple; readonly angleDeg: number } | undefined
  readonly bores: readonly BoreSpec[]
}

/** Where the holes of a joint or bore are: typed, or found in a mesh. */
export type HolesSpec =
  | {
      readonly kind: "typed"
      readonly points: readonly { readonly at: Triple; readonly along: Triple }[]
      readonly path: string
    }
  | {
      readonly kind: "found"
      readonly diameterMm: number
      /** Parts, units or single instances whose meshes hold them (`holes: 2.5 in [plate, hood]`). */
      readonly in: readonly string[]
      readonly along: Triple | undefined
      readonly path: string
    }

export type BoreSpec = Entry & {
  readonly kind: "tapped" | "insert" | "pilot" | "nut"
  readonly thread: string | undefined
  readonly material: string | undefined
  readonly depthMm: number | undefined
  readonly isThrough: boolean
  readonly holeMm: number | undefined
  readonly bossMm: number | undefined
  readonly holes: HolesSpec | undefined
  readonly fastener: FastenerText | undefined
}

/** A designation as written; `fasteners` reads it. */
export type FastenerText = { readonly written: string; readonly path: string }
export type FastenerCount = { readonly count: number; readonly fastener: FastenerText; readonly path: string }

export type JointSpec = Entry & {
  readonly name: string | undefined
  readonly screws: FastenerCount
  readonly washer: FastenerText | undefined
  readonly nut: FastenerText | undefined
  readonly spare: number
  readonly through: readonly string[]
  /** Name of a bore (`gauge.foot`), or a bore written here. */
  readonly into: string | BoreSpec | undefined
  readonly holes: HolesSpec | undefined
  readonly bag: string | undefined
  readonly side: string | undefined
  readonly torqueNm: number | undefined
  readonly tried: string | undefined
  readonly gripMm: number | undefined
  readonly clearanceMm: number | undefined
  readonly surface: "dry" | "oiled" | "greased" | "thread-lock" | undefined
  /** How long it rests before use, in minutes. */
  readonly cureMinutes: number | undefined
}

export type CableSpec = Entry & {
  readonly name: string | undefined
  readonly lengthMm: number | undefined
  readonly diameterMm: number | undefined
  readonly slackMm: number | undefined
  readonly leastBendRadiusMm: number | undefined
  readonly ends: readonly (Entry & {
    readonly name: string | undefined
    readonly envelope: Outline | undefined
    readonly isFixed: boolean
    readonly connectedTo: string | undefined
  })[]
  readonly route: readonly Triple[]
  readonly via: readonly string[]
  readonly isSupplied: boolean
  readonly bag: string | undefined
  readonly isLive: boolean
}

export type PassageSpec = Entry & {
  readonly name: string | undefined
  readonly in: string
  readonly opening: Outline | undefined
  readonly isClosed: boolean
  /** Set for a gland, with the diameters of cable that it holds when they are told. */
  readonly clamps: { readonly cableMm: RangeSpec | undefined } | undefined
  readonly at: { readonly at: Triple; readonly along: Triple } | undefined
}

export type TieSpec = Entry & {
  readonly name: string | undefined
  readonly kind: "tie" | "band"
  readonly count: number
  readonly spare: number
  readonly widthMm: number
  readonly thicknessMm: number | undefined
  readonly lengthMm: number
  readonly loopStrengthN: number | undefined
  readonly holds: readonly string[]
  readonly round: string | undefined
  readonly slot: { readonly in: string; readonly widthMm: number; readonly heightMm: number } | undefined
  readonly seatHeightMm: number | undefined
  readonly pad: string | undefined
  readonly until: string | undefined
  readonly bag: string | undefined
  readonly points: readonly { readonly at: Triple; readonly along: Triple }[]
}

export type PadSpec = Entry & {
  readonly name: string | undefined
  readonly count: number
  readonly spare: number
  /** Length, width, thickness. */
  readonly sizeMm: Triple | undefined
  readonly on: string
  readonly isAdhesive: boolean
  /** How long it rests before a load, in minutes. */
  readonly cureMinutes: number | undefined
  readonly bag: string | undefined
  readonly copies: readonly PlacementSpec[]
}

export type HazardSpec = Entry & {
  readonly source: SourceText
  readonly harm: "death" | "serious" | "moderate" | "minor" | "damage"
  readonly may: "will" | "could"
  readonly avoid: SourceText
  readonly consequence: SourceText | undefined
  readonly steps: readonly string[]
}

/** The acts of the glossary; one file each under `sequence/actions`. */
export type Verb =
  | "place"
  | "remove"
  | "align"
  | "start"
  | "tighten"
  | "unscrew"
  | "feed"
  | "withdraw"
  | "connect"
  | "disconnect"
  | "strap"
  | "trim"
  | "clean"
  | "stick"
  | "open"
  | "close"
  | "turn"
  | "isolate"
  | "verify"
  | "restore"
  | "inspect"
  | "set-aside"
  | "discard"
  | "wait"

export type ActSpec = {
  readonly path: string
  readonly verb: Verb
  readonly target: string
  readonly through: string | undefined
  readonly to: string | undefined
  readonly count: number | undefined
  readonly minutes: number | undefined
  readonly words: string | undefined
}

export type StepSpec = Entry & {
  readonly title: string | undefined
  readonly acts: readonly ActSpec[]
  readonly text: SourceText | undefined
  readonly result: SourceText | undefined
  readonly caution: readonly SourceText[]
  readonly needsAfter: readonly { readonly step: string; readonly why: string | undefined; readonly path: string }[]
  readonly minutes: number | undefined
  readonly view: string | undefined
  readonly tools: readonly string[]
  readonly pinned: "first" | "last" | undefined
}
