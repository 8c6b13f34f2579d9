/**
 * Torque of a joint: the smallest of what the screw, the thread it goes into and the plastic under the head bear; the
 * maker's own value wins and is kept beside it. Calculated starting values, each as a `Calculation` with its numbers.
 */
import { bearingAreaMm2, computePlasticThread, insertPullOutN, plasticSource } from "../fasteners/plastic-joint.ts"
import { findHead, findInsert, findNut, findWasher } from "../fasteners/sizes.ts"
import { findScrewStandard } from "../fasteners/standards.ts"
import { leastMaterialAreas, strippingSource } from "../fasteners/stripping.ts"
import { findFriction } from "../fasteners/tables/friction.ts"
import { findClass, nutProofMpa } from "../fasteners/tables/iso-898-1.ts"
import { nameOrigin } from "../fasteners/tables/origin.ts"
import { findParent } from "../fasteners/tables/parents.ts"
import { findBoss, findPlastic, lastingShare, plasticFriction } from "../fasteners/tables/plastics.ts"
import { computeThread, computeThreadLimits, type Thread } from "../fasteners/threads.ts"
import { computeLeverMm, computePreloadN, tighteningSource } from "../fasteners/tightening.ts"
import type { Joint } from "../kit/joint-types.ts"
import type { Kit, Material } from "../kit/types.ts"
import { boreLengthMm } from "./engagement.ts"
import { partOf } from "./finished.ts"
import type { Calculation, TorqueFit } from "./types.ts"

/** Safety of the thread in the parent against the preload of the torque (common practice). */
const threadSafety = 1.5
/** Compressive yield over the short-term pressure limit, which is about half of it (see the pressure table). */
const yieldFactor = 2
/** Safety of an insert against its pull-out (common practice). */
const insertSafety = 2

/** Everything the limits need about one joint. */
export type JointContext = {
  readonly kit: Kit
  readonly joint: Joint
  readonly engagementMm: number | undefined
  /** Finished clearance hole, else ISO 273 medium. */
  readonly holeMm: number
}

/**
 * Computes all limits that apply and the torque to print, in N*m to two figures. Where one limit cannot be computed the
 * smallest of the others would be unsafe, so only the maker's value is printed.
 */
export function computeTorque(context: JointContext): TorqueFit {
  const { joint } = context
  const limits = computeLimits(context)
  const missing = missingFor(context)
  const governing = limits.reduce<Calculation | undefined>(
    (least, limit) => (least === undefined || limit.value < least.value ? limit : least),
    undefined,
  )
  const computedNm = governing === undefined || missing.length > 0 ? undefined : Number(governing.value.toPrecision(2))
  const valueNm = joint.makerTorqueNm ?? computedNm
  return {
    valueNm,
    origin: valueNm === undefined ? undefined : joint.makerTorqueNm === undefined ? "computed" : "maker",
    computedNm,
    missing,
    governing: governing?.name,
    limits,
    band: governing?.band,
  }
}

/** What a limit of this joint hangs on and is not known, in words that follow "without". */
function missingFor(context: JointContext): readonly string[] {
  const { joint, engagementMm } = context
  const { bore, fastener } = joint
  if (bore.kind === "nut" || bore.kind === "insert") return []
  const isPlastic = plasticOfBore(context) !== undefined
  const { kind = "", name = "" } = bore.material ?? {}
  const isKnown = isPlastic || (!fastener.isThreadForming && findParent(kind, name) !== undefined)
  return [
    ...(isKnown ? [] : [`the strength of the material of \`${bore.id}\``]),
    ...(engagementMm === undefined ? ["the grip"] : []),
  ]
}

/** All limits of a joint, screw first. */
function computeLimits(context: JointContext): readonly Calculation[] {
  return [
    limitOfScrew(context),
    limitOfNut(context),
    limitOfParent(context),
    limitOfFormedThread(context),
    limitOfInsert(context),
    ...limitsUnderHead(context),
  ].filter((limit) => limit !== undefined)
}

/** Pressing diameters under head or washer. */
function bearingOf({ joint, holeMm }: JointContext): {
  readonly outerMm: number
  readonly holeMm: number
  readonly what: string
} {
  const washer = joint.washer === undefined ? undefined : findWasher(joint.washer)
  if (washer !== undefined) return { outerMm: washer.outerMm, holeMm: Math.max(washer.innerMm, holeMm), what: "washer" }
  const { bearingMm } = findHead(joint.fastener)
  // A hole larger than the face that presses leaves no ring; the lever still needs one.
  return {
    outerMm: Math.max(bearingMm, joint.fastener.diameterMm * 1.2),
    holeMm: Math.min(holeMm, bearingMm),
    what: "head",
  }
}

