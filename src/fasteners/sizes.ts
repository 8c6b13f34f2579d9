/** Sizes of a fastener from the tables: head, nut, washer, insert. Lengths in mm; undefined where no table gives them. */
import { findNutStandard, findScrewStandard, findWasherStandard } from "./standards.ts"
import type { HeadRow } from "./tables/heads.ts"
import { type InsertRow, insertTable } from "./tables/inserts.ts"
import { iso7045 } from "./tables/iso-7045.ts"
import { iso10642 } from "./tables/iso-10642.ts"
import type { NutRow } from "./tables/nuts.ts"
import type { Sourced } from "./tables/origin.ts"
import type { WasherRow } from "./tables/washers.ts"
import type { Fastener } from "./types.ts"

export type HeadSize = {
  readonly diameterMm: number
  readonly heightMm: number
  /** Outer diameter of the face that presses. */
  readonly bearingMm: number
  /** `ISO 4762`, or how the size was guessed. */
  readonly from: string
}

/**
 * Head of a screw. A screw without a standard takes the heads of ISO 7045 (pan) or ISO 10642 (countersunk);
 * a size that no table lists takes 1.75 d x 0.6 d. Nuts, washers and inserts have no head: zero.
 */
export function findHead(fastener: Fastener): HeadSize {
  const { kind, standard, head, diameterMm } = fastener
  if (kind !== "screw") return { diameterMm: 0, heightMm: 0, bearingMm: 0, from: "no head" }
  const row = findHeadRow(fastener)
  if (row !== undefined) {
    const from = standard ?? `sizes as ${head === "countersunk" ? "ISO 10642" : "ISO 7045"}`
    return { diameterMm: row.headDiameterMm, heightMm: row.headHeightMm, bearingMm: row.bearingDiameterMm, from }
  }
  return {
    diameterMm: 1.75 * diameterMm,
    heightMm: 0.6 * diameterMm,
    bearingMm: 1.6 * diameterMm,
    from: "1.75 d, no table",
  }
}

/** Row of the head table, undefined when the size is not listed. */
export function findHeadRow(fastener: Fastener): Sourced<HeadRow> | undefined {
  const generic = fastener.head === "countersunk" ? iso10642 : iso7045
  const table = fastener.standard === undefined ? generic : findScrewStandard(fastener.standard)
  return table?.rows.find((row) => row.diameterMm === fastener.diameterMm)
}

/** Thread length of a screw: `b` of its standard, never more than the screw; the whole screw when threaded to the head. */
export function findThreadLengthMm(fastener: Fastener): number | undefined {
  if (fastener.lengthMm === undefined) return undefined
  const rule = findScrewStandard(fastener.standard)?.thread ?? "full"
  if (rule === "full") return fastener.lengthMm
  const extra = rule === "2d+12" ? 12 : fastener.lengthMm > 200 ? 25 : fastener.lengthMm > 125 ? 12 : 6
  return Math.min(fastener.lengthMm, 2 * fastener.diameterMm + extra)
}

/** Nut of its standard and size. */
export function findNut(fastener: Fastener): Sourced<NutRow> | undefined {
  return findNutStandard(fastener.standard)?.rows.find((row) => row.diameterMm === fastener.diameterMm)
}

/** Washer of its standard and size. */
export function findWasher(fastener: Fastener): Sourced<WasherRow> | undefined {
  return findWasherStandard(fastener.standard)?.rows.find((row) => row.diameterMm === fastener.diameterMm)
}

/** Heat-set insert of that thread; its length is the one written, else the long series. */
export function findInsert(fastener: Fastener): Sourced<InsertRow> | undefined {
  const row = insertTable.find((one) => one.diameterMm === fastener.diameterMm)
  return row === undefined ? undefined : { ...row, lengthMm: fastener.lengthMm ?? row.lengthMm }
}
