/** Written openings against those in the meshes of their parts. All in mm. */
import type { BorePoint } from "../kit/joint-types.ts"
import type { Kit, Passage } from "../kit/types.ts"
import { hitsOfRay } from "../solids/index.ts"
import type { Outline } from "../solids/types.ts"
import { along, crossDirections, scale } from "../solids/vectors.ts"
import { type AxisInPiece, type Layer, layersOnRing, median, rayCount, seeAxis } from "./axis-rays.ts"
import type { OpeningFit } from "./types.ts"

/** Rounding of places and facets. */
const roundingMm = 0.3
/** How far from the written middle the wall with the opening may lie along its direction. */
const nearWallMm = 3

/**
 * Gives the openings whose written size does not fit the one found at their place. What is found is measured in the two
 * directions square to the opening. Openings without a place, without a mesh or without a wall round them are left out.
 */
export function computeOpenings(kit: Kit): readonly OpeningFit[] {
  return kit.passages.flatMap((passage) => {
    const found = passage.at === undefined ? undefined : findOpening(kit, passage, passage.at)
    if (passage.opening === undefined || found === undefined) return []
    return isLarger(passage.opening, found) ? [{ passage: passage.id, written: passage.opening, found }] : []
  })
}

function findOpening(kit: Kit, passage: Passage, at: BorePoint): Outline | undefined {
  if (passage.opening === undefined) return undefined
  const [longMm, shortMm] = sidesOf(passage.opening)
  const reachMm = 2 * longMm
  for (const instance of kit.instances) {
    if (instance.of !== passage.part && instance.id !== passage.part) continue
    const axis = seeAxis(kit, instance, at, reachMm)
    const middleMm = axis === undefined ? undefined : wallMiddleMm(axis, longMm, shortMm)
    if (axis === undefined || middleMm === undefined) continue
    const middle = along(axis.at, axis.along, middleMm)
    const [wide, high] = crossDirections(axis.along).map((direction) => {
      const [one, other] = [direction, scale(direction, -1)].map((way) => hitsOfRay(axis.mesh, middle, way)[0])
      return one === undefined || other === undefined || one.isEntering === false || other.isEntering === false
        ? undefined
        : one.distanceMm + other.distanceMm
    })
    if (wide === undefined || high === undefined) continue
    if (passage.opening.kind === "circle" && Math.abs(wide - high) < roundingMm)
      return { kind: "circle", diameterMm: (wide + high) / 2 }
    return { kind: "rectangle", widthMm: Math.max(wide, high), heightMm: Math.min(wide, high), cornerMm: 0 }
  }
  return undefined
}

/** Middle of the wall that surrounds the opening; undefined when less than half of a ring meets one near its place. */
function wallMiddleMm(axis: AxisInPiece, longMm: number, shortMm: number): number | undefined {
  const isNear = ({ fromMm, toMm }: Layer): boolean => fromMm <= nearWallMm && toMm >= -nearWallMm
  const rings = [longMm / 2 + 1.5, shortMm / 2 + 1.5, shortMm / 3].map((ringMm) =>
    layersOnRing(axis, ringMm).flatMap((layers) => layers.find(isNear) ?? []),
  )
  const walls = rings.find((layers) => layers.length * 2 >= rayCount)
  return walls === undefined ? undefined : median(walls.map(({ fromMm, toMm }) => (fromMm + toMm) / 2))
}

function isLarger(written: Outline, found: Outline): boolean {
  const [long, short] = sidesOf(written)
  const [foundLong, foundShort] = sidesOf(found)
  return long > foundLong + roundingMm || short > foundShort + roundingMm
}

function sidesOf(outline: Outline): readonly [number, number] {
  if (outline.kind === "circle") return [outline.diameterMm, outline.diameterMm]
  return [Math.max(outline.widthMm, outline.heightMm), Math.min(outline.widthMm, outline.heightMm)]
}