type Levers = {
  readonly thread: Thread
  /** Friction in the thread, the lowest and the highest to reckon with. */
  readonly low: number
  readonly high: number
  readonly lowMm: number
  readonly highMm: number
}

/** Levers between force and torque at the lowest and the highest friction, of thread and head each. */
function leversOf(context: JointContext): Levers {
  const { joint, kit, holeMm } = context
  const { fastener } = joint
  const basic = computeThread(fastener.diameterMm, fastener.pitchMm)
  // A formed thread rubs half way between its pilot hole and the outside of the screw.
  const formedMm = (fastener.diameterMm * (1 + findBoss(plasticOfBore(context)?.name ?? "").holeD)) / 2
  const thread = fastener.isThreadForming ? { ...basic, pitchDiameterMm: formedMm } : basic
  const metal = findFriction(joint.surface, fastener.propertyClass.startsWith("A"))
  const inPlastic = { low: plasticFriction[0], high: plasticFriction[1] }
  const inThread = plasticOfBore(context) === undefined || joint.bore.kind === "insert" ? metal : inPlastic
  const isOnPlastic = joint.washer === undefined && partOf(kit, joint.through[0])?.material?.kind === "plastic"
  const underHead = isOnPlastic ? inPlastic : metal
  // The head turns, not the washer: the ring that rubs is that of the head.
  const { bearingMm } = findHead(fastener)
  const bearing = { outerMm: Math.max(bearingMm, fastener.diameterMm * 1.2), holeMm: Math.min(holeMm, bearingMm) }
  const lever = (end: "low" | "high"): number =>
    computeLeverMm(thread, { thread: inThread[end], head: underHead[end] }, bearing)
  return { thread, low: inThread.low, high: inThread.high, lowMm: lever("low"), highMm: lever("high") }
}

/** Plastic that the thread is formed or set in. */
function plasticOfBore({ joint, kit }: JointContext): Material | undefined {
  const material = joint.bore.material ?? partOf(kit, joint.bore.owner)?.material
  return material?.kind === "plastic" ? material : undefined
}

/** Turns a force limit into a torque limit, at the lowest friction; the band runs to the highest. */
function limitFromForce(
  context: JointContext,
  name: string,
  force: { readonly valueN: number; readonly lowN: number; readonly highN: number },
  inputs: Calculation["inputs"],
  forceFormula: string,
  source: string,
): Calculation {
  const { low, high, lowMm, highMm } = leversOf(context)
  return {
    name,
    inputs: [
      ...inputs,
      { name: "force", symbol: "F", value: force.valueN, unit: "N" },
      { name: "lowest friction in the thread", symbol: "mu", value: low, unit: "" },
      { name: "highest friction in the thread", symbol: "mu high", value: high, unit: "" },
      { name: "lever at the lowest friction", symbol: "a", value: lowMm, unit: "mm" },
      { name: "lever at the highest friction", symbol: "a high", value: highMm, unit: "mm" },
    ],
    formula: `${forceFormula}; a = 0.16 P + 0.58 d2 mu + DKm / 2 muK; M = F a`,
    value: (force.valueN * lowMm) / 1000,
    band: { min: (force.lowN * lowMm) / 1000, max: (force.highN * highMm) / 1000 },
    unit: "N·m",
    source: `${source}; ${tighteningSource}`,
  }
}

function limitOfScrew(context: JointContext): Calculation | undefined {
  const { fastener } = context.joint
  const row = findClass(fastener.propertyClass, fastener.diameterMm)
  if (row === undefined || fastener.isThreadForming) return undefined
  const { thread, low, high } = leversOf(context)
  const factor = findScrewStandard(fastener.standard)?.loadFactor ?? 1
  const yieldMpa = row.yieldMpa * factor
  const valueN = computePreloadN(thread, yieldMpa, low)
  const highN = computePreloadN(thread, yieldMpa, high)
  const inputs = [
    { name: "stress area", symbol: "As", value: thread.stressAreaMm2, unit: "mm²" },
    { name: "yield strength", symbol: "Rp", value: row.yieldMpa, unit: "MPa" },
    ...(factor === 1 ? [] : [{ name: "reduced loadability of the head", symbol: "k", value: factor, unit: "" }]),
    { name: "pitch", symbol: "P", value: thread.pitchMm, unit: "mm" },
    { name: "pitch diameter", symbol: "d2", value: thread.pitchDiameterMm, unit: "mm" },
  ]
  const formula = `F = As 0.9 ${factor === 1 ? "" : "k "}Rp / sqrt(1 + 3 (3/2 d2/ds (P / (pi d2) + 1.155 mu))^2)`
  const source = nameOrigin(row.origin)
  return limitFromForce(
    context,
    `screw of class ${fastener.propertyClass} yields`,
    { valueN, lowN: valueN, highN },
    inputs,
    formula,
    source,
  )
}

