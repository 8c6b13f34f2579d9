/**
 * Simple solids of fasteners for drawings: head, drive and a plain shank. Threads are never modelled, they print as
 * black blobs. Built along z: the face under the head is z = 0, the shank goes down, the head stands up. A countersunk
 * head has its top at z = 0. Nuts, washers and inserts lie on z = 0 and stand up.
 */
import { findHead, findInsert, findNut, findWasher } from "../fasteners/sizes.ts"
import type { Fastener } from "../fasteners/types.ts"
import type { Mesh } from "../solids/types.ts"
import { circle, hexagon, loftLoop, loftRings, polar, type Ring } from "./loft.ts"

export type HeadSize = { readonly diameterMm: number; readonly heightMm: number }

/**
 * Head of a screw, or outside of a nut, washer or insert, in mm: from the tables, else as common proportions of the nominal
 * diameter d (1.75 d x 0.6 d for a head, 1.75 d across flats and 0.85 d for a nut; no source, good for a picture only).
 */
export function outsideOf(fastener: Fastener): HeadSize {
  const d = fastener.diameterMm
  switch (fastener.kind) {
    case "screw": {
      const { diameterMm, heightMm } = findHead(fastener)
      return fastener.head === "none" ? { diameterMm: d, heightMm: 0 } : { diameterMm, heightMm }
    }
    case "nut": {
      const nut = findNut(fastener)
      return { diameterMm: nut?.flatsMm ?? 1.75 * d, heightMm: nut?.heightMm ?? 0.85 * d }
    }
    case "washer": {
      const washer = findWasher(fastener)
      return { diameterMm: washer?.outerMm ?? 2.2 * d, heightMm: washer?.thicknessMm ?? 0.2 * d }
    }
    case "insert": {
      const insert = findInsert(fastener)
      return { diameterMm: insert?.outerMm ?? 1.45 * d, heightMm: insert?.lengthMm ?? 1.5 * d }
    }
  }
}

/** Builds the solid; closed, outward. */
export function buildFastenerSolid(fastener: Fastener, head: HeadSize = outsideOf(fastener)): Mesh {
  const d = fastener.diameterMm
  if (fastener.kind === "washer") return ringSolid(circle(head.diameterMm / 2), 0.53 * d, head.heightMm)
  if (fastener.kind === "insert") return ringSolid(circle(head.diameterMm / 2), 0.45 * d, head.heightMm)
  if (fastener.kind === "nut") return ringSolid(hexagon(head.diameterMm), 0.45 * d, head.heightMm)
  return loftRings([...shankRings(fastener, head), ...headRings(fastener, head)])
}

function ringSolid(outside: readonly number[], boreRadiusMm: number, heightMm: number): Mesh {
  const bore = circle(boreRadiusMm)
  return loftLoop([
    { zMm: 0, points: bore },
    { zMm: 0, points: outside },
    { zMm: heightMm, points: outside },
    { zMm: heightMm, points: bore },
  ])
}

/** From the tip up to the head; a thread-forming screw gets a blunt cone, others a small chamfer. */
function shankRings(fastener: Fastener, head: HeadSize): readonly Ring[] {
  const radius = fastener.diameterMm / 2
  const length = Math.max(fastener.lengthMm ?? 3 * fastener.diameterMm, 0.5 * fastener.diameterMm)
  const tip = fastener.isThreadForming ? 0.45 * radius : 0.75 * radius
  const tipHeight = fastener.isThreadForming ? 0.8 * radius : 0.25 * radius
  const top = fastener.head === "countersunk" ? -Math.min(head.heightMm, head.diameterMm / 2 - radius, 0.8 * length) : 0
  return [
    { zMm: -length, points: circle(tip) },
    { zMm: -length + tipHeight, points: circle(radius) },
    { zMm: top, points: circle(radius) },
  ]
}

function headRings(fastener: Fastener, { diameterMm, heightMm }: HeadSize): readonly Ring[] {
  const radius = diameterMm / 2
  const d = fastener.diameterMm
  switch (fastener.head) {
    case "countersunk":
      return [{ zMm: 0, points: circle(radius) }, ...driveRings(fastener, 0, 0.45 * heightMm, 0.55 * radius)]
    case "hexagon":
      return [
        { zMm: 0, points: hexagon(diameterMm) },
        { zMm: heightMm, points: hexagon(diameterMm) },
      ]
    case "none":
      return driveRings(fastener, 0, 0.5 * d, 0.7 * radius)
    case "cap":
      return [
        { zMm: 0, points: circle(radius) },
        { zMm: heightMm - 0.06 * d, points: circle(radius) },
        { zMm: heightMm, points: circle(radius - 0.06 * d) },
        ...driveRings(fastener, heightMm, 0.5 * heightMm, 0.62 * radius),
      ]
    case "button":
    case "pan":
      return [
        ...domeRings(radius, heightMm, fastener.head === "pan" ? 0.35 : 0.1),
        ...driveRings(fastener, heightMm, 0.5 * heightMm, 0.5 * radius),
      ]
  }
}

/** A low dome: upright for a share of the height, then rounded in to the flat round the drive. */
function domeRings(radiusMm: number, heightMm: number, uprightShare: number): readonly Ring[] {
  const upright = uprightShare * heightMm
  const flat = 0.62 * radiusMm
  const stepCount = 6
  return [
    { zMm: 0, points: circle(radiusMm) },
    ...Array.from({ length: stepCount + 1 }, (_, step) => {
      const angle = (Math.PI / 2) * (step / stepCount)
      return {
        zMm: upright + (heightMm - upright) * Math.sin(angle),
        points: circle(flat + (radiusMm - flat) * Math.cos(angle)),
      }
    }),
  ]
}

/** Mouth and floor of the drive recess in the top of a head. */
function driveRings(fastener: Fastener, topMm: number, depthMm: number, radiusMm: number): readonly Ring[] {
  const mouth = driveOutline(fastener, radiusMm)
  if (mouth === undefined) return []
  return [
    { zMm: topMm, points: mouth },
    { zMm: topMm - depthMm, points: mouth },
  ]
}

function driveOutline({ drive }: Fastener, radiusMm: number): readonly number[] | undefined {
  switch (drive?.kind) {
    case "hexagon-socket": {
      const acrossFlats = Number(drive.size)
      const largest = 2 * 1.3 * radiusMm
      return hexagon(acrossFlats > 0 ? Math.min(acrossFlats, largest) : 1.5 * radiusMm)
    }
    case "hexalobular":
      return polar(36, (angle) => radiusMm * (0.87 + 0.13 * Math.cos(6 * angle)))
    case "cross-pz":
    case "cross-ph":
      return crossOutline(1.15 * radiusMm, 0.24 * radiusMm)
    case "slot":
      return [1.5, 0.2, -1.5, 0.2, -1.5, -0.2, 1.5, -0.2].map((value) => value * radiusMm)
    default:
      return undefined
  }
}

/** A plus sign; its twelve corners are seen from the axis in order. */
function crossOutline(reachMm: number, halfMm: number): readonly number[] {
  const corners = [
    [reachMm, halfMm],
    [halfMm, halfMm],
    [halfMm, reachMm],
    [-halfMm, reachMm],
    [-halfMm, halfMm],
    [-reachMm, halfMm],
    [-reachMm, -halfMm],
    [-halfMm, -halfMm],
    [-halfMm, -reachMm],
    [halfMm, -reachMm],
    [halfMm, -halfMm],
    [reachMm, -halfMm],
  ]
  return corners.flat()
}
