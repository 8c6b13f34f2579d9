import { beforeAll, describe, expect, test } from "vitest"
import {
  areaMm2,
  boundsOf,
  combinePoses,
  guessUnit,
  hitsOfRay,
  isPointInside,
  joinBounds,
  loadKernel,
  measureMesh,
  moveMesh,
  movePoint,
  poseFrom,
  poseTowards,
  renderMeasure,
  signedVolumeMm3,
  splitShells,
  turnDirection,
} from "../../src/solids/index.ts"
import type { Kernel, Mesh, Vec3 } from "../../src/solids/types.ts"
import { anyPose, box, given, makePolygonBar, plateWithHoles, seeded } from "./shapes.ts"

let kernel: Kernel
let cube: Mesh
beforeAll(async () => {
  kernel = await loadKernel()
  cube = box(kernel, [20, 20, 20])
})

const close = (one: readonly number[], other: readonly number[], digits = 9): void => {
  for (const [axis, value] of other.entries()) expect(one[axis]).toBeCloseTo(value, digits)
}

describe("poses", () => {
  test("turn about x, then y, then z, then move", () => {
    expect(turnDirection(poseFrom([0, 0, 0], [90, 0, 0]), [0, 1, 0])).toEqual([0, 0, 1])
    expect(turnDirection(poseFrom([0, 0, 0], [0, 90, 0]), [0, 0, 1])).toEqual([1, 0, 0])
    expect(turnDirection(poseFrom([0, 0, 0], [0, 0, 90]), [1, 0, 0])).toEqual([0, 1, 0])
    // x first: (0, 1, 0) -> (0, 0, 1); y next -> (1, 0, 0); z last -> (0, 1, 0).
    expect(turnDirection(poseFrom([0, 0, 0], [90, 90, 90]), [0, 1, 0])).toEqual([0, 1, 0])
    expect(movePoint(poseFrom([1, 2, 3], [0, 0, 180]), [10, 0, 0])).toEqual([-9, 2, 3])
  })

  test("quarter turns are exact, whatever their sign and number", () => {
    for (const turn of [-270, -90, 90, 270, 450, 360, 720, -180]) {
      for (const value of poseFrom([0, 0, 0], [turn, turn, turn]).rotation) expect([-1, 0, 1]).toContain(value + 0)
    }
  })

  test("one after the other is the combined one; x is turned into any direction", () => {
    const random = seeded(5)
    for (let round = 0; round < 50; round += 1) {
      const [outer, inner] = [anyPose(random), anyPose(random)]
      const point: Vec3 = [random() * 50, random() * 50, random() * 50]
      close(movePoint(combinePoses(outer, inner), point), movePoint(outer, movePoint(inner, point)))
      const direction = turnDirection(outer, [1, 0, 0])
      close(turnDirection(poseTowards(direction), [1, 0, 0]), direction)
    }
    expect(turnDirection(poseTowards([-1, 0, 0]), [1, 0, 0])).toEqual([-1, 0, 0])
  })

  test("volume and surface stay; a mirroring pose keeps the outside outside", () => {
    const random = seeded(6)
    const mesh = kernel.make(plateWithHoles)
    for (let round = 0; round < 10; round += 1) {
      const moved = moveMesh(mesh, anyPose(random))
      expect(signedVolumeMm3(moved)).toBeCloseTo(signedVolumeMm3(mesh), 5)
      expect(areaMm2(moved)).toBeCloseTo(areaMm2(mesh), 5)
    }
    const mirrored = moveMesh(mesh, { rotation: [-1, 0, 0, 0, 1, 0, 0, 0, 1], at: [0, 0, 0] })
    expect(signedVolumeMm3(mirrored)).toBeCloseTo(signedVolumeMm3(mesh), 6)
  })
})