function limitOfNut(context: JointContext): Calculation | undefined {
  const { bore, fastener } = context.joint
  const proofMpa =
    bore.kind === "nut" && bore.fastener !== undefined ? nutProofMpa(bore.fastener.propertyClass) : undefined
  if (proofMpa === undefined) return undefined
  const thread = computeThread(fastener.diameterMm, fastener.pitchMm)
  const valueN = thread.nominalStressAreaMm2 * proofMpa
  const inputs = [
    { name: "stress area", symbol: "As", value: thread.nominalStressAreaMm2, unit: "mm²" },
    { name: "proof stress of the nut", symbol: "Sp", value: proofMpa, unit: "MPa" },
  ]
  const name = `nut of class ${bore.fastener?.propertyClass ?? ""} strips`
  return limitFromForce(
    context,
    name,
    { valueN, lowN: valueN, highN: valueN },
    inputs,
    "F = As Sp",
    "ISO 898-2:2022, proof load",
  )
}

function limitOfParent(context: JointContext): Calculation | undefined {
  const { joint, engagementMm } = context
  const { bore, fastener } = joint
  if (bore.kind !== "tapped" || engagementMm === undefined || fastener.isThreadForming) return undefined
  const parent = findParent(bore.material?.kind ?? "", bore.material?.name ?? "")
  if (parent === undefined) return undefined
  const thread = computeThread(fastener.diameterMm, fastener.pitchMm)
  const { internalMm2 } = leastMaterialAreas(thread, computeThreadLimits(thread))
  const bearingMm = Math.max(0, engagementMm - thread.pitchMm)
  const stripN = parent.shearMpa * internalMm2 * bearingMm
  // Where no alloy is named, a torque is too much for sure only when the strongest would strip too.
  const mostN = parent.strongestMpa * internalMm2 * bearingMm
  const inputs = [
    { name: "shear strength", symbol: "tau", value: parent.shearMpa, unit: "MPa" },
    { name: "shear strength of the strongest alloy", symbol: "tau high", value: parent.strongestMpa, unit: "MPa" },
    { name: "shear area for each mm", symbol: "A", value: internalMm2, unit: "mm²/mm" },
    { name: "engagement less one pitch", symbol: "LE", value: bearingMm, unit: "mm" },
    { name: "safety", symbol: "S", value: threadSafety, unit: "" },
  ]
  const source = `${strippingSource}; tau of ${parent.shearFrom}`
  const force = { valueN: stripN / threadSafety, lowN: stripN / threadSafety, highN: mostN }
  return limitFromForce(context, `thread in ${parent.kind} strips`, force, inputs, "F = tau A LE / S", source)
}

function limitOfFormedThread(context: JointContext): Calculation | undefined {
  const { joint, engagementMm, holeMm } = context
  const { bore, fastener } = joint
  const material = plasticOfBore(context)
  const isFormed = bore.kind === "pilot" || bore.kind === "tapped"
  if (!isFormed || material === undefined || engagementMm === undefined) return undefined
  const { bearingMm } = findHead(fastener)
  const result = computePlasticThread({
    plasticName: material.name,
    diameterMm: fastener.diameterMm,
    pitchMm: fastener.pitchMm,
    engagementMm,
    headBearingMm: bearingMm,
    holeMm: Math.min(holeMm, bearingMm),
  })
  return {
    name: `thread formed in ${material.name} strips`,
    inputs: [
      { name: "shear strength across layers, weak print", symbol: "tau low", value: result.shearMpa.min, unit: "MPa" },
      {
        name: "shear strength along layers, strong print",
        symbol: "tau high",
        value: result.shearMpa.max,
        unit: "MPa",
      },
      { name: "sheared cylinder", symbol: "A", value: result.areaMm2, unit: "mm²" },
      { name: "friction, low", symbol: "mu low", value: plasticFriction[0], unit: "" },
      { name: "friction, high", symbol: "mu high", value: plasticFriction[1], unit: "" },
      { name: "torque that strips, least", symbol: "M low", value: result.stripTorqueNm.min, unit: "N·m" },
      { name: "torque that strips, most", symbol: "M high", value: result.stripTorqueNm.max, unit: "N·m" },
    ],
    formula: "A = pi d (LE - P); M = tau A (0.16 P + 0.58 d2 mu + DKm / 2 mu); value = 0.5 sqrt(M low M high)",
    value: result.valueNm,
    band: { min: result.torqueNm.min, max: result.stripTorqueNm.max },
    unit: "N·m",
    source: plasticSource,
  }
}

