/**
 * The way of each screw through the meshes: whether the clamped parts let it pass, where their holes are instead, whether
 * the pieces touch each other, and whether the bore leads into its piece. What has no mesh stays unknown. All in mm.
 */
import { findClearance } from "../fasteners/tables/iso-273.ts"
import type { BorePoint, Joint } from "../kit/joint-types.ts"
import type { Kit } from "../kit/types.ts"
import { findRoundHoles, turnDirection } from "../solids/index.ts"
import { along, dot, lengthOf, subtract } from "../solids/vectors.ts"
import {
  type AxisInPiece,
  freeRadiusMm,
  type Layer,
  layersOnRing,
  median,
  overlapMm,
  rayCount,
  seeAxis,
} from "./axis-rays.ts"
import { finishedHoleMm, printingOf } from "./finished.ts"
import { ringRadiusMm } from "./grip.ts"
import { computeGap, endOf, type Seen } from "./joint-gaps.ts"
import type { ClampedPath, HoleBeside, ScrewPath } from "./types.ts"

/** How far a screw may stand in the material of a clamped part before its hole is out of place: facets and rounding. */
const facetMm = 0.2
/** Axes of holes that are no further apart are one. */
const sameAxisMm = 0.5
/** Pieces no further apart touch. */
const touchMm = 0.3
/** Ends of the stretch that is looked at are drawn in, so that faces that only touch it do not count. */
const drawnInMm = 0.05

/** Follows each screw whose bore has a place. */
export function computeScrewPaths(kit: Kit, joint: Joint): readonly ScrewPath[] {
  return joint.bore.points.map((mouth, index) => followScrew(kit, joint, mouth, headOf(joint, mouth, index)))
}

/** Where the head sits, before the mouth; as far back as the screw is long where that is not known. */
function headOf(joint: Joint, mouth: BorePoint, index: number): number {
  const point = joint.pointsAt === "head" ? joint.points[index] : undefined
  const atMm = point === undefined ? 0 : dot(subtract(point.at, mouth.at), mouth.along)
  return atMm < -2 * drawnInMm ? atMm : -(joint.fastener.lengthMm ?? 4 * joint.fastener.diameterMm)
}

/**
 * Where the clamped parts must end: at the mouth of the thread. A mouth whose place is not written, as that of a loose nut,
 * follows from the first part's holes; then all parts must let the whole screw pass.
 */
function endOfClamped(kit: Kit, { path, bore, fastener }: Joint, headMm: number): number {
  const isWritten = bore.path !== path && Object.hasOwn(kit.places, `${bore.path}/holes`)
  return isWritten || fastener.lengthMm === undefined ? 0 : Math.max(0, headMm + fastener.lengthMm)
}

function followScrew(kit: Kit, joint: Joint, mouth: BorePoint, headMm: number): ScrewPath {
  const nearMm = 3 * joint.fastener.diameterMm
  const see = (name: string): readonly Seen[] =>
    kit.instances
      .filter((instance) => instance.of === name || instance.id === name)
      .flatMap((instance) => {
        const axis = seeAxis(kit, instance, mouth, nearMm)
        return axis === undefined ? [] : [{ instance, axis }]
      })
  const clamped = joint.through.map((name) => ({ name, seen: see(name).filter(({ axis }) => isMet(joint, axis)) }))
  const owners = joint.bore.owners.flatMap(see)
  const stretch = { fromMm: headMm + drawnInMm, toMm: endOfClamped(kit, joint, headMm) - drawnInMm }
  // A captive nut lies in a pocket: behind its mouth there may be air.
  const isReversed = joint.bore.kind !== "nut" && leadsOut(joint, owners)
  const gap = isReversed ? undefined : computeGap(kit, joint, mouth, clamped, owners)
  const last = clamped.at(-1)?.seen ?? []
  const beyondMm = -((owners.length > 0 ? endOf(joint, last) : undefined) ?? 0)
  // A part that hangs in the air or lies elsewhere has no recess but a fault.
  const isRecess = !isReversed && beyondMm > touchMm && (gap?.gapMm ?? 0) <= touchMm
  return {
    at: mouth.at,
    along: mouth.along,
    clamped: clamped.flatMap(({ name, seen }) => {
      const paths = seen.map((one) => passThrough(kit, joint, name, one, stretch))
      const worst = ["blocked", "narrow", "passes"].flatMap((kind) => paths.find((path) => path.kind === kind) ?? [])[0]
      if (worst !== undefined) return [worst]
      return hasMesh(kit, name) ? [{ part: name, kind: "missed" as const, holeMm: undefined, beside: undefined }] : []
    }),
    isReversed,
    materialMm: materialBehind(joint, owners),
    gap,
    recessMm: isRecess ? Math.round(beyondMm * 1000) / 1000 : 0,
  }
}

