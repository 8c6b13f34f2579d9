import { describe, expect, test } from "vitest"
import { computeTighteningSequence, crossOrder } from "../../src/fit/tightening-sequence.ts"
import type { Bore, BorePoint, Joint } from "../../src/kit/joint-types.ts"
import type { Kit } from "../../src/kit/types.ts"
import type { Mesh, Vec3 } from "../../src/solids/types.ts"
import { smallKit } from "../sequence/small-kit.ts"

/** Places of screws that are driven down at these x and y. */
function down(...places: readonly (readonly [number, number])[]): readonly BorePoint[] {
  return places.map(([x, y]) => ({ at: [x, y, 0], along: [0, 0, -1] }))
}

function ring(count: number, radiusMm: number, startDeg: number): readonly BorePoint[] {
  return down(
    ...Array.from({ length: count }, (_, index) => {
      const angle = ((startDeg - (360 * index) / count) * Math.PI) / 180
      return [radiusMm * Math.cos(angle), radiusMm * Math.sin(angle)] as const
    }),
  )
}

function jointOf(kit: Kit): Joint {
  const [joint] = kit.joints
  if (joint === undefined) throw new Error("the kit has no joint")
  return joint
}

function sequenceOf(points: readonly BorePoint[], kind: Bore["kind"] = "tapped", count = points.length) {
  const kit = smallKit({
    parts: [{ id: "lug" }],
    joints: [{ id: "foot", through: ["lug"], points, count }],
    steps: [],
  })
  const joint = jointOf(kit)
  return computeTighteningSequence(kit, { ...joint, bore: { ...joint.bore, kind } })
}

/** The screws counted from 1 in the order in which they are tightened, for one face. */
function check(points: readonly BorePoint[], pattern: string, order: readonly number[]): void {
  const faces = sequenceOf(points)?.faces ?? []
  expect(faces.map((face) => [face.pattern, face.order.map((screw) => screw + 1)])).toEqual([[pattern, order]])
}

describe("cross pattern", () => {
  // ASME PCC-1, cross-pattern tightening sequence, from memory.
  test.each([
    [4, [1, 3, 2, 4]],
    [8, [1, 5, 3, 7, 2, 6, 4, 8]],
    [12, [1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12]],
    [16, [1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 6, 14, 4, 12, 8, 16]],
    [20, [1, 11, 6, 16, 3, 13, 8, 18, 5, 15, 10, 20, 2, 12, 7, 17, 4, 14, 9, 19]],
  ])("%i screws", (count, order) => expect(crossOrder(count).map((index) => index + 1)).toEqual(order))
  // Common practice, no source: opposite pairs; five as a star.
  test.each([
    [5, [1, 3, 5, 2, 4]],
    [6, [1, 4, 2, 5, 3, 6]],
    [7, [1, 4, 7, 3, 6, 2, 5]],
    [10, [1, 6, 3, 8, 5, 10, 2, 7, 4, 9]],
  ])("%i screws", (count, order) => expect(crossOrder(count).map((index) => index + 1)).toEqual(order))
  test("every screw once, and from 4 on none next to the one before more often than it must be", () => {
    for (let count = 1; count <= 40; count += 1) {
      const order = crossOrder(count)
      expect([...order].sort((one, other) => one - other)).toEqual(Array.from({ length: count }, (_, index) => index))
      const isNext = (one: number, other: number): boolean => [1, count - 1].includes(Math.abs(one - other))
      const inPairs = order.filter((screw, index) => index % 2 === 1 && isNext(screw, order[index - 1] ?? screw))
      if (count >= 4) expect([count, inPairs]).toEqual([count, []])
    }
  })
})

