/**
 * How parts of a kit hold together: bores, joints, and the screws that a unit brings along. Plain data; lengths in mm.
 */
import type { Fastener } from "../fasteners/types.ts"
import type { Vec3 } from "../solids/types.ts"
import type { Material } from "./types.ts"

/** Places of a pattern: `at` is the mouth of the thread (or the face under the head), `along` the driving direction. */
export type BorePoint = { readonly at: Vec3; readonly along: Vec3 }

export type Bore = {
  /** `gauge.foot`, or the joint's own id for a bore written inside a joint. */
  readonly id: string
  readonly path: string
  /** Part, unit or instance the bore is in, the first of `owners`; undefined for a loose nut. */
  readonly owner: string | undefined
  /** All of them, when the holes of one bore are in several pieces. */
  readonly owners: readonly string[]
  readonly kind: "tapped" | "insert" | "pilot" | "nut"
  /** Nominal diameter and pitch of the thread; undefined for a pilot hole. */
  readonly thread: { readonly diameterMm: number; readonly pitchMm: number } | undefined
  readonly material: Material | undefined
  /** Usable threaded depth; undefined when not known. */
  readonly depthMm: number | undefined
  readonly isThrough: boolean
  /** Pilot or insert hole as modelled. */
  readonly holeMm: number | undefined
  /** Outside diameter of the boss round a pilot or insert hole. */
  readonly bossMm: number | undefined
  readonly count: number
  readonly points: readonly BorePoint[]
  /** Designation of the nut or insert that makes the thread. */
  readonly fastener: Fastener | undefined
}

export type Joint = {
  readonly id: string
  readonly path: string
  readonly name: string
  readonly fastener: Fastener
  readonly itemReference: number
  readonly count: number
  readonly spare: number
  readonly washer: Fastener | undefined
  /** Reference of the washer; nuts have one of their own too. */
  readonly washerReference: number | undefined
  readonly nutReference: number | undefined
  /** Clamped parts or single instances (`strip.left`), head side first. */
  readonly through: readonly string[]
  readonly bore: Bore
  readonly bag: string | undefined
  readonly side: string | undefined
  /** The maker's own tested torque. */
  readonly makerTorqueNm: number | undefined
  readonly tried: string | undefined
  readonly declaredGripMm: number | undefined
  /** Modelled clearance hole, when declared. */
  readonly clearanceMm: number | undefined
  readonly surface: "dry" | "oiled" | "greased" | "thread-lock" | undefined
  /** How long it rests after it is tight, before use (thread lock); undefined when it holds at once. */
  readonly cureMinutes: number | undefined
  /** One a screw, `points[i]` on the axis of `bore.points[i]` where both are known; empty when no holes are known. */
  readonly points: readonly BorePoint[]
  /** What `at` of the points is: the face under the head (holes of the clamped parts known), or the mouth of the thread. */
  readonly pointsAt: "head" | "mouth"
}

/** Screws of a unit on arrival. The bore they sit in is `bore`. */
export type OwnJoint = {
  /** `gauge.foot` */
  readonly id: string
  readonly path: string
  readonly unit: string
  readonly fastener: Fastener
  readonly count: number
  readonly bore: string | undefined
  /** What else these screws hold; then one screw at a time. */
  readonly alsoHolds: string | undefined
  readonly points: readonly BorePoint[]
}
