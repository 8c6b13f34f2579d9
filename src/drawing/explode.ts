/** How far things are drawn apart: along the way they are put on, just clear of what they sit on. */
import type { Mesh, Pose, Vec3 } from "../solids/types.ts"
import { cross, scale } from "../solids/vectors.ts"
import { type Extent, extentAlong } from "./things.ts"
import { squareTo } from "./vector.ts"

/** A tube reaches past what is mounted on it, so that no piece passes where it stands in the way. */
export type Solid = { readonly mesh: Mesh; readonly pose: Pose; readonly isTube?: boolean }

/** Clear space between a part and its place. */
const gapMm = 18
/** Nothing is moved further than its own length and this. */
const farthestMm = 45

/**
 * Gives the shift of a part that comes along `goes`, in mm: back until it is clear of all `others` in whose way it lies.
 * Things beyond its reach do not count, so that a part in a deep pocket does not leave the picture.
 */
export function shiftBack(part: Solid, goes: Vec3, others: readonly Solid[]): Vec3 {
  const back = scale(goes, -1)
  const across = squareTo(back)
  const aside = cross(back, across)
  const own = [back, across, aside].map((direction) => extentAlong(part.mesh, part.pose, direction))
  const [ownBack, ownAcross, ownAside] = own
  if (ownBack === undefined || ownAcross === undefined || ownAside === undefined) return [0, 0, 0]
  let neededMm = 0
  for (const { mesh, pose } of others) {
    if (!overlaps(extentAlong(mesh, pose, across), ownAcross) || !overlaps(extentAlong(mesh, pose, aside), ownAside))
      continue
    const reach = extentAlong(mesh, pose, back)
    if (reach.min > ownBack.max) continue
    neededMm = Math.max(neededMm, reach.max - ownBack.min)
  }
  const lengthMm = ownBack.max - ownBack.min
  return scale(back, Math.min(neededMm, lengthMm + farthestMm) + gapMm)
}

/** True when a part that comes along `goes` would have to pass through one of `others`: something lies right behind it. */
export function isBlocked(part: Solid, goes: Vec3, others: readonly Solid[]): boolean {
  const back = scale(goes, -1)
  const across = squareTo(back)
  const aside = cross(back, across)
  const own = extentAlong(part.mesh, part.pose, back)
  const ownAcross = extentAlong(part.mesh, part.pose, across)
  const ownAside = extentAlong(part.mesh, part.pose, aside)
  return others.some(({ mesh, pose, isTube }) => {
    const reach = extentAlong(mesh, pose, back)
    if (reach.max < own.max + 0.5 || (isTube !== true && (reach.min + reach.max) / 2 < own.max)) return false
    return overlaps(extentAlong(mesh, pose, across), ownAcross) && overlaps(extentAlong(mesh, pose, aside), ownAside)
  })
}

function overlaps(one: Extent, other: Extent): boolean {
  return one.min < other.max - 0.1 && other.min < one.max - 0.1
}
