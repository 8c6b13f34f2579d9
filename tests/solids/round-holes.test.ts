import { beforeAll, describe, expect, test } from "vitest"
import {
  findRoundHoles,
  loadKernel,
  moveMesh,
  movePoint,
  poseFrom,
  turnDirection,
  writeStl,
} from "../../src/solids/index.ts"
import type { Kernel, Mesh, Pose, RoundHole, Vec3 } from "../../src/solids/types.ts"
import { anyPose, box, given, makeCone, makePolygonBar, meshOf, plateWithHoles, seeded } from "./shapes.ts"

let kernel: Kernel
beforeAll(async () => {
  kernel = await loadKernel()
})

/** Cuts bars that stand along z out of a block of 60 x 40 x 20. */
function drill(tools: readonly { readonly bar: Mesh; readonly pose: Pose }[], sizeMm: Vec3 = [60, 40, 20]): Mesh {
  return given(
    kernel.subtract(
      box(kernel, sizeMm),
      tools.map(({ bar, pose }) => moveMesh(bar, pose)),
    ),
  )
}

function at(x: number, y: number, z: number, turnDeg: Vec3 = [0, 0, 0]): Pose {
  return poseFrom([x, y, z], turnDeg)
}

const short = (hole: RoundHole) => ({ d: hole.diameterMm, depth: hole.depthMm, through: hole.through })

describe("the holes of a plate made by the kernel", () => {
  test("are found with place, direction and depth", () => {
    const found = findRoundHoles(kernel.make(plateWithHoles))
    expect(found).toEqual([
      { diameterMm: 2, at: [0, 45, 3], along: [1, 0, 0], depthMm: 12, through: false },
      { diameterMm: 2.5, at: [30, 30, 0], along: [0, 0, 1], depthMm: 4, through: false },
      { diameterMm: 4.3, at: [10, 10, 6], along: [0, 0, -1], depthMm: 6, through: true },
      { diameterMm: 4.3, at: [70, 10, 3], along: [0, 0, -1], depthMm: 3, through: true },
      { diameterMm: 8, at: [70, 10, 6], along: [0, 0, -1], depthMm: 3, through: false },
    ])
  })

  test("are the same after a round trip through a file of 32-bit numbers", () => {
    const mesh = kernel.make(plateWithHoles)
    expect(findRoundHoles(meshOf(writeStl(mesh)))).toEqual(findRoundHoles(mesh))
  })
})

describe("every number of segments", () => {
  test.each([7, 8, 12, 16, 24, 32, 48, 64, 96, 180, 360])("%i segments: the circle through the corners", (segments) => {
    for (const diameterMm of [1.6, 3.3, 5.5, 28]) {
      const mesh = drill([{ bar: makePolygonBar(diameterMm, 40, segments, 3), pose: at(30, 20, -10) }])
      const found = findRoundHoles(meshOf(writeStl(mesh)))
      expect(found.map(({ through }) => through)).toEqual([true])
      expect(found[0]?.diameterMm).toBeCloseTo(diameterMm, 3)
      expect(found[0]?.depthMm).toBeCloseTo(20, 3)
    }
  })
})

describe("any direction, 120 seeded blocks turned and moved, written to a file and read again", () => {
  test.each(Array.from({ length: 120 }, (_, index) => index + 1))("seed %i", (seed) => {
    const random = seeded(seed)
    const pick = <Value>(values: readonly Value[]): Value => {
      const value = values[Math.floor(random() * values.length)]
      if (value === undefined) throw new Error("nothing to pick from")
      return value
    }
    // One hole in each field of a grid, so that none touches another; some blind, some stepped.
    const wanted: { readonly d: number; readonly depth: number; readonly through: boolean; readonly mouth: Vec3 }[] = []
    const tools: { bar: Mesh; pose: Pose }[] = []
    for (const [x, y] of [
      [12, 12],
      [36, 12],
      [12, 30],
      [36, 30],
    ] as const) {
      const segments = 12 + Math.floor(random() * 85)
      const d = pick([1.6, 2.5, 3.3, 4.3, 4.5, 5.5, 6.6])
      const kind = pick(["through", "blind", "stepped"] as const)
      const middle: Vec3 = [x + random(), y + random(), 0]
      const turned = random() * 30
      if (kind === "blind") {
        const depth = 3 + random() * 10
        tools.push({ bar: makePolygonBar(d, 40, segments, turned), pose: at(middle[0], middle[1], 20 - depth) })
        wanted.push({ d, depth, through: false, mouth: [middle[0], middle[1], 20] })
        continue
      }
      tools.push({ bar: makePolygonBar(d, 60, segments, turned), pose: at(middle[0], middle[1], -20) })
      const step = kind === "stepped" ? 2 + random() * 6 : 0
      if (kind === "stepped") {
        tools.push({ bar: makePolygonBar(d * 1.8, 40, segments, turned), pose: at(middle[0], middle[1], 20 - step) })
        wanted.push({ d: d * 1.8, depth: step, through: false, mouth: [middle[0], middle[1], 20] })
      }
      wanted.push({ d, depth: 20 - step, through: true, mouth: [middle[0], middle[1], 20 - step] })
    }
    const pose = anyPose(random)
    const mesh = meshOf(writeStl(moveMesh(drill(tools), pose)))
    const found = findRoundHoles(mesh)
    expect(found.length).toBe(wanted.length)
    for (const { d, depth, through, mouth } of wanted) {
      const near = found.find((hole) => {
        const end: Vec3 = [0, 1, 2].map(
          (axis) => (hole.at[axis] ?? 0) + (hole.along[axis] ?? 0) * hole.depthMm,
        ) as unknown as Vec3 // Three numbers.
        const spot = movePoint(pose, mouth)
        const isAt = (place: Vec3): boolean =>
          Math.hypot(...place.map((value, axis) => value - (spot[axis] ?? 0))) < 0.002
        return Math.abs(hole.diameterMm - d) < 0.002 && (isAt(hole.at) || (through && isAt(end)))
      })
      expect(near, `no hole of ${d} at ${mouth}`).toBeDefined()
      expect(near?.through).toBe(through)
      expect(near?.depthMm).toBeCloseTo(depth, 2)
      const down = turnDirection(pose, [0, 0, -1])
      const cosine = down.reduce((sum, value, axis) => sum + value * (near?.along[axis] ?? 0), 0)
      expect(through ? Math.abs(cosine) : cosine).toBeGreaterThan(0.99999)
    }
  })
})