/** True when a quarter of the rays just outside the hole meet the piece: enough for a slot that is open at one side. */
function isMet(joint: Joint, axis: AxisInPiece): boolean {
  const metCount = layersOnRing(axis, ringRadiusMm(joint)).filter((layers) => layers.length > 0).length
  return metCount * 4 >= rayCount
}

function hasMesh(kit: Kit, name: string): boolean {
  const own = kit.instances.filter((instance) => instance.of === name || instance.id === name)
  return own.length > 0 && own.every(({ mesh }) => mesh !== undefined)
}

/** Whether the screw passes one piece. A hole on its axis that is only too small is `narrow`: a matter of size. */
function passThrough(kit: Kit, joint: Joint, part: string, seen: Seen, stretch: Layer): ClampedPath {
  const { diameterMm } = joint.fastener
  const printing = printingOf(kit, part)
  const finishedMm = finishedHoleMm(2 * Math.min(freeRadiusMm(seen.axis, stretch), 1e3), printing)
  if (finishedMm >= findClearance(diameterMm).fineMm)
    return { part, kind: "passes", holeMm: undefined, beside: undefined }
  const holes = holesBeside(kit, seen)
  const onAxis = holes.filter(({ offMm, reach }) => offMm <= sameAxisMm && overlapMm(reach, stretch) > 0)
  const narrowestMm = Math.min(...onAxis.map((hole) => hole.diameterMm))
  const holeMm = Number.isFinite(narrowestMm) ? narrowestMm : undefined
  const inTheWayMm = (diameterMm - finishedMm) / 2
  if (inTheWayMm <= facetMm) return { part, kind: "passes", holeMm, beside: undefined }
  const isNarrow = onAxis.some(({ diameterMm: wide, offMm }) => wide === narrowestMm && offMm <= facetMm)
  if (isNarrow && finishedHoleMm(narrowestMm, printing) < diameterMm)
    return { part, kind: "narrow", holeMm, beside: undefined }
  const [nearest] = holes
    .filter((hole) => hole.diameterMm >= 0.7 * diameterMm && hole.diameterMm <= 3 * diameterMm)
    .sort((one, other) => one.offMm - other.offMm)
  const beside = nearest === undefined ? undefined : { diameterMm: nearest.diameterMm, offsetMm: nearest.offsetMm }
  return { part, kind: "blocked", holeMm: undefined, beside }
}

/** Round holes of a piece that run along the axis, with how far beside it they stand. */
function holesBeside(
  kit: Kit,
  { instance, axis }: Seen,
): readonly (HoleBeside & { readonly offMm: number; readonly reach: Layer })[] {
  const mesh = instance.mesh === undefined ? undefined : kit.meshes[instance.mesh]
  if (mesh === undefined) return []
  return findRoundHoles(mesh).flatMap((hole) => {
    const cosine = dot(hole.along, axis.along)
    if (Math.abs(cosine) < 0.9998) return []
    const from = subtract(hole.at, axis.at)
    const atMm = dot(from, axis.along)
    const offset = along(from, axis.along, -atMm)
    const ends = [atMm, atMm + cosine * hole.depthMm]
    return [
      {
        diameterMm: hole.diameterMm,
        offsetMm: turnDirection(instance.pose, offset),
        offMm: lengthOf(offset),
        reach: { fromMm: Math.min(...ends), toMm: Math.max(...ends) },
      },
    ]
  })
}

/** Thickness of the piece of the bore from the mouth on, where most rays beside the hole meet it. */
function materialBehind(joint: Joint, owners: readonly Seen[]): number | undefined {
  const ends = owners
    .flatMap(({ axis }) => layersOnRing(axis, joint.fastener.diameterMm * 0.75))
    .flatMap((layers) => layers.find(({ fromMm, toMm }) => fromMm < 0.3 && toMm > 0.3)?.toMm ?? [])
  return ends.length * 4 < 3 * rayCount ? undefined : median(ends)
}

/** True when the piece of the bore lies behind its mouth and not before it: the screw would be driven out of it. */
function leadsOut(joint: Joint, owners: readonly Seen[]): boolean {
  const { diameterMm } = joint.fastener
  const rays = owners.flatMap(({ axis }) => layersOnRing(axis, diameterMm * 0.75))
  const [ahead, behind] = [
    { fromMm: 0.1, toMm: 1.6 },
    { fromMm: -1.6, toMm: -0.1 },
  ].map((stretch) => rays.filter((layers) => layers.some((layer) => overlapMm(layer, stretch) > 0.5)).length)
  return ahead === 0 && (behind ?? 0) * 4 >= 3 * rayCount
}
