/** What a thread is cut in: shear strengths of metals and plastics, engagement that is usual. MPa; engagement in diameters. */
import { type Origin, type Sourced, withOrigin } from "./origin.ts"

const aluminium: Origin = {
  standard: "Aluminum Association, typical properties",
  edition: "",
  table: "ultimate shear strength",
  confidence: "compared",
}

export type ShearRow = { readonly name: string; readonly shearMpa: number }

/** Typical ultimate shear strength of aluminium alloys (not a minimum). The last four from memory. */
export const aluminiumShear = withOrigin<ShearRow>(aluminium, [
  { name: "6061-T6", shearMpa: 205 },
  { name: "6063-T5", shearMpa: 115 },
  { name: "6063-T6", shearMpa: 150 },
  { name: "5052-H32", shearMpa: 140 },
  { name: "2024-T4", shearMpa: 285 },
  { name: "7075-T6", shearMpa: 330 },
  { name: "1060-O", shearMpa: 48 },
  { name: "356.0-T6", shearMpa: 221 },
  { name: "1050-H14", shearMpa: 70 },
  { name: "A380", shearMpa: 190 },
  { name: "ADC12/A383", shearMpa: 180 },
  { name: "6082-T6", shearMpa: 190 },
])

/** Minimum ultimate shear strength Fsu of wrought alloys. */
export const aluminiumLeastShear = withOrigin<ShearRow>(
  { standard: "Aluminum Design Manual", edition: "", table: "minimum Fsu", confidence: "compared" },
  [
    { name: "5083-H116", shearMpa: 180 },
    { name: "5052-H32", shearMpa: 130 },
  ],
)

/** Shear strength as a share of tensile strength. */
export const shearShares = withOrigin(
  { standard: "VDI 2230-1", edition: "2015", table: "section 5.5.5: ratio tauB / Rm", confidence: "memory" },
  [
    { name: "screw steel", share: 0.6 },
    { name: "aluminium", share: 0.6 },
    { name: "austenitic stainless", share: 0.8 },
    { name: "grey cast iron", share: 1.1 },
  ],
)

/** Shear yield as a share of yield (von Mises). */
export const shearYieldShare = 1 / Math.sqrt(3)

export type ParentRow = {
  readonly kind: "aluminium" | "steel" | "stainless" | "brass" | "zinc" | "magnesium" | "iron"
  /** A cautious shear strength for when no alloy is told. */
  readonly shearMpa: number
  readonly shearFrom: string
  /** Shear strength of the strongest usual alloy of the kind; only above it is a torque surely too much. */
  readonly strongestMpa: number
  /** Usual engagement and the shortest that published lists allow, in diameters. */
  readonly usualD: number
  readonly leastD: number
}

/**
 * Parents of a tapped thread when only the kind of metal is known. The strongest: 7075-T6 as above; from memory 0.6 x 1000
 * MPa (steel, quenched and tempered), 0.8 x 800 (stainless, cold worked), 0.6 x 500 (brass), ZA-27, ZK60, 1.1 x 350 (GJL-350).
 */
const parentTable = withOrigin<ParentRow>(
  {
    standard: "recommended engagement, cut threads 6g/6H",
    edition: "",
    table: "least and usual engagement by material",
    confidence: "compared",
  },
  [
    {
      kind: "aluminium",
      shearMpa: 115,
      shearFrom: "6063-T5, a weak extruded alloy",
      strongestMpa: 330,
      usualD: 2,
      leastD: 1.5,
    },
    { kind: "steel", shearMpa: 216, shearFrom: "S235: 0.6 x 360 MPa", strongestMpa: 600, usualD: 1, leastD: 0.8 },
    {
      kind: "stainless",
      shearMpa: 300,
      shearFrom: "annealed sheet: 0.6 x 500 MPa",
      strongestMpa: 640,
      usualD: 1,
      leastD: 0.8,
    },
    {
      kind: "brass",
      shearMpa: 200,
      shearFrom: "free-cutting brass: about 0.6 x 340 MPa, from memory",
      strongestMpa: 300,
      usualD: 1,
      leastD: 0.8,
    },
    {
      kind: "zinc",
      shearMpa: 200,
      shearFrom: "die-cast zinc alloys, from memory",
      strongestMpa: 325,
      usualD: 1.5,
      leastD: 1,
    },
    { kind: "magnesium", shearMpa: 140, shearFrom: "AZ91, from memory", strongestMpa: 165, usualD: 2, leastD: 1.5 },
    {
      kind: "iron",
      shearMpa: 220,
      shearFrom: "grey cast iron GJL-200: 1.1 x 200 MPa",
      strongestMpa: 385,
      usualD: 1.25,
      leastD: 1,
    },
  ],
)

/** Parent metal, with the alloy's own shear strength when its name is written (`aluminium 6061-T6`). */
export function findParent(kind: string, name: string): Sourced<ParentRow> | undefined {
  const row = parentTable.find(
    (one) => one.kind === kind || (kind === "other" && name.toLowerCase().includes(one.kind)),
  )
  if (row === undefined) return undefined
  const alloy = aluminiumShear.find((one) => name.toLowerCase().includes(one.name.toLowerCase()))
  return alloy === undefined
    ? row
    : { ...row, shearMpa: alloy.shearMpa, strongestMpa: alloy.shearMpa, shearFrom: `${alloy.name}, typical` }
}

/** Recommended engagement of coarse cut threads M6 to M16 by parent and screw class, in diameters. */
export const recommendedEngagement = withOrigin(
  {
    standard: "recommended engagement, cut threads 6g/6H",
    edition: "",
    table: "engagement by parent and screw class",
    confidence: "compared",
  },
  [
    { parent: "S235", engagementD: { "8.8": 1, "10.9": 1.25 } },
    { parent: "S355/E285", engagementD: { "8.8": 0.9, "10.9": 1, "12.9": 1.2 } },
    { parent: "GJL-250", engagementD: { "10.9": 1.25, "12.9": 1.4 } },
    { parent: "Al99.5", engagementD: { "8.8": 2 } },
    { parent: "AlMg3", engagementD: { "8.8": 2 } },
  ] as readonly { readonly parent: string; readonly engagementD: Readonly<Record<string, number>> }[],
)

/** Rules of thumb for the least engagement by parent, in diameters. */
export const engagementRules = withOrigin(
  { standard: "common practice", edition: "", table: "engagement by parent", confidence: "practice" },
  [
    { parent: "steel", engagementD: 1 },
    { parent: "grey cast iron", engagementD: 1.25 },
    { parent: "brass", engagementD: 1.25 },
    { parent: "aluminium wrought", engagementD: 2 },
    { parent: "aluminium die cast", engagementD: 2 },
    { parent: "magnesium", engagementD: 2 },
    { parent: "plastic", engagementD: 2.5 },
  ],
)
