import { expect, test } from "vitest"
import { buildCableSolid } from "../../src/drawing/cable-solid.ts"
import { clipAlong } from "../../src/drawing/clip-mesh.ts"
import { keepNear } from "../../src/drawing/clusters.ts"
import { isBlocked, shiftBack } from "../../src/drawing/explode.ts"
import { buildFastenerSolid, outsideOf } from "../../src/drawing/fastener-solid.ts"
import { circle, loftLoop, loftRings, sweepProfile } from "../../src/drawing/loft.ts"
import { prepareMesh } from "../../src/drawing/prepare-mesh.ts"
import { extentAlong, type Thing, type ThingRole } from "../../src/drawing/things.ts"
import { restPose } from "../../src/drawing/vector.ts"
import type { Fastener } from "../../src/fasteners/types.ts"
import type { Cable } from "../../src/kit/types.ts"
import { signedVolumeMm3 } from "../../src/solids/index.ts"
import type { Mesh, Vec3 } from "../../src/solids/types.ts"
import { box } from "./scenes.ts"

const base: Fastener = {
  designation: "ISO 4762 - M4 x 16",
  written: "ISO 4762 M4x16",
  kind: "screw",
  standard: "ISO 4762",
  head: "cap",
  drive: { kind: "hexagon-socket", size: "3" },
  isThreadForming: false,
  diameterMm: 4,
  pitchMm: 0.7,
  lengthMm: 16,
  propertyClass: "8.8",
  isClassAssumed: true,
}

const kinds: readonly Fastener[] = [
  base,
  { ...base, standard: "ISO 7380-1", head: "button", drive: { kind: "hexagon-socket", size: "2.5" } },
  { ...base, standard: "ISO 10642", head: "countersunk", drive: { kind: "hexalobular", size: "20" } },
  { ...base, standard: undefined, head: "pan", drive: { kind: "cross-pz", size: "2" }, isThreadForming: true },
  { ...base, standard: undefined, head: "pan", drive: { kind: "slot", size: "1" } },
  { ...base, standard: "ISO 4017", head: "hexagon", drive: { kind: "hexagon", size: "7" } },
  { ...base, standard: undefined, head: "none", drive: { kind: "hexagon-socket", size: "2" } },
  { ...base, kind: "nut", standard: "ISO 4032", head: "none", drive: undefined, lengthMm: undefined },
  { ...base, kind: "washer", standard: "ISO 7089", head: "none", drive: undefined, lengthMm: undefined },
  { ...base, kind: "insert", standard: undefined, head: "none", drive: undefined, lengthMm: 8 },
]

test("each fastener is a closed, outward solid of its length", () => {
  for (const fastener of kinds) {
    const solid = buildFastenerSolid(fastener)
    const name = `${fastener.kind} ${fastener.head} ${fastener.drive?.kind}`
    expect(prepareMesh(solid).isClosed, name).toBe(true)
    expect(signedVolumeMm3(solid), name).toBeGreaterThan(0)
    const reach = extentAlong(solid, restPose, [0, 0, 1])
    const { heightMm } = outsideOf(fastener)
    if (fastener.kind !== "screw") expect(reach.max - reach.min, name).toBeCloseTo(heightMm, 9)
    else {
      expect(reach.min, name).toBeCloseTo(-16, 9)
      expect(reach.max, name).toBeCloseTo(fastener.head === "countersunk" ? 0 : heightMm, 9)
    }
  }
})

test("sizes of a cap screw are those of ISO 4762: M4 has a head of 7 mm, 4 mm high (table 1, from memory)", () => {
  expect(outsideOf(base)).toEqual({ diameterMm: 7, heightMm: 4 })
})

test("solids of revolution have the volumes of their formulas", () => {
  // A prism of 48 sides: area n/2 r^2 sin(2 pi / n).
  const area = (radius: number): number => 24 * radius * radius * Math.sin(Math.PI / 24)
  const rod = loftRings([
    { zMm: 0, points: circle(5) },
    { zMm: 20, points: circle(5) },
  ])
  expect(signedVolumeMm3(rod)).toBeCloseTo(20 * area(5), 6)
  const tube = loftLoop([
    { zMm: 0, points: circle(3) },
    { zMm: 0, points: circle(5) },
    { zMm: 20, points: circle(5) },
    { zMm: 20, points: circle(3) },
  ])
  expect(signedVolumeMm3(tube)).toBeCloseTo(20 * (area(5) - area(3)), 6)
})

