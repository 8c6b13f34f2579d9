/** Fasteners as their standard designations name them. Lengths in mm. */

/** A fastener as its designation says. */
export type Fastener = {
  /** As printed: `ISO 4762 - M4 x 16 - A2-70`. */
  readonly designation: string
  /** As the maker wrote it. */
  readonly written: string
  readonly kind: "screw" | "nut" | "washer" | "insert"
  /** `ISO 4762`, or undefined for a generic one (`thread-forming pan`). */
  readonly standard: string | undefined
  readonly head: "cap" | "button" | "countersunk" | "pan" | "hexagon" | "none"
  readonly drive:
    | {
        readonly kind: "hexagon-socket" | "hexalobular" | "hexagon" | "cross-pz" | "cross-ph" | "slot"
        readonly size: string
      }
    | undefined
  readonly isThreadForming: boolean
  readonly diameterMm: number
  readonly pitchMm: number
  readonly lengthMm: number | undefined
  readonly propertyClass: string
  /** True when the class was not written and the usual one was taken. */
  readonly isClassAssumed: boolean
}
