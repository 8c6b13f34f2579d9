/** Whether the pieces of a joint touch each other along a screw: gaps and overlaps. All in mm. */
import type { BorePoint, Joint } from "../kit/joint-types.ts"
import type { Instance, Kit } from "../kit/types.ts"
import { along, dot, lengthOf, subtract } from "../solids/vectors.ts"
import { type AxisInPiece, type Layer, layersOnRing, median, overlapMm, rayCount, seeAxis } from "./axis-rays.ts"
import { partOf } from "./finished.ts"
import { ringRadiusMm } from "./grip.ts"
import type { JointGap } from "./types.ts"

/** A piece that a screw axis comes near, and the axis as seen from it. */
export type Seen = { readonly instance: Instance; readonly axis: AxisInPiece }

/** One clamped part with those of its pieces that the screw goes through. */
type Clamped = { readonly name: string; readonly seen: readonly Seen[] }

/** Rings that are searched for a contact, in diameters of the screw, besides the one at the edge of the hole. */
const wideRings = [1, 1.5, 2, 3]

/**
 * The largest gap, or else the largest overlap, between pieces that follow each other on the screw: the clamped parts
 * from the head on, then the piece of the bore, or the mouth of the thread where that piece has no mesh. Pieces that touch
 * anywhere within three diameters have no gap. Undefined where nothing can be compared, or something lies between.
 */
export function computeGap(
  kit: Kit,
  joint: Joint,
  mouth: BorePoint,
  clamped: readonly Clamped[],
  owners: readonly Seen[],
): JointGap | undefined {
  const met = clamped.filter(({ seen }) => seen.length > 0)
  const isComplete = met.length === clamped.length
  const stack = owners.length === 0 ? met : [...met, { name: joint.bore.owner ?? joint.bore.id, seen: owners }]
  const gaps = stack.flatMap((piece, index): readonly JointGap[] => {
    const next = stack[index + 1]
    if (next === undefined || !isComplete) return []
    const gapMm = gapBetween(joint, piece.seen, next.seen)
    return gapMm === undefined ? [] : [{ before: piece.name, behind: next.name, gapMm }]
  })
  const last = met.at(-1)
  const endMm = owners.length > 0 || last === undefined ? undefined : endOf(joint, last.seen)
  const isFromMouth = endMm !== undefined && joint.bore.kind !== "nut"
  const all =
    isFromMouth && last !== undefined ? [...gaps, { before: last.name, behind: joint.bore.id, gapMm: -endMm }] : gaps
  return all
    .filter((gap) => !isFilled(kit, joint, mouth, gap) && !isSoft(kit, gap))
    .reduce<JointGap | undefined>(
      (worst, gap) => (worst === undefined || Math.abs(gap.gapMm) > Math.abs(worst.gapMm) ? gap : worst),
      undefined,
    )
}

/** Distance of two pieces along the screw where they are nearest; below 0 where most of the inner ring is in both. */
function gapBetween(joint: Joint, before: readonly Seen[], behind: readonly Seen[]): number | undefined {
  const { diameterMm } = joint.fastener
  const rings = [ringRadiusMm(joint), ...wideRings.map((ring) => ring * diameterMm)].map((ringMm) => {
    const [one, other] = [layersOf(before, ringMm), layersOf(behind, ringMm)]
    return one.flatMap((layers, ray) => nearestGap(layers, other[ray] ?? []) ?? [])
  })
  const inner = rings[0] ?? []
  const overlaps = inner.filter((gapMm) => gapMm < 0)
  if (overlaps.length * 2 >= rayCount) return median(overlaps)
  const all = rings.flat()
  return all.length === 0 ? undefined : Math.max(0, Math.min(...all))
}

/** All layers of several pieces on each ray of a ring. */
function layersOf(seen: readonly Seen[], ringMm: number): readonly (readonly Layer[])[] {
  const rings = seen.map(({ axis }) => layersOnRing(axis, ringMm))
  return Array.from({ length: rayCount }, (_, ray) => rings.flatMap((rays) => rays[ray] ?? []))
}

