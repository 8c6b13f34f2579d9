/** Plastics: strength, screw bosses, pressure under a head. MPa; hole, boss and engagement in diameters of the screw. */
import { type Origin, type Sourced, withOrigin } from "./origin.ts"

export type BossRow = {
  readonly plastic: string
  /** Pilot hole, boss outside diameter and engagement of a thread-forming screw for plastics, each times d. */
  readonly holeD: number
  readonly bossD: number
  readonly engagementD: number
}

const compared: Origin = {
  standard: "screw makers' tables for 30 degree thread-forming screws",
  edition: "",
  table: "hole, boss and engagement factors, moulded plastics",
  confidence: "compared",
}
const memory: Origin = { ...compared, confidence: "memory" }

/** Moulded plastics; printed parts take the row of their plastic as a starting value. */
export const bossTable: readonly Sourced<BossRow>[] = [
  ...withOrigin<BossRow>(compared, [
    { plastic: "ABS", holeD: 0.8, bossD: 2, engagementD: 2 },
    { plastic: "ABS+PC", holeD: 0.8, bossD: 2, engagementD: 2 },
    { plastic: "ASA", holeD: 0.78, bossD: 2, engagementD: 2 },
    { plastic: "PA46", holeD: 0.73, bossD: 1.85, engagementD: 1.8 },
    { plastic: "PA46-GF30", holeD: 0.78, bossD: 1.85, engagementD: 1.8 },
    { plastic: "PA6", holeD: 0.75, bossD: 1.85, engagementD: 1.7 },
    { plastic: "PA6-GF30", holeD: 0.8, bossD: 2, engagementD: 1.9 },
    { plastic: "PA66", holeD: 0.75, bossD: 1.85, engagementD: 1.7 },
    { plastic: "PA66-GF30", holeD: 0.82, bossD: 2, engagementD: 1.8 },
    { plastic: "PBT", holeD: 0.75, bossD: 1.85, engagementD: 1.7 },
  ]),
  ...withOrigin<BossRow>(memory, [
    { plastic: "PC", holeD: 0.85, bossD: 2.5, engagementD: 2.2 },
    { plastic: "PP", holeD: 0.7, bossD: 2, engagementD: 2 },
    { plastic: "POM", holeD: 0.75, bossD: 1.95, engagementD: 2 },
    { plastic: "PMMA", holeD: 0.85, bossD: 2, engagementD: 2 },
    { plastic: "PET", holeD: 0.75, bossD: 1.85, engagementD: 1.7 },
    { plastic: "PET-GF30", holeD: 0.8, bossD: 1.8, engagementD: 1.7 },
    { plastic: "PBT-GF30", holeD: 0.8, bossD: 1.8, engagementD: 1.7 },
    { plastic: "PC-GF30", holeD: 0.85, bossD: 2.2, engagementD: 2 },
    { plastic: "POM-GF30", holeD: 0.8, bossD: 1.95, engagementD: 2 },
    { plastic: "PPS-GF40", holeD: 0.87, bossD: 2.5, engagementD: 2.2 },
    { plastic: "PE (hard)", holeD: 0.75, bossD: 1.8, engagementD: 1.8 },
    { plastic: "PS", holeD: 0.8, bossD: 2, engagementD: 2 },
  ]),
]

export type PlasticRow = {
  readonly plastic: string
  /** Tensile strength of printed parts along the layers and across them, as ranges. */
  readonly alongMpa: readonly [number, number]
  readonly acrossMpa: readonly [number, number]
  /** Short-term limit of the pressure under a head, moulded: about half the compressive yield. */
  readonly pressureMpa: number
}

const printed: Origin = {
  standard: "data sheets of filaments and powders",
  edition: "",
  table: "printed tensile strength; pressure limit about half the compressive yield",
  confidence: "memory",
}

