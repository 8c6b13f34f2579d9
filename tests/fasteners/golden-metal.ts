/** What the code computes of threads, classes, screws, torques and engagement, by the quantities of the check values. */

import { readDesignation } from "../../src/fasteners/designation.ts"
import { findHeadRow, findNut, findThreadLengthMm, findWasher } from "../../src/fasteners/sizes.ts"
import {
  engagementForLoadMm,
  equalStrengthEngagementMm,
  internalShearAreaPerMm,
  leastMaterialAreas,
  stripLoadN,
} from "../../src/fasteners/stripping.ts"
import { nutFactors } from "../../src/fasteners/tables/friction.ts"
import { coarsePitchMm, isListedThread } from "../../src/fasteners/tables/iso-261.ts"
import { counterbores, findClearance, findTappingDrillMm } from "../../src/fasteners/tables/iso-273.ts"
import { findBreakingTorqueNm, findClass } from "../../src/fasteners/tables/iso-898-1.ts"
import { knurledHeads } from "../../src/fasteners/tables/iso-4762.ts"
import { hexalobularSockets } from "../../src/fasteners/tables/iso-10664.ts"
import {
  aluminiumLeastShear,
  aluminiumShear,
  engagementRules,
  recommendedEngagement,
  shearShares,
  shearYieldShare,
} from "../../src/fasteners/tables/parents.ts"
import { computeThread, computeThreadLimits, type Thread } from "../../src/fasteners/threads.ts"
import {
  computeLeverMm,
  computeNutFactor,
  computePreloadN,
  torqueByNutFactorNm,
  torqueOfForceNm,
} from "../../src/fasteners/tightening.ts"
import type { Fastener } from "../../src/fasteners/types.ts"
import type { GoldenRow } from "./golden-csv.ts"

type Result = number | string | boolean | undefined
export type Quantities = Readonly<Record<string, (row: GoldenRow) => Result>>

/** A number among the inputs, `25000 lbf` and `fc=0.15` too. */
export function input({ inputs }: GoldenRow, name: string): number {
  return Number(/-?\d+(?:\.\d+)?/.exec(inputs[name] ?? "")?.[0] ?? Number.NaN)
}

/** Thread named by a size such as `M4` or `M10x1.25`. */
export function threadOf({ size }: GoldenRow): Thread {
  const [diameter = "", pitch] = size.replace("M", "").split("x")
  const diameterMm = Number(diameter)
  return computeThread(diameterMm, pitch === undefined ? (coarsePitchMm(diameterMm) ?? Number.NaN) : Number(pitch))
}

/** A fastener of a standard and size, read from its designation. */
function fastenerOf({ inputs, size }: GoldenRow, lengthMm = ""): Fastener | undefined {
  const standard = (inputs.std ?? "").replace("ISO 4014/4017", "ISO 4017")
  const result = readDesignation(`${standard} ${size}${lengthMm}`)
  return "fastener" in result ? result.fastener : undefined
}

function headOf(row: GoldenRow): ReturnType<typeof findHeadRow> {
  const fastener = fastenerOf(row, "x40")
  return fastener === undefined ? undefined : findHeadRow(fastener)
}

function nutOf(row: GoldenRow): ReturnType<typeof findNut> {
  const fastener = fastenerOf(row)
  return fastener === undefined ? undefined : findNut(fastener)
}

function washerOf(row: GoldenRow): ReturnType<typeof findWasher> {
  const fastener = fastenerOf(row)
  return fastener === undefined ? undefined : findWasher(fastener)
}

const limit = (key: keyof NonNullable<ReturnType<typeof computeThreadLimits>>) => (row: GoldenRow) =>
  computeThreadLimits(threadOf(row))?.[key]

