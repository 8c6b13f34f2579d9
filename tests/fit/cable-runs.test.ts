import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { computeCableRuns } from "../../src/fit/cable-runs.ts"
import type { CableFit } from "../../src/fit/types.ts"
import type { Vec3 } from "../../src/solids/types.ts"
import { fixedEnd, freeEnd, smallKit } from "../sequence/small-kit.ts"

/** What is computed for one cable with this route. */
function runOf(route: readonly Vec3[], diameterMm?: number, slackMm?: number): CableFit | undefined {
  const ends = [freeEnd("lead.plug"), fixedEnd("lead.inner")]
  const cable = { id: "lead", ends, route, diameterMm, slackMm }
  return computeCableRuns(smallKit({ cables: [cable], steps: [] }))[0]
}

const length = (one: Vec3, other: Vec3): number => Math.hypot(one[0] - other[0], one[1] - other[1], one[2] - other[2])

/** Second way to the answer: rounds every corner with one radius, and tells whether the arcs leave each other room. */
function canBeRounded(route: readonly Vec3[], radiusMm: number): boolean {
  // Distance of a tangent point from its corner, from the half angle between the two straights that meet there.
  const tangents = route.map((corner, index) => {
    const [before, after] = [route[index - 1], route[index + 1]]
    if (before === undefined || after === undefined) return 0
    const [a, b, c] = [length(corner, before), length(corner, after), length(before, after)]
    const betweenRad = Math.acos(Math.min(1, Math.max(-1, (a ** 2 + b ** 2 - c ** 2) / (2 * a * b))))
    return radiusMm / Math.tan(betweenRad / 2)
  })
  return route.every((corner, index) => {
    const next = route[index + 1]
    return next === undefined || (tangents[index] ?? 0) + (tangents[index + 1] ?? 0) <= length(corner, next)
  })
}

const place = fc.integer({ min: -60, max: 60 })
const routes = fc
  .array(fc.tuple(place, place, place), { minLength: 3, maxLength: 7 })
  .filter((route) => route.every((one, index) => index === 0 || length(one, route[index - 1] ?? one) > 1))

test("the radius it tells fits, and one a little larger does not", () => {
  fc.assert(
    fc.property(routes, (route) => {
      const radiusMm = runOf(route)?.tightest?.innerRadiusMm
      fc.pre(radiusMm !== undefined && radiusMm > 0.5 && radiusMm < 1e4)
      if (radiusMm === undefined) return
      expect(canBeRounded(route, radiusMm * 0.9999)).toBe(true)
      expect(canBeRounded(route, radiusMm * 1.0001)).toBe(false)
    }),
    { seed: 33, numRuns: 300 },
  )
})

test("a route is as long from either end, and points told twice change nothing", () => {
  fc.assert(
    fc.property(routes, (route) => {
      const run = runOf(route)
      for (const other of [[...route].reverse(), route.flatMap((point) => [point, point])]) {
        expect(runOf(other)?.routeMm).toBeCloseTo(run?.routeMm ?? 0, 9)
        expect(runOf(other)?.tightest?.innerRadiusMm ?? 0).toBeCloseTo(run?.tightest?.innerRadiusMm ?? 0, 6)
      }
    }),
    { seed: 34, numRuns: 200 },
  )
})

describe("worked cases", () => {
  test("a right angle takes its radius on each side", () => {
    const run = runOf([
      [0, 0, 0],
      [20, 0, 0],
      [20, 70, 0],
    ])
    expect(run?.routeMm).toBeCloseTo(90, 9)
    expect(run?.tightest?.innerRadiusMm).toBeCloseTo(20, 9)
  })
  test("inside, half a diameter is missing", () =>
    expect(
      runOf(
        [
          [0, 0, 0],
          [20, 0, 0],
          [20, 70, 0],
        ],
        6,
      )?.tightest?.innerRadiusMm,
    ).toBeCloseTo(17, 9))
  test("slack is added", () =>
    expect(
      runOf(
        [
          [0, 0, 0],
          [30, 40, 0],
        ],
        6,
        25,
      )?.neededMm,
    ).toBeCloseTo(75, 9))
  test("straight on there is no bend", () =>
    expect(
      runOf([
        [0, 0, 0],
        [10, 0, 0],
        [40, 0, 0],
      ])?.tightest,
    ).toBeUndefined())
  test("back the way it came there is room for no radius", () =>
    expect(
      runOf([
        [0, 0, 0],
        [40, 0, 0],
        [0, 0, 0],
      ])?.tightest?.innerRadiusMm,
    ).toBeCloseTo(0, 6))
  test("a point is no route", () => expect(runOf([[0, 0, 0]])).toBeUndefined())
})
