/** What the code computes of plastics, ties, tubes, cables and openings, by the quantities of the check values. */
import {
  bendFactors,
  bundleFactor,
  conductorAreaMm2,
  conductorClasses,
  conductorDiameterMm,
  copperResistance,
  strandDiameterMm,
} from "../../src/fasteners/conductors.ts"
import { readDesignation } from "../../src/fasteners/designation.ts"
import {
  largestBundleMm,
  loopRoundMm,
  roundedBox,
  strapLoopMm,
  tieLengthMm,
  tubePerimeterMm,
  tubeWithBox,
} from "../../src/fasteners/loops.ts"
import { bearingAreaMm2, forceOfPressureN } from "../../src/fasteners/plastic-joint.ts"
import { findInsert, findWasher } from "../../src/fasteners/sizes.ts"
import { findClearance } from "../../src/fasteners/tables/iso-273.ts"
import { engagementRules } from "../../src/fasteners/tables/parents.ts"
import {
  bossTable,
  lastingShare,
  plasticTable,
  pressureTable,
  stripShares,
} from "../../src/fasteners/tables/plastics.ts"
import {
  bundleTable,
  findTieStrengthN,
  leastTensions,
  poundForceN,
  tieClasses,
  tieLengths,
} from "../../src/fasteners/tables/ties.ts"
import { cornerRadiusMm, pipeSeries, precisionTubes } from "../../src/fasteners/tables/tubes.ts"
import type { Fastener } from "../../src/fasteners/types.ts"
import {
  circleForRectangleMm,
  heightInCircleMm,
  obroundAreaMm2,
  obroundPerimeterMm,
  rectangleFits,
  roomForDisc,
  turnedHeightMm,
  widthInObroundMm,
} from "../../src/fit/openings.ts"
import type { GoldenRow } from "./golden-csv.ts"
import { input, type Quantities, threadOf } from "./golden-metal.ts"

const boss = ({ inputs }: GoldenRow) => bossTable.find(({ plastic }) => plastic === inputs.material)

function plasticOf({ inputs }: GoldenRow): (typeof plasticTable)[number] | undefined {
  const material = inputs.material ?? Object.keys(inputs).join(" ").split(",")[0] ?? ""
  const name = /SLS/.test(material) ? "PA12 SLS" : material.split(" ")[0]
  return plasticTable.find(({ plastic }) => plastic === name)
}

function read(designation: string): Fastener | undefined {
  const result = readDesignation(designation)
  return "fastener" in result ? result.fastener : undefined
}

function insertOf({ size }: GoldenRow): ReturnType<typeof findInsert> {
  const fastener = read(`insert ${size} x 5`)
  return fastener === undefined ? undefined : findInsert({ ...fastener, lengthMm: undefined })
}

function underWasher(row: GoldenRow): number | undefined {
  const fastener = read(`ISO 7089 ${row.size}`)
  const outerMm = fastener === undefined ? undefined : findWasher(fastener)?.outerMm
  return outerMm === undefined ? undefined : bearingAreaMm2(outerMm, findClearance(threadOf(row).diameterMm).mediumMm)
}

export const plastics: Quantities = {
  "hole diameter factor": (row) => boss(row)?.holeD,
  "boss outer diameter factor": (row) => boss(row)?.bossD,
  "engagement depth factor": (row) => boss(row)?.engagementD,
  "rule: minimum engagement": () => engagementRules.find(({ parent }) => parent === "plastic")?.engagementD,
  "rule: assembly torque fraction of mean failure torque": () => stripShares[1],
  "worked size: hole/boss/engagement": (row) => {
    const found = boss(row)
    const d = input(row, "d")
    return found === undefined
      ? undefined
      : [found.holeD, found.bossD, found.engagementD].map((factor) => (factor * d).toFixed(2)).join("/")
  },
  "heat-set insert finished hole dia": (row) => insertOf(row)?.holeMm,
  "heat-set insert outer dia max": (row) => insertOf(row)?.outerMm,
  "heat-set insert length (long series)": (row) => insertOf(row)?.lengthMm,
  "limiting surface pressure pG under head": ({ inputs }) =>
    pressureTable.find(({ material }) => material === inputs.material)?.pressureMpa,
  "short-term limit pressure under head, moulded": (row) => plasticOf(row)?.pressureMpa,
  "bearing area, ISO 7089 washer on ISO 273 medium hole": underWasher,
  "clamp force for 10 MPa under that washer": (row) => forceOfPressureN(10, underWasher(row) ?? Number.NaN),
  "bearing area, plain head dia or ISO 7093 washer": (row) => bearingAreaMm2(input(row, "d_out"), input(row, "dh")),
  "printed tensile strength XY": (row) => plasticOf(row)?.alongMpa.join(".."),
  "printed tensile strength Z": (row) => plasticOf(row)?.acrossMpa.join(".."),
  "Z/XY strength ratio": (row) => {
    const found = plasticOf(row)
    return found === undefined
      ? undefined
      : (found.acrossMpa[0] + found.acrossMpa[1]) / (found.alongMpa[0] + found.alongMpa[1])
  },
  "default derating for printed threads/bosses across layers": () => lastingShare,
}