export const threads: Quantities = {
  "pitch P": (row) => {
    const { diameterMm, pitchMm } = threadOf(row)
    return isListedThread(diameterMm, pitchMm) ? pitchMm : undefined
  },
  "basic pitch dia d2=D2": (row) => threadOf(row).pitchDiameterMm,
  "basic minor dia internal D1=d1": (row) => threadOf(row).minorDiameterMm,
  "minor dia external (root) d3": (row) => threadOf(row).rootDiameterMm,
  "tensile stress area As,nom": (row) => threadOf(row).stressAreaMm2,
  "root (core) area A_d3 = pi/4 d3^2": (row) => threadOf(row).rootAreaMm2,
  "6g major dia d max": limit("majorMaxMm"),
  "6g major dia d min": limit("majorMinMm"),
  "6g pitch dia d2 max": limit("pitchMaxMm"),
  "6g pitch dia d2 min": limit("pitchMinMm"),
  "6H minor dia D1 max": limit("internalMinorMaxMm"),
  "6H pitch dia D2 max": limit("internalPitchMaxMm"),
}

function classOf(row: GoldenRow): ReturnType<typeof findClass> {
  const name = (row.inputs.class ?? row.inputs.grade ?? "").replace("A2/A4", "A2")
  return findClass(name, row.size === "" ? 10 : threadOf(row).diameterMm)
}

export const classes: Quantities = {
  "nominal tensile strength Rm,nom": (row) => classOf(row)?.nominalStrengthMpa,
  "minimum tensile strength Rm,min": (row) => classOf(row)?.leastStrengthMpa,
  "minimum yield ReL/Rp0.2/Rpf": (row) => classOf(row)?.yieldMpa,
  "proof stress Sp,nom": (row) => classOf(row)?.proofMpa,
  "proof load Fp": (row) => threadOf(row).nominalStressAreaMm2 * (classOf(row)?.proofMpa ?? Number.NaN),
  "minimum ultimate tensile load Fm,min": (row) =>
    threadOf(row).nominalStressAreaMm2 * (classOf(row)?.leastStrengthMpa ?? Number.NaN),
  "minimum tensile strength Rm": (row) => classOf(row)?.leastStrengthMpa,
  "0.2 % proof strength Rp0.2": (row) => classOf(row)?.yieldMpa,
  "minimum elongation after fracture A": (row) => classOf(row)?.elongationD,
  "minimum breaking torque MB,min": (row) =>
    findBreakingTorqueNm((row.inputs.grade ?? "").replace("A2/A4", "A2"), threadOf(row).diameterMm),
}

function leverOf(row: GoldenRow): number {
  const mu = input(row, "mu")
  return computeLeverMm(
    threadOf(row),
    { thread: mu, head: mu },
    { outerMm: input(row, "dw"), holeMm: input(row, "dh") },
  )
}

function tighteningOf(row: GoldenRow): number {
  return torqueOfForceNm(
    computePreloadN(threadOf(row), input(row, "Rp"), input(row, "mu"), input(row, "nu")),
    leverOf(row),
  )
}

export const torques: Quantities = {
  "assembly preload FM": (row) =>
    computePreloadN(threadOf(row), input(row, "Rp"), input(row, "mu"), input(row, "nu")) / 1000,
  "tightening torque MA": tighteningOf,
  "tightening torque MA (hex head)": tighteningOf,
  // The old level was reckoned at friction 0.12 with the hexagon head and a medium hole; its preloads were 4 to 7 % lower.
  "tightening torque, VDI 2230:1986 level": (row) => {
    const yieldMpa = classOf(row)?.yieldMpa
    const head = headOf({ ...row, inputs: { std: "ISO 4017" } })
    if (yieldMpa === undefined || head === undefined) return undefined
    const thread = threadOf(row)
    const bearing = { outerMm: head.bearingDiameterMm, holeMm: findClearance(thread.diameterMm).mediumMm }
    return torqueOfForceNm(
      computePreloadN(thread, yieldMpa, 0.12),
      computeLeverMm(thread, { thread: 0.12, head: 0.12 }, bearing),
    )
  },
  "nut factor K (typical)": ({ inputs }) => nutFactors.find(({ condition }) => condition === inputs.condition)?.typical,
  "torque T = K*Fi*d": (row) => 1000 * torqueByNutFactorNm(input(row, "K"), input(row, "Fi"), input(row, "d")),
  "torque T = K*F*d": (row) => torqueByNutFactorNm(input(row, "K"), input(row, "F"), threadOf(row).diameterMm),
  "torque, long form": (row) => {
    const diameterMm = input(row, "d")
    const factor = computeNutFactor({
      diameterMm,
      meanDiameterMm: input(row, "dm"),
      pitchMm: input(row, "P"),
      frictionThread: input(row, "f"),
      frictionCollar: input(row, "f"),
      collarDiameterMm: input(row, "dc") * diameterMm,
    })
    return 1000 * torqueByNutFactorNm(factor, input(row, "Fi"), diameterMm)
  },
  "equivalent nut factor K = MA/(FM*d)": (row) => leverOf(row) / threadOf(row).diameterMm,
}

