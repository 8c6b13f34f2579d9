import { beforeAll, describe, expect, test } from "vitest"
import {
  boundsOf,
  loadKernel,
  moveMesh,
  pairEdges,
  poseFrom,
  segmentsForCircle,
  signedVolumeMm3,
  sizeOf,
} from "../../src/solids/index.ts"
import type { Kernel, Mesh, Shape } from "../../src/solids/types.ts"
import { anyPose, box, given, makePolygonBar, seeded } from "./shapes.ts"

let kernel: Kernel
beforeAll(async () => {
  kernel = await loadKernel()
})

/** Area of a regular polygon on a circle of this diameter, by elementary geometry. */
function discMm2(diameterMm: number): number {
  const segments = segmentsForCircle(diameterMm / 2)
  return (segments / 2) * (diameterMm / 2) ** 2 * Math.sin((2 * Math.PI) / segments)
}

describe("circles", () => {
  test.each([0.5, 2, 5, 16, 24, 30, 100, 400])(
    "radius %d: chords within 0.01 mm, at least 48, a multiple of 4",
    (radiusMm) => {
      const segments = segmentsForCircle(radiusMm)
      expect(radiusMm * (1 - Math.cos(Math.PI / segments))).toBeLessThanOrEqual(0.01)
      expect(segments).toBeGreaterThanOrEqual(48)
      expect(segments % 4).toBe(0)
    },
  )
})

describe("shapes have the volume and the size that their numbers say", () => {
  const cases: readonly (readonly [string, Shape, number, readonly number[]])[] = [
    ["box", { kind: "box", sizeMm: [80, 60, 40], holes: [] }, 80 * 60 * 40, [80, 60, 40]],
    [
      "plate",
      { kind: "plate", sizeMm: [80, 60, 6], cornerMm: 5, holes: [] },
      (80 * 60 - 100 + discMm2(10)) * 6,
      [80, 60, 6],
    ],
    [
      "cylinder",
      { kind: "cylinder", diameterMm: 20, heightMm: 40, boreMm: 6 },
      (discMm2(20) - discMm2(6)) * 40,
      [20, 20, 40],
    ],
    ["solid cylinder", { kind: "cylinder", diameterMm: 20, heightMm: 40, boreMm: 0 }, discMm2(20) * 40, [20, 20, 40]],
    [
      "round tube",
      { kind: "tube", profile: { kind: "round", diameterMm: 32 }, lengthMm: 300, wallMm: 2 },
      (discMm2(32) - discMm2(28)) * 300,
      [300, 32, 32],
    ],
    [
      "square tube",
      { kind: "tube", profile: { kind: "square", widthMm: 40, heightMm: 30, cornerMm: 3 }, lengthMm: 200, wallMm: 2 },
      (40 * 30 - 36 + discMm2(6) - (36 * 26 - 4 + discMm2(2))) * 200,
      [200, 40, 30],
    ],
    [
      "saddle on a half sunk tube",
      { kind: "saddle", sizeMm: [60, 40, 25], seat: { kind: "round", diameterMm: 32 }, depthMm: 16, holes: [] },
      60 * 40 * 25 - (discMm2(32) / 2) * 60,
      [60, 40, 25],
    ],
    [
      "saddle on a square tube",
      {
        kind: "saddle",
        sizeMm: [60, 50, 25],
        seat: { kind: "square", widthMm: 40, heightMm: 40, cornerMm: 0 },
        depthMm: 10,
        holes: [],
      },
      60 * 50 * 25 - 40 * 10 * 60,
      [60, 50, 25],
    ],
    [
      "box with a blind hole, a hole through and an opening",
      {
        kind: "box",
        sizeMm: [80, 60, 40],
        holes: [
          { at: [20, 20, 40], along: [0, 0, -1], diameterMm: 5, depthMm: 10 },
          { at: [60, 20, 40], along: [0, 0, -1], diameterMm: 5, depthMm: 0 },
          { at: [40, 0, 20], along: [0, 1, 0], sizeMm: [14, 10], depthMm: 0 },
        ],
      },
      80 * 60 * 40 - discMm2(5) * 50 - 14 * 10 * 60,
      [80, 60, 40],
    ],
  ]
  test.each(cases)("%s", (_, shape, volumeMm3, sizeMm) => {
    const mesh = kernel.make(shape)
    expect((kernel.volumeMm3(mesh) ?? 0) / volumeMm3).toBeCloseTo(1, 5)
    const bounds = boundsOf(mesh)
    for (const [axis, size] of sizeMm.entries()) expect(bounds && sizeOf(bounds)[axis]).toBeCloseTo(size, 4)
    expect(pairEdges(mesh).faults).toEqual({ openCount: 0, crowdedCount: 0, near: undefined })
    expect(signedVolumeMm3(mesh)).toBeGreaterThan(0)
  })

  test("the first size of an opening lies along x, or y when it runs along x", () => {
    const cut = (
      along: readonly [number, number, number],
      at: readonly [number, number, number],
    ): readonly number[] => {
      const whole = box(kernel, [40, 40, 40])
      const opened = kernel.make({
        kind: "box",
        sizeMm: [40, 40, 40],
        holes: [{ at, along, sizeMm: [14, 10], depthMm: 40 }],
      })
      const bounds = boundsOf(given(kernel.subtract(whole, [opened])))
      return bounds === undefined ? [] : sizeOf(bounds).map((size) => Math.round(size))
    }
    expect(cut([0, 0, -1], [20, 20, 40])).toEqual([14, 10, 40])
    expect(cut([0, 1, 0], [20, 0, 20])).toEqual([14, 40, 10])
    expect(cut([-1, 0, 0], [40, 20, 20])).toEqual([40, 14, 10])
  })

  test("shapes stand where they are said to stand", () => {
    const low = (shape: Shape) => boundsOf(kernel.make(shape))?.min.map((value) => Math.round(value * 1000) / 1000 + 0)
    expect(low({ kind: "box", sizeMm: [8, 6, 4], holes: [] })).toEqual([0, 0, 0])
    expect(low({ kind: "plate", sizeMm: [8, 6, 4], cornerMm: 1, holes: [] })).toEqual([0, 0, 0])
    expect(low({ kind: "cylinder", diameterMm: 10, heightMm: 4, boreMm: 0 })).toEqual([-5, -5, 0])
    const profile = { kind: "round", diameterMm: 32 } as const
    expect(low({ kind: "tube", profile, lengthMm: 300, wallMm: 2 })).toEqual([-150, -16, -16])
  })
})