describe("rays", () => {
  test("through a cube: in and out, nearest first, nothing behind the start", () => {
    const hits = hitsOfRay(cube, [-5, 7, 8], [2, 0, 0])
    expect(hits.map(({ distanceMm, isEntering }) => [distanceMm, isEntering])).toEqual([
      [5, true],
      [25, false],
    ])
    expect(hitsOfRay(cube, [10, 7, 8], [1, 0, 0]).map(({ distanceMm }) => distanceMm)).toEqual([10])
    expect(hitsOfRay(cube, [25, 7, 8], [1, 0, 0])).toEqual([])
  })

  test("through edges, corners and diagonals each crossing counts once", () => {
    const directions: readonly (readonly [Vec3, Vec3])[] = [
      [
        [-5, 10, 10],
        [1, 0, 0],
      ],
      [
        [-5, 20 / 3, 20 / 3],
        [1, 0, 0],
      ],
      [
        [-10, -10, -10],
        [1, 1, 1],
      ],
      [
        [-10, 10, -10],
        [1, 0, 1],
      ],
    ]
    for (const [from, direction] of directions) {
      expect(hitsOfRay(cube, from, direction).map(({ isEntering }) => isEntering)).toEqual([true, false])
    }
  })

  test("lengths inside a convex solid agree with the box seen along any direction, 300 seeded rays", () => {
    const random = seeded(9)
    for (let round = 0; round < 300; round += 1) {
      const from: Vec3 = [random() * 60 - 20, random() * 60 - 20, random() * 60 - 20]
      const direction: Vec3 = [random() - 0.5, random() - 0.5, random() - 0.5]
      // Slab method: the part of the ray between the planes of all three pairs of faces.
      const spans = from.map((value, axis) => {
        const by = (direction[axis] ?? 0) / Math.hypot(...direction)
        return [(0 - value) / by, (20 - value) / by].sort((one, other) => one - other)
      })
      const low = Math.max(0, ...spans.map(([start = 0]) => start))
      const high = Math.min(...spans.map(([, end = 0]) => end))
      const distances = hitsOfRay(cube, from, direction).map(({ distanceMm }) => distanceMm)
      const inside = distances.length === 2 ? (distances[1] ?? 0) - (distances[0] ?? 0) : (distances[0] ?? 0)
      expect(inside).toBeCloseTo(Math.max(0, high - low), 9)
    }
  })

  test("points inside and outside of a plate with holes", () => {
    const mesh = kernel.make(plateWithHoles)
    expect(isPointInside(mesh, [40, 10, 3])).toBe(true)
    expect(isPointInside(mesh, [10, 10, 3])).toBe(false)
    expect(isPointInside(mesh, [50, 30, 3])).toBe(false)
    expect(isPointInside(mesh, [30, 30, 5])).toBe(true)
    expect(isPointInside(mesh, [30, 30, 3])).toBe(false)
  })
})

describe("shells", () => {
  test("separate solids come apart, a void stays with the solid round it", () => {
    const hollow = given(kernel.subtract(cube, [moveMesh(box(kernel, [10, 10, 10]), poseFrom([5, 5, 5], [0, 0, 0]))]))
    const all = given(kernel.union([hollow, moveMesh(cube, poseFrom([50, 0, 0], [0, 0, 0]))]))
    const shells = splitShells(all)
    expect(shells.map((shell) => Math.round(signedVolumeMm3(shell))).sort()).toEqual([7000, 8000])
    const bounds = joinBounds(shells.flatMap((shell) => boundsOf(shell) ?? []))
    expect(bounds).toEqual(boundsOf(all))
  })

  test("a solid inside a void is a solid of its own", () => {
    const hollow = given(kernel.subtract(cube, [moveMesh(box(kernel, [10, 10, 10]), poseFrom([5, 5, 5], [0, 0, 0]))]))
    const all = given(kernel.union([hollow, moveMesh(box(kernel, [2, 2, 2]), poseFrom([9, 9, 9], [0, 0, 0]))]))
    expect(
      splitShells(all)
        .map((shell) => Math.round(signedVolumeMm3(shell)))
        .sort(),
    ).toEqual([7000, 8])
  })
})

describe("measuring", () => {
  test("numbers of a plate, as YAML", () => {
    const facts = measureMesh(kernel.make(plateWithHoles))
    expect(facts.sizeMm).toEqual([80, 60, 6])
    expect(facts.shellCount).toBe(1)
    expect(facts.unitGuess).toBe("mm")
    expect(renderMeasure(facts, "plate.stl")).toContain(
      [
        "# 2 round holes of 4.3 mm",
        "holes:",
        "  - { at: [10, 10, 6], along: down } # through 6 mm",
        "  - { at: [70, 10, 3], along: down } # through 3 mm",
      ].join("\n"),
    )
  })

  test.each([
    [0.08, "m"],
    [0.59, "m"],
    [2.4, "inch"],
    [4.9, "inch"],
    [5.1, "mm"],
    [300, "mm"],
  ] as const)("a model %d long is guessed to be drawn in %s", (largestMm, unit) => {
    expect(guessUnit(largestMm)).toBe(unit)
  })

  test("a plate drawn in inches says so", () => {
    const inches = moveMesh(cube, { rotation: [1 / 25.4, 0, 0, 0, 1 / 25.4, 0, 0, 0, 1 / 25.4], at: [0, 0, 0] })
    expect(renderMeasure(measureMesh(inches), "plate.stl")).toContain("# model: { file: plate.stl, unit: inch }")
  })

  test("a bar has no hole", () => {
    expect(renderMeasure(measureMesh(makePolygonBar(10, 30, 48)), "bar.stl")).toContain("# no round hole found")
  })
})