export const ties: Quantities = {
  "loop tensile class": (row) => input(row, "lbf") * poundForceN,
  "nominal strap width for class": (row) =>
    tieClasses.find(({ strengthLbf }) => strengthLbf === input(row, "lbf"))?.widthMm,
  "minimum loop tensile of width": (row) => (findTieStrengthN(input(row, "width")) ?? Number.NaN) / 9.80665,
  "minimum tension by width (polyamide)": ({ inputs }) => {
    const [over, upTo] = Object.keys(inputs).join(";").match(/\d+/g)?.map(Number) ?? []
    return leastTensions.find(({ overMm, upToMm }) => overMm === over && upToMm === upTo)?.forceN
  },
  "maximum bundle diameter for tie length": (row) => {
    const lengthMm = input(row, "L")
    const listed = bundleTable.find((one) => one.lengthMm === lengthMm)?.bundleMm
    // The table must also agree with the loop: no bundle may need more than the tie has.
    return listed !== undefined && listed <= largestBundleMm(lengthMm, 30) ? listed : undefined
  },
  "required tie length round a tube": (row) =>
    tieLengthMm(
      loopRoundMm([{ x: 0, y: 0, radiusMm: input(row, "D") / 2 }]),
      input(row, "strap_t"),
      input(row, "allowance"),
    ),
  "required tie length round tube + one cable": (row) => {
    const [tube, cable] = [input(row, "tube_r"), input(row, "cable_r")]
    return (
      loopRoundMm([
        { x: 0, y: 0, radiusMm: tube },
        { x: tube + cable, y: 0, radiusMm: cable },
      ]) + input(row, "allowance")
    )
  },
  "length range made in width": (row) => {
    const found = tieLengths.find(({ widthMm }) => widthMm === input(row, "width"))
    return found === undefined ? undefined : `${found.shortestMm}..${found.longestMm}`
  },
}

/** `1-3/8` as a number. */
function inches({ inputs }: GoldenRow): number {
  return (inputs.inch ?? "").split("-").reduce((sum, part) => {
    const [over = Number.NaN, under = 1] = part.split("/").map(Number)
    return sum + over / under
  }, 0)
}

export const tubes: Quantities = {
  "tube outside diameter, trade value": (row) => inches(row) * 25.4,
  "pipe-series outside diameter": ({ inputs }) => pipeSeries.find(({ name }) => name === inputs.size)?.outsideMm,
  "metric precision tube OD list": () => precisionTubes.map(({ outsideMm }) => outsideMm).join(" "),
  "outside corner radius range, cold formed": (row) => {
    const { min, max } = cornerRadiusMm(input(row, "t"))
    return Number.isNaN(min) ? undefined : `${min.toFixed(1)}..${max.toFixed(1)}`
  },
  "perimeter of square tube with 2t corners": (row) =>
    tubePerimeterMm(input(row, "a"), input(row, "a"), input(row, "r")),
  "perimeter of rectangular tube with 2t corners": (row) =>
    tubePerimeterMm(input(row, "a"), input(row, "b"), input(row, "r")),
  circumference: (row) => loopRoundMm([{ x: 0, y: 0, radiusMm: input(row, "D") / 2 }]),
}

/** Gauge number; `4/0` is -3 and is written as `n=-3` beside it. */
function gauge(row: GoldenRow): number {
  return row.inputs.n === undefined ? input(row, "AWG") : Number(row.inputs.n)
}

const conductor = (row: GoldenRow) => conductorClasses.find(({ areaMm2 }) => areaMm2 === input(row, "A"))

