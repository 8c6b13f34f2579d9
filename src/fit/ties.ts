/** Ties round the frame: length of the loop, of the tie, slot, strength. */
import { type Disc, loopRoundMm, strapLoopMm, tieAllowanceMm } from "../fasteners/loops.ts"
import { findTieStrengthN, workingShares } from "../fasteners/tables/ties.ts"
import type { Cable, Frame, Kit, Tie } from "../kit/types.ts"
import { finishedHoleMm, printingOf } from "./finished.ts"
import { discsOf, type Flat, flatten, instancesOf, reachOf, sectionOf } from "./section.ts"
import type { Calculation, TieFit } from "./types.ts"

/** Acceleration of free fall, m/s2 (standard value). */
const gravity = 9.80665
/** Load of a shock as a multiple of the weight: standing still, and with vibration (common practice, no source). */
const shockFactors = { still: 3, vibrating: 5 } as const
/** Share of the loop strength that may be used for good. */
const workingShare = workingShares[1]

/** Computes loop, needed length, slot and load of one tie. */
export function computeTie(kit: Kit, tie: Tie): TieFit {
  const length = computeLength(kit, tie)
  const load = computeLoad(kit, tie)
  return {
    tie: tie.id,
    loopMm: length?.loopMm,
    neededMm: length?.neededMm,
    suppliedMm: tie.lengthMm,
    slotFits: computeSlot(kit, tie),
    load: load?.load,
    calculations: [length?.calculation, load?.calculation].filter((one) => one !== undefined),
  }
}

function computeLength(
  kit: Kit,
  tie: Tie,
): { readonly loopMm: number; readonly neededMm: number; readonly calculation: Calculation } | undefined {
  const frame = kit.frames.find(({ id }) => id === tie.frame)
  if (frame === undefined) return undefined
  const bundles = bundlesOf(kit, tie, frame)
  const widest = bundles.reduce<Bundle | undefined>(
    (most, one) => (most === undefined || one.loopMm > most.loopMm ? one : most),
    undefined,
  )
  if (widest === undefined) return undefined
  const loopMm = strapLoopMm(widest.loopMm, tie.thicknessMm)
  const neededMm = loopMm + tieAllowanceMm
  const calculation: Calculation = {
    name: "length of tie",
    inputs: [
      { name: `taut loop round ${widest.what}`, symbol: "U", value: widest.loopMm, unit: "mm" },
      { name: "thickness of the tie", symbol: "t", value: tie.thicknessMm, unit: "mm" },
      { name: "head and tail to pull", symbol: "e", value: tieAllowanceMm, unit: "mm" },
    ],
    formula: "L = U + pi t + e",
    value: neededMm,
    band: undefined,
    unit: "mm",
    source: "convex hull of the section; head and tail 30 to 60 mm by common practice",
  }
  return { loopMm, neededMm, calculation }
}

type Bundle = { readonly loopMm: number; readonly what: string }

/** One loop for each instance that the tie holds; round the bare tube when it holds nothing with a mesh. */
function bundlesOf(kit: Kit, tie: Tie, frame: Frame): readonly Bundle[] {
  const tube = discsOf(frame.profile)
  const section = sectionOf(kit, frame)
  const bundles = tie.holds
    .flatMap((id) => instancesOf(kit, id))
    .flatMap((instance): readonly Bundle[] => {
      const points = flatten(kit, section, instance).flatMap(({ corners }) => corners)
      const over = overOf(tie, frame, points)
      return over === undefined
        ? []
        : [{ loopMm: loopRoundMm([...tube, ...over]), what: `${frame.id} and ${instance.id}` }]
    })
  const cables = kit.cables.filter(({ id, diameterMm }) => tie.holds.includes(id) && diameterMm !== undefined)
  if (cables.length > 0 && bundles.length === 0) return [cableBundle(tie, frame, cables)]
  if (bundles.length > 0) return bundles
  const { seatHeightMm } = tie
  const what = seatHeightMm === undefined ? frame.id : `${frame.id} and a seat of ${seatHeightMm} mm`
  const over =
    seatHeightMm === undefined ? [] : [{ x: 0, y: reachOf(frame.profile, [0, 1]) + seatHeightMm, radiusMm: 0 }]
  return [{ loopMm: loopRoundMm([...tube, ...over]), what }]
}

/** The loop round the tube and the cables that lie side by side on it, which asks for the longest loop. */
function cableBundle(tie: Tie, frame: Frame, cables: readonly Cable[]): Bundle {
  const reachMm = reachOf(frame.profile, [0, 1]) + (tie.seatHeightMm ?? 0)
  const widthMm = cables.reduce((sum, { diameterMm = 0 }) => sum + diameterMm, 0)
  let from = -widthMm / 2
  const discs = cables.map(({ diameterMm = 0 }): Disc => {
    const disc = { x: from + diameterMm / 2, y: reachMm + diameterMm / 2, radiusMm: diameterMm / 2 }
    from += diameterMm
    return disc
  })
  return {
    loopMm: loopRoundMm([...discsOf(frame.profile), ...discs]),
    what: [frame, ...cables].map(({ id }) => id).join(" and "),
  }
}