/** Printed plastics. Strengths vary with printer and settings: always shown as a band. */
export const plasticTable = withOrigin<PlasticRow>(printed, [
  { plastic: "PETG", alongMpa: [44, 56], acrossMpa: [25, 38], pressureMpa: 20 },
  { plastic: "PC", alongMpa: [58, 75], acrossMpa: [35, 52], pressureMpa: 30 },
  { plastic: "PLA", alongMpa: [50, 65], acrossMpa: [35, 45], pressureMpa: 30 },
  { plastic: "ABS", alongMpa: [30, 38], acrossMpa: [18, 26], pressureMpa: 20 },
  { plastic: "ASA", alongMpa: [38, 48], acrossMpa: [22, 32], pressureMpa: 20 },
  { plastic: "PA6", alongMpa: [50, 65], acrossMpa: [30, 40], pressureMpa: 25 },
  { plastic: "PA12", alongMpa: [40, 48], acrossMpa: [28, 36], pressureMpa: 20 },
  { plastic: "PA12 SLS", alongMpa: [46, 50], acrossMpa: [42, 50], pressureMpa: 20 },
])

/** A plastic of which nothing is known: the weakest row. */
const unknownPlastic: PlasticRow = {
  plastic: "unknown plastic",
  alongMpa: [30, 50],
  acrossMpa: [18, 30],
  pressureMpa: 15,
}

/** Boss factors when the plastic has no row: ranges of common practice. */
const unknownBoss: BossRow = { plastic: "unknown plastic", holeD: 0.8, bossD: 2, engagementD: 2 }

/** Row of the boss table for a plastic as a maker names it: `PETG` takes PET, `PA12` takes PA6, `Nylon` takes PA6. */
export function findBoss(name: string): BossRow {
  const plain = nameOf(name)
  const alias: Readonly<Record<string, string>> = { PETG: "PET", PA12: "PA6", PA11: "PA6", PA: "PA6" }
  const wanted = alias[plain] ?? plain
  return bossTable.find(({ plastic }) => plastic.toUpperCase() === wanted) ?? unknownBoss
}

/** Strength of a printed plastic; the weakest when it is not listed. */
export function findPlastic(name: string): PlasticRow {
  const plain = nameOf(name)
  const isPowder = plain === "PA12" && /\b(?:SLS|MJF)\b/i.test(name)
  const wanted = isPowder ? "PA12 SLS" : ["PA", "PA66", "PA11"].includes(plain) ? "PA6" : plain
  return plasticTable.find(({ plastic }) => plastic === wanted) ?? unknownPlastic
}

/** Upper case without grade: `PA-CF` stays PA, `petg (black)` becomes PETG, `nylon` becomes PA. */
function nameOf(name: string): string {
  const first = /^[A-Za-z]+\d*/.exec(name.trim())?.[0]?.toUpperCase() ?? ""
  return first === "NYLON" ? "PA" : first
}

/** Share of a short-term strength that printed plastic keeps across its layers and for long: 0.4 to 0.7, from the rows above. */
export const lastingShare = 0.5

/** Pull-out of heat-set inserts as a share of (shear strength x cylinder round the insert); see the test's worked example. */
export const insertShares: readonly [number, number] = [0.35, 0.6]

/** Tightening torque of a screw in plastic as a share of the torque that strips it. */
export const stripShares: readonly [number, number] = [0.5, 0.7]

/** Friction of a steel screw in plastic (from memory). */
export const plasticFriction: readonly [number, number] = [0.2, 0.35]

/** Limiting surface pressure under a head on metal, pG. */
export const pressureTable = withOrigin(
  { standard: "VDI 2230-1", edition: "2003", table: "table A9: pG", confidence: "compared" },
  [
    { material: "S235", pressureMpa: 490 },
    { material: "E295", pressureMpa: 710 },
    { material: "S355", pressureMpa: 760 },
    { material: "1.4303", pressureMpa: 630 },
    { material: "AlMgSi1 F28", pressureMpa: 230 },
    { material: "GK-AlSi9Cu3", pressureMpa: 220 },
    { material: "AZ91", pressureMpa: 280 },
    { material: "GJL-250", pressureMpa: 900 },
  ],
)
