/** Line drawings as data: strokes in mm on paper with a role; no words, no text elements. y goes down, as in SVG. */
import type { Vec3 } from "../solids/types.ts"

export type LineRole =
  /** Outline and edges of a part that is new in this step: wide. */
  | "new"
  /** Parts already in place: narrow. */
  | "context"
  /** Unit and frame, not in the kit: narrow, lighter. */
  | "host"
  /** Outline of a thing that is drawn see-through because it stands before a new part. */
  | "phantom"
  /** Long-dash-dot path along an insertion direction. */
  | "path"
  | "leader"
  /** The dot that ends a leader in a face: a stroke of no length. */
  | "dot"
  | "reference"
  /** The count before a reference, smaller than it. */
  | "count"
  | "arrow"
  | "triad"
  | "dimension"

/** Points x y x y ... in mm; `isClosed` joins last to first. `of` is the instance or fastener drawn. */
export type Stroke = {
  readonly role: LineRole
  readonly points: readonly number[]
  readonly isClosed: boolean
  readonly of: string | undefined
}

/** A tint under the lines; never needed to read the drawing. Several outlines may be joined by bridges of no width. */
export type Fill = { readonly role: "new"; readonly points: readonly number[] }

export type DrawnReference = {
  readonly itemReference: number
  /** Shown as `2×` before the number when above 1. */
  readonly count: number
  /** Centre of the number, end of its leader, on paper. */
  readonly at: readonly [number, number]
  readonly anchor: readonly [number, number]
  readonly end: "dot" | "arrow"
  /** Instance or fastener the anchor lies on. */
  readonly of: string
}

export type ViewName = string

export type Drawing = {
  /** `step-3`, `overview`, `contents`. */
  readonly id: string
  readonly step: string | undefined
  readonly widthMm: number
  readonly heightMm: number
  readonly strokes: readonly Stroke[]
  readonly fills: readonly Fill[]
  readonly references: readonly DrawnReference[]
  readonly view: { readonly name: ViewName; readonly from: Vec3; readonly up: Vec3; readonly isTurned: boolean }
  /** mm on paper per mm of the thing. */
  readonly scale: number
  /** What the picture shows, for the text alternative that `document` words. */
  readonly shows: {
    readonly placed: readonly string[]
    readonly fastened: readonly { readonly joint: string; readonly count: number }[]
    readonly context: readonly string[]
    readonly exploded: boolean
  }
}

/** All drawings of one variant. */
export type Drawings = {
  /** Finished view of the whole assembly, for page 1 and the index. */
  readonly overview: Drawing
  /** Keyed by step id; every step that places or fastens something has one. */
  readonly steps: Readonly<Record<string, Drawing>>
  /** Life-size side views of fasteners and ties, keyed by box item (`fastener:ISO 4762 - M4 x 16 - A2-70`). */
  readonly items: Readonly<Record<string, Drawing>>
  /** By joint, one for each face with four screws or more: where they are and in which order they are tightened. */
  readonly plans: Readonly<Record<string, readonly Drawing[]>>
}
