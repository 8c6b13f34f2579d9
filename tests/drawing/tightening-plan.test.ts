import { describe, expect, test } from "vitest"
import { clipOutside } from "../../src/drawing/clip-outside.ts"
import { makeSolidStore } from "../../src/drawing/solid-store.ts"
import { drawTighteningPlans } from "../../src/drawing/tightening-plan.ts"
import type { Drawing, Stroke } from "../../src/drawing/types.ts"
import { proofOf } from "../fit/proof-of.ts"

/** A cap on a case, held by screws at these places. */
function capOf(...places: readonly (readonly [number, number])[]): string {
  const holes = (diameter: number): string => places.map(([x, y]) => `${diameter} at ${x}, ${y}`).join(", ")
  const bores = places.map(([x, y]) => `${x}, ${y}, 20 along down`).join(", ")
  return `
kit: cap
title: Cap
supplier: Example Workshop
revision: { id: A, date: 2026-05-04 }
host:
  case:
    shape: { box: 80 x 60 x 20 }
    bores: { rim: { thread: M4, in: aluminium, depth: 12, holes: [${bores}] } }
parts:
  cap: { plastic: PETG, shape: { plate: 80 x 60 x 4, holes: [${holes(4.5)}] }, at: [0, 0, 20], goes: down }
joints:
  rim: { screws: ${places.length} x ISO 4762 M4x12, through: cap, into: case.rim, holes: 4.5 in cap, torque: 1 }
steps:
  cap: { do: [place: cap, start: rim, tighten: rim] }
`
}

const corners = [
  [10, 10],
  [70, 10],
  [70, 50],
  [10, 50],
] as const

function plansOf(text: string): readonly Drawing[] {
  const { kit, fit } = proofOf(text)
  return drawTighteningPlans(kit, fit, makeSolidStore()).rim ?? []
}

function rings({ strokes }: Drawing): readonly Stroke[] {
  return strokes.filter(({ role, isClosed }) => role === "new" && isClosed)
}

function middle({ points }: Stroke): readonly [number, number] {
  const mean = (first: number): number => {
    const values = points.filter((_, index) => index % 2 === first)
    return values.reduce((sum, value) => sum + value, 0) / values.length
  }
  return [mean(0), mean(1)]
}

describe("the plan of a pattern", () => {
  test("four screws: numbered crosswise from the upper left, true to scale", () => {
    const [plan] = plansOf(capOf(...corners))
    if (plan === undefined) throw new Error("no plan")
    const at = rings(plan).map(middle)
    const [first = [0, 0], second = [0, 0], third = [0, 0], fourth = [0, 0]] = at
    // 1 upper left, 2 lower right, 3 upper right, 4 lower left.
    expect([first[0] < second[0], first[1] < second[1]]).toEqual([true, true])
    expect([third[0] - second[0], third[1] - first[1]].map(Math.abs).every((value) => value < 0.01)).toBe(true)
    expect(Math.hypot(fourth[0] - first[0], fourth[1] - first[1])).toBeCloseTo(40 * plan.scale, 1)
    expect(Math.hypot(third[0] - first[0], third[1] - first[1])).toBeCloseTo(60 * plan.scale, 1)
  })
  test("it shows joint, count and the part under the heads", () =>
    expect(plansOf(capOf(...corners)).map(({ shows }) => [shows.fastened, shows.context])).toEqual([
      [[{ joint: "rim", count: 4 }], ["cap"]],
    ]))
  test("nothing lies outside the paper, and no line of the part runs through a number", () => {
    const [plan] = plansOf(capOf(...corners))
    if (plan === undefined) throw new Error("no plan")
    for (const { points } of plan.strokes)
      for (let index = 0; index < points.length; index += 2) {
        const [x = -1, y = -1] = points.slice(index, index + 2)
        expect(x >= 0 && x <= plan.widthMm && y >= 0 && y <= plan.heightMm).toBe(true)
      }
    const discs = rings(plan).map(middle)
    for (const { points } of plan.strokes.filter(({ role }) => role === "context"))
      for (let index = 0; index < points.length; index += 2) {
        const [x = 0, y = 0] = points.slice(index, index + 2)
        // Ring of 2.4 mm, less the rounding of joined stretches.
        for (const [cx, cy] of discs) expect(Math.hypot(x - cx, y - cy)).toBeGreaterThan(2.4)
      }
  })
  test("it stays small enough to stand beside its sentence", () => {
    const [plan] = plansOf(capOf(...corners))
    expect(plan?.widthMm).toBeLessThan(52)
    expect(plan?.heightMm).toBeLessThan(34)
  })
  test("three screws need none", () => expect(plansOf(capOf([10, 10], [70, 10], [40, 50]))).toEqual([]))
  test("screws too close together for their numbers get a larger picture, or none", () => {
    const [near] = plansOf(capOf([10, 10], [70, 10], [70, 20], [10, 20]))
    // 10 mm apart need 5.8 mm on paper.
    expect(near === undefined ? 0 : near.scale * 10).toBeGreaterThan(5.7)
    expect(plansOf(capOf([38, 30], [41, 30], [41, 33], [38, 33]))).toEqual([])
  })
})

describe("lines clipped outside discs", () => {
  const disc = { x: 0, y: 0, radiusMm: 3 }
  test("through the middle", () => expect(clipOutside([-10, 0, 10, 0], [disc])).toEqual([-10, 0, -3, 0, 3, 0, 10, 0]))
  test("beside it", () => expect(clipOutside([-10, 4, 10, 4], [disc])).toEqual([-10, 4, 10, 4]))
  test("wholly inside", () => expect(clipOutside([-1, 0, 1, 0], [disc])).toEqual([]))
  test("ending inside", () => expect(clipOutside([-10, 0, 0, 0], [disc])).toEqual([-10, 0, -3, 0]))
  test("two discs on one line", () =>
    expect(clipOutside([-10, 0, 30, 0], [disc, { x: 20, y: 0, radiusMm: 5 }])).toEqual([
      -10, 0, -3, 0, 3, 0, 15, 0, 25, 0, 30, 0,
    ]))
})