export const cables: Quantities = {
  "solid conductor diameter": (row) => conductorDiameterMm(gauge(row)),
  "conductor area": (row) => conductorAreaMm2(gauge(row)),
  "solid copper resistance 20 C": (row) => copperResistance(gauge(row)),
  "max conductor resistance 20 C, class 1/2 plain": (row) => conductor(row)?.solidOhmPerKm,
  "max conductor resistance 20 C, class 5 plain": (row) => conductor(row)?.flexibleOhmPerKm,
  "max strand diameter, class 5": (row) => conductor(row)?.strandMm,
  "stranded conductor diameter": ({ inputs }) => {
    const [count = Number.NaN, wireMm = Number.NaN] = (inputs.make ?? "")
      .split("x")
      .map((part) => Number.parseFloat(part))
    return strandDiameterMm(count, wireMm)
  },
  "minimum bend radius factor": ({ inputs }) => bendFactors.find(({ use }) => use === inputs.case)?.factor,
  "minimum bend radius": (row) => input(row, "OD") * input(row, "factor"),
  "smallest enclosing circle / wire dia": (row) => bundleFactor(input(row, "n")),
}

export const geometry: Quantities = {
  "rectangle p x q fits in a x b (any rotation)": (row) =>
    rectangleFits(input(row, "p"), input(row, "q"), input(row, "a"), input(row, "b")),
  "smallest b for p x q in a x b with p>a": (row) => turnedHeightMm(input(row, "p"), input(row, "q"), input(row, "a")),
  "smallest circular hole for rectangle": (row) => circleForRectangleMm(input(row, "w"), input(row, "h"), 0),
  "smallest circular hole for rounded rectangle": (row) =>
    circleForRectangleMm(input(row, "w"), input(row, "h"), input(row, "r")),
  "largest height of a w-wide rectangle in circle D": (row) => heightInCircleMm(input(row, "D"), input(row, "w")),
  "longest w for w x h rectangle in obround L x W (axis parallel)": (row) =>
    widthInObroundMm(input(row, "L"), input(row, "W"), input(row, "h")),
  "obround slot area": (row) => obroundAreaMm2(input(row, "L_overall"), input(row, "W")),
  "obround slot perimeter": (row) => obroundPerimeterMm(input(row, "L_overall"), input(row, "W")),
  "travel of screw d in slot": (row) => {
    const slot = { kind: "obround", widthMm: input(row, "L_overall"), heightMm: input(row, "W") } as const
    const room = roomForDisc(slot, input(row, "d") / 2)
    return room?.kind === "obround" ? room.widthMm : undefined
  },
  "max pattern mismatch, two screws both in clearance holes (floating)": (row) => playMm(row),
  "max position error, screw fixed in thread": (row) => playMm(row) / 2,
  "loop round two circles (open belt)": (row) =>
    loopRoundMm([
      { x: 0, y: 0, radiusMm: input(row, "R") },
      { x: input(row, "c"), y: 0, radiusMm: input(row, "r") },
    ]),
  "loop round tube + box sitting tangent on it": (row) =>
    loopRoundMm(tubeWithBox(input(row, "R"), input(row, "w"), input(row, "h"))),
  "loop round box": (row) => loopRoundMm(roundedBox(input(row, "w"), input(row, "h"), 0)),
  "loop round box at strap mid-line": (row) =>
    strapLoopMm(loopRoundMm(roundedBox(input(row, "w"), input(row, "h"), 0)), input(row, "t")),
  "loop round 3 mutually tangent circles": (row) =>
    loopRoundMm(ring(3, input(row, "d"), input(row, "d") / Math.sqrt(3))),
  "loop round 7-bundle (hexagonal)": (row) => loopRoundMm(ring(6, input(row, "d"), input(row, "d"))),
}

/** How far a screw moves about in its hole, from stop to stop. */
function playMm(row: GoldenRow): number {
  const room = roomForDisc({ kind: "circle", diameterMm: input(row, "hole") }, input(row, "screw") / 2)
  return room?.kind === "circle" ? room.diameterMm : Number.NaN
}

function ring(count: number, diameterMm: number, onRadiusMm: number): Parameters<typeof loopRoundMm>[0] {
  return Array.from({ length: count }, (_, index) => {
    const angle = (2 * Math.PI * index) / count
    return { x: onRadiusMm * Math.cos(angle), y: onRadiusMm * Math.sin(angle), radiusMm: diameterMm / 2 }
  })
}