describe("what is no round hole is not listed", () => {
  test("the outside of a boss, only its bore", () => {
    const boss = given(kernel.union([box(kernel, [40, 40, 4]), moveMesh(makePolygonBar(10, 12, 48), at(20, 20, 3))]))
    const mesh = given(kernel.subtract(boss, [moveMesh(makePolygonBar(2.5, 10, 48), at(20, 20, 5))]))
    expect(findRoundHoles(mesh).map(short)).toEqual([{ d: 2.5, depth: 10, through: false }])
  })

  test("a slot with round ends, even a short one", () => {
    for (const lengthMm of [0.5, 2, 10]) {
      const bar = makePolygonBar(4.3, 40, 48)
      const middle = moveMesh(box(kernel, [lengthMm, 4.3, 40]), at(20, 20 - 2.15, -10))
      const tools = [moveMesh(bar, at(20, 20, -10)), moveMesh(bar, at(20 + lengthMm, 20, -10)), middle]
      const mesh = given(kernel.subtract(box(kernel, [60, 40, 20]), tools))
      expect(findRoundHoles(mesh), `slot ${lengthMm} longer than wide`).toEqual([])
    }
  })

  test("rounded inner corners, an open groove, a six-sided pocket, a cone", () => {
    const pocket = kernel.make({ kind: "plate", sizeMm: [20, 14, 40], cornerMm: 4, holes: [] })
    expect(findRoundHoles(drill([{ bar: pocket, pose: at(20, 13, -10) }]))).toEqual([])
    expect(findRoundHoles(drill([{ bar: makePolygonBar(10, 40, 48), pose: at(30, 0, -10) }]))).toEqual([])
    expect(findRoundHoles(drill([{ bar: makePolygonBar(8, 40, 6), pose: at(30, 20, 14) }]))).toEqual([])
    expect(findRoundHoles(drill([{ bar: makeCone(4, 12, 30, 48), pose: at(30, 20, -5) }]))).toEqual([])
  })

  test("a void without a mouth, a ball", () => {
    expect(findRoundHoles(drill([{ bar: makePolygonBar(8, 5, 48), pose: at(30, 20, 8) }]))).toEqual([])
    const rings = Array.from({ length: 24 }, (_, index) => {
      const [low, high] = [index / 24, (index + 1) / 24].map((part) => Math.sin(part * Math.PI) * 10)
      const [from, to] = [index / 24, (index + 1) / 24].map((part) => 10 - Math.cos(part * Math.PI) * 5)
      const cone = makeCone(Math.max(low ?? 0, 0.01), Math.max(high ?? 0, 0.01), (to ?? 0) - (from ?? 0), 48)
      return moveMesh(cone, at(30, 20, from ?? 0))
    })
    const ball = given(kernel.union(rings))
    expect(findRoundHoles(given(kernel.subtract(box(kernel, [60, 40, 20]), [ball])))).toEqual([])
  })
})