function limitOfInsert(context: JointContext): Calculation | undefined {
  const { joint } = context
  const { bore, fastener } = joint
  if (bore.kind !== "insert") return undefined
  const insert = findInsert(bore.fastener ?? { ...fastener, kind: "insert", lengthMm: undefined })
  if (insert === undefined) return undefined
  const plastic = plasticOfBore(context)?.name ?? ""
  const lengthMm = Math.min(insert.lengthMm, boreLengthMm(context.kit, joint) ?? insert.lengthMm)
  const pullOutN = insertPullOutN(plastic, insert.outerMm, lengthMm)
  const middleN = Math.sqrt(pullOutN.min * pullOutN.max)
  const inputs = [
    { name: "outer diameter of the insert", symbol: "D", value: insert.outerMm, unit: "mm" },
    { name: "length of the insert", symbol: "L", value: lengthMm, unit: "mm" },
    { name: "pull-out, least", symbol: "F low", value: pullOutN.min, unit: "N" },
    { name: "pull-out, most", symbol: "F high", value: pullOutN.max, unit: "N" },
    { name: "safety", symbol: "S", value: insertSafety, unit: "" },
  ]
  const force = { valueN: middleN / insertSafety, lowN: pullOutN.min / insertSafety, highN: pullOutN.max }
  const formula = "F low = 0.35 tau low pi D L, F high = 0.6 tau high pi D L; F = sqrt(F low F high) / S"
  return limitFromForce(
    context,
    `insert pulls out of ${findPlastic(plastic).plastic}`,
    force,
    inputs,
    formula,
    plasticSource,
  )
}

/** What the head or its washer presses on, and what the nut presses on: a limit each where that is plastic. */
function limitsUnderHead(context: JointContext): readonly Calculation[] {
  const { kit, joint } = context
  const head = limitOfPressed(context, partOf(kit, joint.through[0]), bearingOf(context))
  const { kind, owner, fastener } = joint.bore
  const nut = kind === "nut" && fastener !== undefined ? findNut(fastener) : undefined
  if (nut === undefined) return head
  const face = { outerMm: nut.flatsMm, holeMm: context.holeMm, what: "nut" }
  return [...head, ...limitOfPressed(context, partOf(kit, owner ?? joint.through.at(-1)), face)]
}

function limitOfPressed(
  context: JointContext,
  part: ReturnType<typeof partOf>,
  { outerMm, holeMm, what }: ReturnType<typeof bearingOf>,
): readonly Calculation[] {
  if (part?.material?.kind !== "plastic") return []
  const areaMm2 = bearingAreaMm2(outerMm, holeMm)
  if (areaMm2 <= 0) return []
  const { pressureMpa } = findPlastic(part.material.name)
  const valueN = pressureMpa * areaMm2
  const inputs = [
    { name: "pressure limit", symbol: "p", value: pressureMpa, unit: "MPa" },
    { name: `outer diameter of the ${what}`, symbol: "do", value: outerMm, unit: "mm" },
    { name: "hole", symbol: "dh", value: holeMm, unit: "mm" },
    { name: "pressed ring", symbol: "A", value: areaMm2, unit: "mm²" },
  ]
  const force = { valueN, lowN: valueN * lastingShare, highN: valueN * yieldFactor }
  const source =
    "pressure limit about half the compressive yield, from memory; no standard gives one for printed plastic"
  const name = `${part.material.name} under the ${what} yields`
  return [limitFromForce(context, name, force, inputs, "A = pi / 4 (do² - dh²); F = p A", source)]
}
