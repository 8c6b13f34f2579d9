/** Friction of screws by surface, and the nut factor K. Ranges after VDI 2230-1 table A5 (from memory) and handbook tables. */
import { type Origin, withOrigin } from "./origin.ts"

const origin: Origin = {
  standard: "VDI 2230-1",
  edition: "2015",
  table: "table A5: friction classes B, C, D",
  confidence: "memory",
}

export type FrictionRow = {
  readonly surface: "dry" | "oiled" | "greased" | "thread-lock"
  readonly isStainless: boolean
  /** Lowest and highest friction to reckon with, the same in thread and under the head. */
  readonly low: number
  readonly high: number
}

/** The lowest friction gives the torque (so that the screw does not yield), the highest the least clamp force. */
const frictionTable = withOrigin<FrictionRow>(origin, [
  { surface: "dry", isStainless: false, low: 0.1, high: 0.16 },
  { surface: "oiled", isStainless: false, low: 0.08, high: 0.14 },
  { surface: "greased", isStainless: false, low: 0.06, high: 0.12 },
  { surface: "thread-lock", isStainless: false, low: 0.1, high: 0.18 },
  { surface: "dry", isStainless: true, low: 0.14, high: 0.3 },
  { surface: "oiled", isStainless: true, low: 0.1, high: 0.2 },
  { surface: "greased", isStainless: true, low: 0.08, high: 0.16 },
  { surface: "thread-lock", isStainless: true, low: 0.14, high: 0.25 },
])

/** Friction of a surface; `dry` (as received) when none is told. */
export function findFriction(surface: FrictionRow["surface"] | undefined, isStainless: boolean): FrictionRow {
  const row = frictionTable.find((one) => one.surface === (surface ?? "dry") && one.isStainless === isStainless)
  return row ?? { surface: "dry", isStainless, low: 0.1, high: 0.3 }
}

/** Typical nut factors and the ranges they were measured in. */
export const nutFactors = withOrigin(
  { standard: "handbook K tables", edition: "", table: "nut factor by condition", confidence: "compared" },
  [
    { condition: "non-plated, dry/as received", typical: 0.2, low: 0.18, high: 0.27 },
    { condition: "lubricated (machine oil)", typical: 0.15, low: 0.1, high: 0.26 },
    { condition: "zinc plated, dry", typical: 0.2, low: 0.17, high: 0.35 },
    { condition: "zinc plated, oiled", typical: 0.16, low: 0.12, high: 0.22 },
    { condition: "cadmium plated", typical: 0.16, low: 0.15, high: 0.19 },
    { condition: "stainless on stainless, dry", typical: 0.3, low: 0.3, high: 0.5 },
    { condition: "anti-seize", typical: 0.12, low: 0.12, high: 0.16 },
  ],
)