test("a swept loop is outward whichever way its path runs", () => {
  const ring: readonly Vec3[] = Array.from({ length: 48 }, (_, index) => {
    const angle = (2 * Math.PI * index) / 48
    return [10 * Math.cos(angle), 10 * Math.sin(angle), 0]
  })
  const profile = [-2, -0.5, 2, -0.5, 2, 0.5, -2, 0.5]
  for (const path of [ring, ring.toReversed()]) {
    const strap = sweepProfile(profile, path, true, [0, 0, 1])
    expect(prepareMesh(strap).isClosed).toBe(true)
    // Pappus: area times the way of its middle, 4 mm2 x 2 pi 10 mm; the chords of 48 sides are 0.1 % short.
    expect(signedVolumeMm3(strap) / (4 * 2 * Math.PI * 10)).toBeCloseTo(1, 2)
  }
})

test("a cable with a corner is a closed tube that keeps its ends", () => {
  const route: readonly Vec3[] = [
    [0, 0, 0],
    [0, 0, 60],
    [0, 50, 60],
  ]
  const cable: Cable = {
    id: "lead",
    path: "cables/lead",
    name: "lead",
    itemReference: undefined,
    lengthMm: 600,
    diameterMm: 6,
    slackMm: undefined,
    leastBendRadiusMm: 25,
    ends: [],
    route,
    via: [],
    isSupplied: true,
    bag: undefined,
    isLive: false,
  }
  const solid = buildCableSolid(cable)
  if (solid === undefined) throw new Error("no cable")
  expect(prepareMesh(solid).isClosed).toBe(true)
  expect(signedVolumeMm3(solid)).toBeGreaterThan(0)
  expect(extentAlong(solid, restPose, [0, 0, 1]).min).toBeCloseTo(0, 6)
  expect(extentAlong(solid, restPose, [0, 1, 0]).max).toBeCloseTo(50, 6)
  // No facet edge of a bend may count as a crease.
  const { kinds: edgeKinds } = prepareMesh(solid)
  expect(edgeKinds.filter((kind) => kind === 1).length).toBe(2 * 24)
  expect(buildCableSolid({ ...cable, route: [] })).toBeUndefined()
})

test("a tube cut short ends in a wave at the cut and keeps the end that is near", () => {
  const tube = loftLoop([
    { zMm: 0, points: circle(14) },
    { zMm: 0, points: circle(16) },
    { zMm: 300, points: circle(16) },
    { zMm: 300, points: circle(14) },
  ])
  const cut = clipAlong(tube, [0, 0, 0], [0, 0, 1], -50, 120, 1.6)
  const reach = extentAlong(cut, restPose, [0, 0, 1])
  expect(reach.min).toBe(0)
  expect(reach.max).toBeGreaterThan(121)
  expect(reach.max).toBeLessThanOrEqual(121.6 + 1e-9)
  expect(prepareMesh(cut).isClosed).toBe(false)
})

function thing(id: string, role: ThingRole, mesh: Mesh): Thing {
  return { id, role, mesh: prepareMesh(mesh), pose: restPose, moved: undefined }
}

test("what stands apart from the work is left out, what hangs on to it through others stays", () => {
  const things = [
    thing("new", "new", box([0, 0, 0], [10, 10, 10])),
    thing("beside", "context", box([10, 0, 0], [20, 10, 10])),
    thing("beyond", "context", box([21, 0, 0], [30, 10, 10])),
    thing("far", "context", box([100, 0, 0], [110, 10, 10])),
  ]
  expect(keepNear(things, "new").map(({ id }) => id)).toEqual(["new", "beside", "beyond"])
  const old = things.map((one) => ({ ...one, role: "context" as const }))
  expect(keepNear(old, "new")).toEqual(old)
})

test("a part is drawn back along its way until it is clear of what it sits in", () => {
  const part = { mesh: box([0, 0, 10], [10, 10, 20]), pose: restPose }
  const block = { mesh: box([-20, -20, -20], [30, 30, 14]), pose: restPose }
  // It comes down, so it is drawn up: 4 mm out of the pocket and 18 mm more. The angle to the way is nothing.
  expect(shiftBack(part, [0, 0, -1], [block]).map((value) => value + 0)).toEqual([0, 0, 22])
  const beside = { mesh: box([40, 0, 0], [50, 10, 100]), pose: restPose }
  expect(shiftBack(part, [0, 0, -1], [beside]).map((value) => value + 0)).toEqual([0, 0, 18])
  const roof = { mesh: box([-20, -20, 25], [30, 30, 30]), pose: restPose }
  expect(isBlocked(part, [0, 0, -1], [block])).toBe(false)
  expect(isBlocked(part, [0, 0, -1], [block, roof])).toBe(true)
})
