/** The desk with names and placed pieces: what resolving bores, joints and acts works with. */
import type { Bodies } from "./bodies.ts"
import type { Designations } from "./designations.ts"
import type { Desk } from "./desk.ts"
import type { Names } from "./names.ts"
import type { Placed } from "./pieces.ts"
import type { HoleFinder } from "./placed-holes.ts"

export type Shop = Desk & {
  readonly names: Names
  readonly designations: Designations
  readonly bodies: Bodies
  readonly finder: HoleFinder
  /** Instances by the id of their unit, frame or part, and each instance by its own id. */
  readonly placed: ReadonlyMap<string, Placed>
}