/** Boxes and bars anywhere, so that some overlap and some do not. */
function anySolid(random: () => number): Mesh {
  const size = (): number => 5 + random() * 30
  const solid =
    random() < 0.5
      ? box(kernel, [size(), size(), size()])
      : makePolygonBar(size(), size(), 12 + Math.floor(random() * 50))
  const { rotation, at } = anyPose(random)
  return moveMesh(solid, { rotation, at: [at[0] / 12, at[1] / 12, at[2] / 12] })
}

describe("sums of volumes, 60 seeded pairs of boxes and bars", () => {
  test.each(Array.from({ length: 60 }, (_, index) => index + 1))("seed %i", (seed) => {
    const random = seeded(seed)
    const [one, other] = [anySolid(random), anySolid(random)]
    const [volumeOne, volumeOther] = [kernel.volumeMm3(one) ?? 0, kernel.volumeMm3(other) ?? 0]
    const union = kernel.volumeMm3(given(kernel.union([one, other]))) ?? 0
    const overlap = kernel.overlap(one, other)?.volumeMm3 ?? -1
    const rest = kernel.volumeMm3(given(kernel.subtract(one, [other]))) ?? 0
    const all = volumeOne + volumeOther
    expect(Math.abs(union + overlap - all) / all).toBeLessThan(1e-5)
    expect(Math.abs(rest + overlap - volumeOne) / all).toBeLessThan(1e-5)
    // Turned, moved and in the other order it is the same.
    const pose = anyPose(random)
    const moved = kernel.overlap(moveMesh(other, pose), moveMesh(one, pose))?.volumeMm3 ?? -1
    expect(Math.abs(moved - overlap) / all).toBeLessThan(1e-4)
    expect(volumeOne / signedVolumeMm3(one)).toBeCloseTo(1, 5)
  })
})

describe("what is not closed, what is empty", () => {
  test("a mesh with a missing triangle gives undefined everywhere", () => {
    const whole = box(kernel, [10, 10, 10])
    const open = { positions: whole.positions, triangles: whole.triangles.slice(3) }
    expect(kernel.volumeMm3(open)).toBeUndefined()
    expect(kernel.union([whole, open])).toBeUndefined()
    expect(kernel.subtract(open, [whole])).toBeUndefined()
    expect(kernel.overlap(whole, open)).toBeUndefined()
  })

  test("solids apart have no overlap, solids that touch have none to speak of", () => {
    const whole = box(kernel, [10, 10, 10])
    expect(kernel.overlap(whole, moveMesh(whole, poseFrom([20, 0, 0], [0, 0, 0])))).toMatchObject({ volumeMm3: 0 })
    expect(kernel.overlap(whole, moveMesh(whole, poseFrom([10, 0, 0], [0, 0, 0])))?.volumeMm3).toBeLessThan(1e-6)
    expect(kernel.volumeMm3({ positions: new Float64Array(), triangles: new Uint32Array() })).toBe(0)
  })

  test("results are plain data", () => {
    const result = kernel.overlap(box(kernel, [10, 10, 10]), box(kernel, [5, 5, 5]))
    expect(structuredClone(result)).toEqual(result)
  })
})

test("operations give back the kernel's memory", async () => {
  const loaded = await loadKernel()
  const one = makePolygonBar(100, 10, 400)
  const other = moveMesh(makePolygonBar(80, 12, 400), poseFrom([0, 0, -1], [0, 0, 0]))
  const work = (): void => {
    loaded.overlap(one, other)
    loaded.union([one, other])
    loaded.subtract(one, [other])
    loaded.make({ kind: "cylinder", diameterMm: 200, heightMm: 10, boreMm: 100 })
  }
  for (let round = 0; round < 2; round += 1) work()
  const before = process.memoryUsage().external
  for (let round = 0; round < 12; round += 1) work()
  // Without giving back, these rounds grow the kernel's memory by over 30 MB (measured).
  expect(process.memoryUsage().external - before).toBeLessThan(10e6)
})