export const screws: Quantities = {
  "head dia dk max (plain head)": (row) => headOf(row)?.headDiameterMm,
  "head dia dk max (knurled head)": (row) =>
    knurledHeads.find(({ diameterMm }) => diameterMm === threadOf(row).diameterMm)?.headDiameterMm,
  "head dia dk max": (row) => headOf(row)?.headDiameterMm,
  "head height k max": (row) => headOf(row)?.headHeightMm,
  "head height k nom": (row) => headOf(row)?.headHeightMm,
  "hex key s nom": (row) => Number(headOf(row)?.driveSize),
  "key engagement t min": (row) => headOf(row)?.driveDepthMm,
  "bearing face dia dw min": (row) => headOf(row)?.bearingDiameterMm,
  "bearing face dia dw min (grade A)": (row) => headOf(row)?.bearingDiameterMm,
  "thread length b ref": (row) => longThread(row),
  "thread length b (l<=125)": (row) => longThread(row),
  "commercial length range": (row) => headOf(row)?.lengthsMm.join(".."),
  "counterbore dia for ISO 4762": (row) =>
    counterbores.find(({ diameterMm }) => diameterMm === threadOf(row).diameterMm)?.boreMm,
  "counterbore depth for ISO 4762": (row) =>
    counterbores.find(({ diameterMm }) => diameterMm === threadOf(row).diameterMm)?.depthMm,
  "collar dia dc max": (row) => headOf(row)?.headDiameterMm,
  "head dia theoretical dk max": (row) => headOf(row)?.headDiameterMm,
  "head dia actual min": (row) => headOf(row)?.bearingDiameterMm,
  "width across flats s": (row) => nutOf(row)?.flatsMm ?? Number(headOf(row)?.driveSize),
  "width across corners e min (grade A)": (row) => headOf(row)?.headDiameterMm,
  "width across corners e min": (row) => nutOf(row)?.cornersMm,
  "hexalobular socket size": (row) => headOf(row)?.driveSize,
  "hexalobular A nominal": ({ size }) => hexalobularSockets.find((socket) => socket.size === size)?.outsideMm,
  "nut height m max": (row) => nutOf(row)?.heightMm,
  "nut height m min": (row) => nutOf(row)?.leastHeightMm,
  "thin nut height m max": (row) => nutOf(row)?.heightMm,
  "prevailing-torque nut height h max": (row) => nutOf(row)?.heightMm,
  "washer inner dia d1 nom(min)": (row) => washerOf(row)?.innerMm,
  "washer inner dia d1": (row) => washerOf(row)?.innerMm,
  "washer outer dia d2 nom(max)": (row) => washerOf(row)?.outerMm,
  "washer outer dia d2": (row) => washerOf(row)?.outerMm,
  "washer thickness h nom": (row) => washerOf(row)?.thicknessMm,
  "clearance hole fine H12": (row) => findClearance(threadOf(row).diameterMm).fineMm,
  "clearance hole medium H13": (row) => findClearance(threadOf(row).diameterMm).mediumMm,
  "clearance hole coarse H14": (row) => findClearance(threadOf(row).diameterMm).coarseMm,
  "tapping drill": (row) => findTappingDrillMm(threadOf(row).diameterMm, threadOf(row).pitchMm),
}