/**
 * What of a held piece the tie lies on, seen along the frame. Through a slot or over a seat of told height: a flat of
 * that height over the tube, as wide as the piece. Else the whole piece.
 */
function overOf(tie: Tie, frame: Frame, points: readonly Flat[]): readonly Disc[] | undefined {
  if (points.length === 0) return undefined
  if (tie.seatHeightMm === undefined) return points.map(([x, y]) => ({ x, y, radiusMm: 0 }))
  const up = upOf(points)
  const across: Flat = [-up[1], up[0]]
  const along = points.map(([x, y]) => x * across[0] + y * across[1])
  const [from, to] = along.reduce<Flat>(([low, high], one) => [Math.min(low, one), Math.max(high, one)], [0, 0])
  const heightMm = reachOf(frame.profile, up) + tie.seatHeightMm
  return [from, to].map((by) => ({
    x: up[0] * heightMm + across[0] * by,
    y: up[1] * heightMm + across[1] * by,
    radiusMm: 0,
  }))
}

/** Direction across the axis in which the piece lies: the axis of the section nearest to the middle of its box. */
function upOf(points: readonly Flat[]): Flat {
  const box = points.reduce<readonly [number, number, number, number]>(
    ([x0, x1, y0, y1], [x, y]) => [Math.min(x0, x), Math.max(x1, x), Math.min(y0, y), Math.max(y1, y)],
    [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY],
  )
  const [x, y] = [(box[0] + box[1]) / 2, (box[2] + box[3]) / 2]
  if (Math.abs(x) > Math.abs(y)) return [Math.sign(x), 0]
  return [0, Math.sign(y) || 1]
}

/** True when the finished slot takes width and thickness of the tie; undefined without a slot. */
function computeSlot(kit: Kit, tie: Tie): boolean | undefined {
  if (tie.slot === undefined) return undefined
  const { longMm, shortMm } = finishedSlot(kit, tie.slot)
  return longMm >= tie.widthMm - 1e-6 && shortMm >= tie.thicknessMm - 1e-6
}

/** Slot as it comes off the printer, longer side first. */
export function finishedSlot(
  kit: Kit,
  slot: NonNullable<Tie["slot"]>,
): { readonly longMm: number; readonly shortMm: number } {
  const printing = printingOf(kit, slot.in)
  const [one, other] = [finishedHoleMm(slot.widthMm, printing), finishedHoleMm(slot.heightMm, printing)]
  return { longMm: Math.max(one, other), shortMm: Math.min(one, other) }
}

function computeLoad(
  kit: Kit,
  tie: Tie,
): { readonly load: NonNullable<TieFit["load"]>; readonly calculation: Calculation } | undefined {
  const massKg = kit.limits.loadKg ?? massOf(kit)
  const strengthN = tie.loopStrengthN ?? (tie.kind === "tie" ? findTieStrengthN(tie.widthMm) : undefined)
  if (massKg === undefined || strengthN === undefined || !holdsPieces(kit, tie)) return undefined
  const shock = kit.environment.vibration ? shockFactors.vibrating : shockFactors.still
  const loopCount = kit.ties.filter((one) => holdsPieces(kit, one)).reduce((sum, { count }) => sum + count, 0)
  const neededN = (massKg * gravity * shock * tie.count) / loopCount
  const bornN = tie.count * strengthN * workingShare
  const calculation: Calculation = {
    name: "load on the ties",
    inputs: [
      { name: "mass", symbol: "m", value: massKg, unit: "kg" },
      { name: "free fall", symbol: "g", value: gravity, unit: "m/s²" },
      { name: "shock", symbol: "s", value: shock, unit: "" },
      { name: "ties of this kind", symbol: "n", value: tie.count, unit: "" },
      { name: "ties that bear in all", symbol: "N", value: loopCount, unit: "" },
      { name: "loop strength", symbol: "Fl", value: strengthN, unit: "N" },
      { name: "share of it to be used", symbol: "k", value: workingShare, unit: "" },
      { name: "borne", symbol: "Fb", value: bornN, unit: "N" },
    ],
    formula: "F = m g s n / N, Fb = n Fl k",
    value: neededN,
    band: undefined,
    unit: "N",
    source:
      "working load 0.25 to 0.5 of the loop strength and shock by common practice; loop strength as told, else its class",
  }
  return { load: { neededN, bornN, factor: bornN / neededN }, calculation }
}

function holdsPieces(kit: Kit, tie: Tie): boolean {
  return tie.frame !== undefined && tie.holds.some((id) => instancesOf(kit, id).length > 0)
}

/** Mass of the units and of all parts in the box; undefined when no unit tells its mass. */
function massOf(kit: Kit): number | undefined {
  const masses = kit.units.flatMap(({ massKg }) => (massKg === undefined ? [] : [massKg]))
  if (masses.length === 0) return undefined
  const parts = kit.parts.map(({ massKg, copies }) => (massKg ?? 0) * copies)
  return [...masses, ...parts].reduce((sum, one) => sum + one, 0)
}