/** Gap between the layers of one piece and those behind it on one ray, where it is smallest; below 0 in both. */
function nearestGap(before: readonly Layer[], behind: readonly Layer[]): number | undefined {
  const gaps = before.flatMap((one) =>
    behind.flatMap((other) => {
      const commonMm = overlapMm(one, other)
      if (commonMm > 0) return [-commonMm]
      return other.fromMm >= one.toMm ? [other.fromMm - one.toMm] : []
    }),
  )
  return gaps.length === 0 ? undefined : gaps.reduce((least, gap) => (Math.abs(gap) < Math.abs(least) ? gap : least))
}

/** Where the pieces end that lie nearest to the mouth, counted from it; undefined where most rays miss them. */
export function endOf(joint: Joint, seen: readonly Seen[]): number | undefined {
  const ends = layersOf(seen, ringRadiusMm(joint)).flatMap((layers) => {
    const distance = ({ fromMm, toMm }: Layer): number =>
      fromMm <= 0 && toMm >= 0 ? 0 : Math.min(Math.abs(fromMm), Math.abs(toMm))
    const [nearest] = [...layers].sort((one, other) => distance(one) - distance(other))
    return nearest === undefined ? [] : [nearest.toMm]
  })
  return ends.length * 2 < rayCount ? undefined : median(ends)
}

/** True when a pad of the thickness of the gap, or of unknown thickness, or some other piece lies in the gap. */
function isFilled(kit: Kit, joint: Joint, mouth: BorePoint, { before, behind, gapMm }: JointGap): boolean {
  if (gapMm <= 0) return false
  const own = [before, behind, ...joint.through, ...joint.bore.owners].flatMap((name) => [name, ofPiece(kit, name)])
  const isPadded = kit.pads.some(
    ({ on, thicknessMm }) =>
      [before, behind].some((name) => on === name || on === ofPiece(kit, name)) &&
      (thicknessMm === undefined || gapMm <= thicknessMm + 0.3),
  )
  if (isPadded || closesRoundFrame(kit, joint, mouth, gapMm)) return true
  const ringMm = ringRadiusMm(joint)
  return kit.instances
    .filter(({ id, of }) => !own.includes(id) && !own.includes(of))
    .some((instance) => {
      const axis = seeAxis(kit, instance, mouth, ringMm)
      if (axis === undefined) return false
      const stretch = { fromMm: -gapMm - 1e-3, toMm: 1e-3 }
      return layersOnRing(axis, ringMm).some((layers) =>
        layers.some((layer) => overlapMm(layer, stretch) > gapMm / 2 && layer.toMm - layer.fromMm < gapMm + 1),
      )
    })
}

/** A slit between two halves that are drawn together round a tube is meant to be there, up to this width. */
const slitMm = 3

/** True when the gap is such a slit: beside a frame that runs across the screw, and no higher or lower than the frame. */
function closesRoundFrame(kit: Kit, joint: Joint, mouth: BorePoint, gapMm: number): boolean {
  if (gapMm > slitMm) return false
  return kit.frames.some(({ axis, profile }) => {
    const reachMm = profile.kind === "round" ? profile.diameterMm / 2 : Math.max(profile.widthMm, profile.heightMm) / 2
    const from = subtract(mouth.at, axis.at)
    const away = along(from, axis.along, -dot(from, axis.along))
    const levelMm = dot(away, mouth.along)
    const besideMm = lengthOf(along(away, mouth.along, -levelMm)) - reachMm
    // With a nut the mouth is at the far end of the halves.
    const stackMm = joint.bore.kind === "nut" ? (joint.fastener.lengthMm ?? 0) : 0
    const isAcross = Math.abs(dot(axis.along, mouth.along)) < 0.5
    return isAcross && besideMm < 4 * joint.fastener.diameterMm && Math.abs(levelMm) <= reachMm + stackMm
  })
}

/** True when one of the pieces gives way: rubber, or a part that bends. */
function isSoft(kit: Kit, { before, behind, gapMm }: JointGap): boolean {
  if (gapMm >= 0) return false
  return [before, behind].some((name) => {
    const part = partOf(kit, name)
    return part !== undefined && (part.isFlexible || part.material?.kind === "rubber")
  })
}

function ofPiece(kit: Kit, name: string): string {
  return kit.instances.find(({ id }) => id === name)?.of ?? name
}