function longThread(row: GoldenRow): number | undefined {
  const fastener = fastenerOf({ ...row, inputs: { std: row.inputs.std ?? "" } }, "x100")
  return fastener === undefined ? undefined : findThreadLengthMm(fastener)
}

function areasOf(row: GoldenRow): ReturnType<typeof leastMaterialAreas> {
  const thread = threadOf(row)
  return leastMaterialAreas(thread, computeThreadLimits(thread))
}

function shearOf(
  row: GoldenRow,
  table: readonly { readonly name: string; readonly shearMpa: number }[],
): number | undefined {
  return table.find(({ name }) => (row.inputs.alloy ?? "").startsWith(name))?.shearMpa
}

/** Share of shear in tensile strength of a metal named among the inputs. */
function shareOf({ inputs }: GoldenRow): number | undefined {
  return shearShares.find(({ name }) => name in inputs)?.share
}

export const engagement: Quantities = {
  "rule of thumb: minimum engagement": ({ inputs }) =>
    engagementRules.find(({ parent }) => parent === inputs.parent)?.engagementD,
  "recommended minimum engagement, coarse": ({ inputs }) =>
    recommendedEngagement.find(({ parent }) => parent === inputs.parent)?.engagementD[inputs.screw ?? ""],
  "external-thread shear area per mm engagement, least material": (row) => areasOf(row).externalMm2,
  "internal-thread shear area per mm engagement, least material": (row) => areasOf(row).internalMm2,
  "internal-thread shear area per mm, basic dims": (row) => leastMaterialAreas(threadOf(row), undefined).internalMm2,
  "external-thread shear area per mm, basic dims": (row) => leastMaterialAreas(threadOf(row), undefined).externalMm2,
  "worked example 1: required internal engagement": (row) => exampleOne(row),
  "worked example 1b: same with true 6g d_min": (row) => exampleOne(row),
  "worked example 2: required internal engagement": (row) => {
    const [bolt = Number.NaN, parent = Number.NaN] = [input(row, "bolt Su"), input(row, "parent Su")]
    const thread = threadOf(row)
    return engagementForLoadMm(
      thread.stressAreaMm2 * bolt,
      0.6 * parent,
      leastMaterialAreas(thread, undefined).internalMm2,
    )
  },
  "worked example 2: internal strip load": (row) =>
    stripLoadN(
      0.6 * input(row, "parent Su"),
      leastMaterialAreas(threadOf(row), undefined).internalMm2,
      input(row, "LE"),
    ),
  "worked example 4: Machinery's Handbook LE (equal materials)": (row) =>
    equalStrengthEngagementMm(input(row, "As"), threadOf(row).pitchMm, input(row, "D1max"), input(row, "d2min")),
  "internal strip load F = tau*AS_n*LE": (row) =>
    stripLoadN(input(row, "tau"), areasOf(row).internalMm2, input(row, "LE")),
  "typical ultimate shear strength": (row) => shearOf(row, aluminiumShear),
  "minimum ultimate shear strength Fsu": (row) => shearOf(row, aluminiumLeastShear),
  "ratio shear/tensile (typical)": (row) => (shearOf(row, aluminiumShear) ?? Number.NaN) / input(row, "Su"),
  "ratio shear/tensile, default": shareOf,
  "ratio shear/tensile": shareOf,
  "ratio shear/yield": () => shearYieldShare,
}

function exampleOne(row: GoldenRow): number {
  const area = internalShearAreaPerMm(threadOf(row).pitchMm, input(row, "ds_min"), input(row, "D2_max"))
  return engagementForLoadMm(input(row, "F"), input(row, "tau"), area)
}