describe("patterns", () => {
  test("one and two", () => {
    check(down([0, 0]), "plain", [1])
    check(down([10, 0], [0, 0]), "plain", [2, 1])
  })
  test("a triangle has no opposite screws", () => check(ring(3, 20, 90), "plain", [1, 2, 3]))
  test("four corners of a long plate, from the upper left, whatever the order of the holes", () => {
    check(down([0, 0], [80, 0], [80, 20], [0, 20]), "cross", [4, 2, 3, 1])
    check(down([80, 20], [0, 20], [80, 0], [0, 0]), "cross", [2, 3, 1, 4])
  })
  test("six on a ring", () => check(ring(6, 30, 135), "cross", [1, 4, 2, 5, 3, 6]))
  test("a row from the middle outwards", () => {
    check(down([0, 0], [10, 0], [20, 0]), "row", [2, 1, 3])
    check(down([0, 0], [10, 0], [20, 0], [30, 0], [40, 0]), "row", [3, 2, 4, 1, 5])
    check(down([0, 0], [10, 0], [20, 0], [30, 0]), "row", [2, 3, 1, 4])
  })
  test("two rows of three: the middle pair before the corners", () =>
    check(down([0, 20], [40, 20], [80, 20], [80, 0], [40, 0], [0, 0]), "outwards", [2, 5, 1, 4, 3, 6]))
  test("four corners and one in the middle", () =>
    check(down([0, 0], [40, 0], [40, 40], [0, 40], [20, 20]), "outwards", [5, 4, 2, 3, 1]))
})

describe("faces", () => {
  const left: Vec3 = [-1, 0, 0]
  test("screws driven from two sides are two patterns", () => {
    const points = [...ring(4, 20, 135), ...[0, 10].map((y): BorePoint => ({ at: [50, y, 0], along: left }))]
    const faces = sequenceOf(points)?.faces ?? []
    expect(faces.map(({ pattern, order }) => [pattern, order])).toEqual([
      ["cross", [0, 2, 1, 3]],
      ["plain", [4, 5]],
    ])
  })
  test("what is right and up is seen along the driving direction", () => {
    const [top] = sequenceOf(down([0, 0]))?.faces ?? []
    const round = (vector: Vec3 | undefined) => vector?.map((value) => Math.round(value) + 0)
    expect([round(top?.right), round(top?.up)]).toEqual([
      [1, 0, 0],
      [0, 1, 0],
    ])
    // Driven to the left, one looks to the left: the back is on the right-hand side.
    const [side] = sequenceOf([{ at: [0, 0, 0], along: left }])?.faces ?? []
    expect([round(side?.right), round(side?.up)]).toEqual([
      [0, 1, 0],
      [0, 0, 1],
    ])
  })
  test("two copies, four screws each, are two patterns", () => {
    const box: Mesh = {
      positions: Float64Array.from([0, 0, 0, 20, 0, 0, 20, 20, 0, 0, 20, 6]),
      triangles: Uint32Array.from([0, 1, 2, 0, 2, 3]),
    }
    const corners = [
      [4, 4],
      [16, 4],
      [16, 16],
      [4, 16],
    ] as const
    const points = [0, 100].flatMap((shift) => down(...corners.map(([x, y]) => [x + shift, y] as const)))
    const base = smallKit({
      parts: [{ id: "lug", instances: ["lug.1", "lug.2"] }],
      joints: [{ id: "foot", through: ["lug"], points, count: 8 }],
      steps: [],
    })
    const kit: Kit = {
      ...base,
      meshes: { box },
      instances: base.instances.map((instance, index) => ({
        ...instance,
        mesh: "box",
        // The second copy is turned half round about z.
        pose: index === 0 ? instance.pose : { rotation: [-1, 0, 0, 0, -1, 0, 0, 0, 1], at: [120, 20, 0] },
      })),
    }
    const faces = computeTighteningSequence(kit, jointOf(kit))?.faces ?? []
    expect(faces.map(({ instance, order }) => [instance, order])).toEqual([
      ["lug.1", [3, 1, 2, 0]],
      ["lug.2", [7, 5, 6, 4]],
    ])
  })
})

describe("passes", () => {
  test("three screws in one, four in two", () => {
    expect(sequenceOf(ring(3, 20, 90))).toMatchObject({ passes: 1, firstPass: undefined })
    expect(sequenceOf(ring(4, 20, 90))).toMatchObject({ passes: 2, firstPass: "half-torque" })
  })
  test("thread-forming screws first until the heads rest", () =>
    expect(sequenceOf(ring(4, 20, 90), "pilot")).toMatchObject({ passes: 2, firstPass: "until-seated" }))
  test("four screws on two faces, two on each, need one pass", () => {
    const points = [...down([0, 0], [10, 0]), ...[0, 10].map((y): BorePoint => ({ at: [50, y, 0], along: [-1, 0, 0] }))]
    expect(sequenceOf(points)?.passes).toBe(1)
  })
  test("nothing is said where not every screw has a place", () =>
    expect(sequenceOf(down([0, 0], [10, 0]), "tapped", 4)).toBeUndefined())
})
