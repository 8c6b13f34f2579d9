/** ISO 898-1 (steel screws), ISO 898-2 (nuts) and ISO 3506-1 (stainless screws): strengths by class. MPa, torques in N*m. */
import { type Origin, type Sourced, withOrigin } from "./origin.ts"

const screwOrigin: Origin = {
  standard: "ISO 898-1",
  edition: "2013",
  table: "table 3: Rm nom, Rm min, ReL / Rpf / Rp0.2 min, Sp nom",
  confidence: "compared",
}

export type ClassRow = {
  readonly name: string
  /** Undefined where the standard gives only a minimum. */
  readonly nominalStrengthMpa: number | undefined
  readonly leastStrengthMpa: number
  /** Lower yield, Rpf or Rp0.2, the minimum. */
  readonly yieldMpa: number
  /** Undefined for stainless classes. */
  readonly proofMpa: number | undefined
  /** Elongation after fracture in diameters, stainless only. */
  readonly elongationD: number | undefined
}

/** Classes of steel screws up to M16; 8.8 above M16 is a row of its own. */
const steelClasses = withOrigin<ClassRow>(screwOrigin, [
  steel("4.6", 400, 400, 240, 225),
  steel("4.8", 400, 420, 340, 310),
  steel("5.6", 500, 500, 300, 280),
  steel("5.8", 500, 520, 420, 380),
  steel("6.8", 600, 600, 480, 440),
  steel("8.8", 800, 800, 640, 580),
  steel("9.8", 900, 900, 720, 650),
  steel("10.9", 1000, 1040, 940, 830),
  steel("12.9", 1200, 1220, 1100, 970),
])

const largeClass88: Sourced<ClassRow> = { ...steel("8.8", 800, 830, 660, 600), origin: screwOrigin }

const stainlessOrigin: Origin = {
  standard: "ISO 3506-1",
  edition: "2020",
  table: "table 2: Rm min, Rp0.2 min, A min",
  confidence: "compared",
}

/** Classes of austenitic stainless screws up to M24. */
const stainlessClasses = withOrigin<ClassRow>(
  stainlessOrigin,
  ["A1", "A2", "A3", "A4", "A5"].flatMap((group) => [
    stainless(`${group}-50`, 500, 210, 0.6),
    stainless(`${group}-70`, 700, 450, 0.4),
    stainless(`${group}-80`, 800, 600, 0.3),
    stainless(`${group}-100`, 1000, 800, 0.2),
  ]),
)

function steel(name: string, nominal: number, least: number, yieldMpa: number, proofMpa: number): ClassRow {
  return { name, nominalStrengthMpa: nominal, leastStrengthMpa: least, yieldMpa, proofMpa, elongationD: undefined }
}

function stainless(name: string, least: number, yieldMpa: number, elongationD: number): ClassRow {
  return { name, nominalStrengthMpa: undefined, leastStrengthMpa: least, yieldMpa, proofMpa: undefined, elongationD }
}

/**
 * Strengths of a property class. `08.8`, `010.9` and `012.9` have the material of 8.8, 10.9, 12.9 (reduced loadability
 * comes from the head). A bare `steel` gives undefined.
 */
export function findClass(name: string, diameterMm: number): Sourced<ClassRow> | undefined {
  const plain = name.replace(/^0(?=\d+\.)/, "")
  if (plain === "8.8" && diameterMm > 16) return largeClass88
  return [...steelClasses, ...stainlessClasses].find((row) => row.name === plain)
}

/** By thread: least breaking torque of stainless screws of class 50, 70, 80. */
const breakingTorques = withOrigin(
  { standard: "ISO 3506-1", edition: "2020", table: "table 4: MB min", confidence: "compared" },
  [
    { diameterMm: 1.6, torqueNm: { 50: 0.15, 70: 0.2, 80: 0.24 } },
    { diameterMm: 2, torqueNm: { 50: 0.3, 70: 0.4, 80: 0.48 } },
    { diameterMm: 2.5, torqueNm: { 50: 0.6, 70: 0.9, 80: 0.96 } },
    { diameterMm: 3, torqueNm: { 50: 1.1, 70: 1.6, 80: 1.8 } },
    { diameterMm: 4, torqueNm: { 50: 2.7, 70: 3.8, 80: 4.3 } },
    { diameterMm: 5, torqueNm: { 50: 5.5, 70: 7.8, 80: 8.8 } },
    { diameterMm: 6, torqueNm: { 50: 9.3, 70: 13, 80: 15 } },
    { diameterMm: 8, torqueNm: { 50: 23, 70: 32, 80: 37 } },
    { diameterMm: 10, torqueNm: { 50: 46, 70: 65, 80: 74 } },
    { diameterMm: 12, torqueNm: { 50: 80, 70: 110, 80: 130 } },
    { diameterMm: 16, torqueNm: { 50: 210, 70: 290, 80: 330 } },
  ],
)

/** Least breaking torque of a stainless screw such as `A2-70`; undefined when not listed. */
export function findBreakingTorqueNm(name: string, diameterMm: number): number | undefined {
  const row = breakingTorques.find((one) => one.diameterMm === diameterMm)
  const level = name.split("-")[1]
  return level === "50" || level === "70" || level === "80" ? row?.torqueNm[level] : undefined
}

/**
 * Proof stress that a nut bears. ISO 898-2: class n of a regular nut bears n x 100 MPa at least;
 * thin nuts 04 and 05 bear 380 and 500 MPa (from memory). Stainless nuts (ISO 3506-2) bear the stress in their name.
 */
export function nutProofMpa(propertyClass: string): number | undefined {
  if (propertyClass === "04") return 380
  if (propertyClass === "05") return 500
  if (/^(?:4|5|6|8|10|12)$/.test(propertyClass)) return Number(propertyClass) * 100
  const group = /^A[1-5]-(\d+)$/.exec(propertyClass)
  return group === null ? undefined : Number(group[1]) * 10
}