describe("shapes that makers export", () => {
  test("a countersunk hole: the straight part, going through", () => {
    const mesh = drill([
      { bar: makePolygonBar(4.5, 40, 48), pose: at(30, 20, -10) },
      { bar: makeCone(4, 16, 6, 48), pose: at(30, 20, 15) },
    ])
    const [hole, ...others] = findRoundHoles(mesh)
    expect(others).toEqual([])
    expect(hole).toMatchObject({ diameterMm: 4.5, through: true })
    // The cone is 4 wide at z = 15 and grows 2 a mm, so it is 4.5 wide at z = 15.25, where the wall ends.
    expect(hole?.depthMm).toBeCloseTo(15.25, 3)
  })

  test("a drilled hole with the tip of the drill is blind", () => {
    const tipMm = 1.65 / Math.tan((59 * Math.PI) / 180)
    const mesh = drill([
      { bar: makePolygonBar(3.3, 20, 48), pose: at(30, 20, 10) },
      { bar: makeCone(0.002, 3.3, tipMm, 48), pose: at(30, 20, 10 - tipMm) },
    ])
    expect(findRoundHoles(mesh).map(short)).toEqual([{ d: 3.3, depth: 10, through: false }])
  })

  test("a hole with a small one drilled across keeps its length", () => {
    const mesh = drill([
      { bar: makePolygonBar(8, 40, 48), pose: at(30, 20, -10) },
      { bar: makePolygonBar(3, 80, 36), pose: at(-10, 20, 10, [0, 90, 0]) },
    ])
    const found = findRoundHoles(mesh)
    expect(found.filter(({ diameterMm }) => diameterMm === 8).map(short)).toEqual([{ d: 8, depth: 20, through: true }])
    expect(found.filter(({ diameterMm }) => diameterMm === 3).map(({ through }) => through)).toEqual([true, true])
  })

  test("a hole through both cheeks of a fork is two", () => {
    const fork = given(kernel.subtract(box(kernel, [60, 40, 20]), [moveMesh(box(kernel, [40, 50, 10]), at(10, -5, 5))]))
    const mesh = given(kernel.subtract(fork, [moveMesh(makePolygonBar(4.3, 40, 48), at(30, 20, -10))]))
    expect(findRoundHoles(mesh).map(short)).toEqual([
      { d: 4.3, depth: 5, through: true },
      { d: 4.3, depth: 5, through: true },
    ])
  })

  test("a hole that comes out of a slanted face has its mean length", () => {
    const wedge = given(
      kernel.subtract(box(kernel, [60, 40, 20]), [
        moveMesh(box(kernel, [100, 60, 40]), poseFrom([0, -10, 20], [0, 20, 0])),
      ]),
    )
    const mesh = given(kernel.subtract(wedge, [moveMesh(makePolygonBar(5, 60, 48), at(20, 20, -20))]))
    const [hole] = findRoundHoles(mesh)
    expect(hole).toMatchObject({ diameterMm: 5, through: true })
    expect(hole?.depthMm).toBeCloseTo(20 - 20 * Math.tan((20 * Math.PI) / 180), 2)
  })
})

describe("walls whose ends are cut differently", () => {
  /** A disc of 30 x `heightMm` whose bore has its corners half a step further at the top than at the bottom. */
  function makeTwistedDisc(boreMm: number, heightMm: number, segments: number): Mesh {
    const ring = (diameterMm: number, z: number, shift: number): number[] =>
      Array.from({ length: segments }, (_, index) => {
        const angle = ((index + shift) / segments) * 2 * Math.PI
        return [(Math.cos(angle) * diameterMm) / 2, (Math.sin(angle) * diameterMm) / 2, z]
      }).flat()
    const positions = [ring(30, 0, 0), ring(30, heightMm, 0), ring(boreMm, 0, 0), ring(boreMm, heightMm, 0.5)].flat()
    const triangles = Array.from({ length: segments }, (_, index) => {
      const next = (index + 1) % segments
      const [low, lowNext, high, highNext] = [index, next, segments + index, segments + next]
      const [inLow, inLowNext] = [2 * segments + index, 2 * segments + next]
      const [inHigh, inHighNext] = [3 * segments + index, 3 * segments + next]
      return [
        [low, lowNext, highNext, low, highNext, high],
        [low, inLow, inLowNext, low, inLowNext, lowNext],
        [high, highNext, inHigh, highNext, inHighNext, inHigh],
        [inLowNext, inLow, inHigh, inLowNext, inHigh, inHighNext],
      ].flat()
    }).flat()
    return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) }
  }

  test.each([12, 16, 24, 48, 96])("%i segments, in any direction", (segments) => {
    const random = seeded(segments)
    for (const [boreMm, heightMm] of [
      [4.3, 6],
      [3.3, 20],
      [20, 3],
    ] as const) {
      const disc = makeTwistedDisc(boreMm, heightMm, segments)
      const [hole, ...others] = findRoundHoles(meshOf(writeStl(moveMesh(disc, anyPose(random)))))
      expect(others).toEqual([])
      expect(hole?.through).toBe(true)
      expect(hole?.diameterMm).toBeCloseTo(boreMm, 2)
      expect(hole?.depthMm).toBeCloseTo(heightMm, 2)
    }
  })
})

test("order and numbers do not depend on the order of triangles or vertices", () => {
  const mesh = kernel.make(plateWithHoles)
  const random = seeded(7)
  const order = Array.from({ length: mesh.triangles.length / 3 }, (_, index) => ({ index, key: random() }))
    .sort((one, other) => one.key - other.key)
    .flatMap(({ index }) => [...mesh.triangles.slice(index * 3, index * 3 + 3)])
  const shuffled = { positions: mesh.positions, triangles: Uint32Array.from(order) }
  expect(findRoundHoles(shuffled)).toEqual(findRoundHoles(mesh))
})
