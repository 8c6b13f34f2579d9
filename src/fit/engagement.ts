/** How much thread a joint has and needs: reach beyond the grip, engagement, depth left in a blind bore. All in mm. */
import { findInsert, findNut, findThreadLengthMm, findWasher } from "../fasteners/sizes.ts"
import { nameOrigin } from "../fasteners/tables/origin.ts"
import { findParent } from "../fasteners/tables/parents.ts"
import { findBoss } from "../fasteners/tables/plastics.ts"
import type { Joint } from "../kit/joint-types.ts"
import type { Kit } from "../kit/types.ts"
import { median } from "./axis-rays.ts"
import { measureBoreWall } from "./grip.ts"
import type { Known, ScrewPath } from "./types.ts"

export type EngagementFacts = {
  readonly reachMm: number | undefined
  readonly engagementMm: number | undefined
  readonly neededEngagementMm: Known | undefined
  readonly depthLeftMm: number | undefined
}

/** Share of the usual engagement that a joint with a tested torque may have. */
const testedShare = 0.8

/** Computes reach, engagement and what is needed from grip, screw, washer, recess and bore. */
export function computeEngagement(
  kit: Kit,
  joint: Joint,
  gripMm: number | undefined,
  screws: readonly ScrewPath[],
): EngagementFacts {
  const neededEngagementMm = computeNeeded(joint)
  const { lengthMm } = joint.fastener
  if (gripMm === undefined || lengthMm === undefined) {
    return { reachMm: undefined, engagementMm: undefined, neededEngagementMm, depthLeftMm: undefined }
  }
  const reachMm = lengthMm - gripMm - washerMm(joint) - recessOf(screws)
  const deepestMm = boreLengthMm(kit, joint) ?? Number.POSITIVE_INFINITY
  const threadMm = findThreadLengthMm(joint.fastener) ?? lengthMm
  const engagementMm = Math.max(0, Math.min(reachMm, deepestMm, threadMm))
  const isBlind = !joint.bore.isThrough && joint.bore.kind !== "nut" && joint.bore.depthMm !== undefined
  const depthLeftMm = isBlind && joint.bore.depthMm !== undefined ? joint.bore.depthMm - reachMm : undefined
  return { reachMm, engagementMm, neededEngagementMm, depthLeftMm }
}

/** How far the thread begins beyond the clamped parts, median of the screws; 0 where that is not known. */
export function recessOf(screws: readonly ScrewPath[]): number {
  return screws.length === 0 ? 0 : median(screws.map(({ recessMm }) => recessMm))
}

/** Thickness of the washer of a joint, 0 without one. */
export function washerMm(joint: Joint): number {
  return joint.washer === undefined ? 0 : (findWasher(joint.washer)?.thicknessMm ?? 0)
}

/** Length of thread that the bore offers: nut height, insert length, threaded depth, or the wall it goes through. */
export function boreLengthMm(kit: Kit, joint: Joint): number | undefined {
  const { kind, fastener, depthMm } = joint.bore
  if (kind === "nut" && fastener !== undefined) return findNut(fastener)?.heightMm
  if (kind === "insert")
    return Math.min(depthMm ?? Number.POSITIVE_INFINITY, insertLengthMm(joint) ?? Number.POSITIVE_INFINITY)
  return depthMm ?? (joint.bore.isThrough ? measureBoreWall(kit, joint) : undefined)
}

function insertLengthMm(joint: Joint): number | undefined {
  return joint.bore.fastener === undefined ? undefined : findInsert(joint.bore.fastener)?.lengthMm
}

function computeNeeded(joint: Joint): Known | undefined {
  const { bore, fastener } = joint
  const d = fastener.diameterMm
  if (bore.kind === "nut") {
    const nut = bore.fastener === undefined ? undefined : findNut(bore.fastener)
    if (nut === undefined) return undefined
    return { value: nut.heightMm, origin: "table", from: `the whole nut, ${nameOrigin(nut.origin)}` }
  }
  if (bore.kind === "insert") {
    const length = Math.min(d, insertLengthMm(joint) ?? d)
    return { value: length, origin: "table", from: "1 d of a brass insert, common practice" }
  }
  if (bore.material?.kind === "plastic" || (bore.kind === "pilot" && fastener.isThreadForming)) {
    const { plastic, engagementD } = findBoss(bore.material?.name ?? "")
    const share = joint.makerTorqueNm === undefined ? 1 : testedShare
    const tested = share === 1 ? "" : `, times ${testedShare} as the torque is tested`
    return {
      value: rounded(engagementD * d * share),
      origin: "table",
      from: `${engagementD} d for ${plastic}${tested}`,
    }
  }
  const parent = findParent(bore.material?.kind ?? "", bore.material?.name ?? "")
  if (parent === undefined) return undefined
  const share = joint.makerTorqueNm === undefined ? 1 : testedShare
  const tested = share === 1 ? "" : `, times ${testedShare} as the torque is tested`
  const value = Math.max(parent.leastD * share, 0.8) * d
  return { value: rounded(value), origin: "table", from: `${parent.leastD} d in ${parent.kind}${tested}` }
}

/** To the micrometre, so that products of decimals print as meant. */
function rounded(valueMm: number): number {
  return Math.round(valueMm * 1000) / 1000
}
