/** Ties round the frame: loop, length, slot, strength. */
import type { Kit, Tie } from "../kit/types.ts"
import type { TieFit } from "./types.ts"

/** Computes the facts of one tie. */
export function computeTie(_kit: Kit, tie: Tie): TieFit {
  return {
    tie: tie.id,
    loopMm: undefined,
    neededMm: undefined,
    suppliedMm: tie.lengthMm,
    slotFits: undefined,
    load: undefined,
    calculations: [],
  }
}
