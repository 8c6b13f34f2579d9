import { describe, expect, test } from "vitest"
import type { Fit } from "../../src/fit/types.ts"
import { proofOf } from "./proof-of.ts"

/** A saddle on a mast along x, held by ties. */
function fitOf(given: {
  readonly tube: string
  readonly seat: string
  readonly at: string
  readonly tie?: string
  readonly more?: string
}): Fit {
  const { tube, seat, at, tie = "", more = "" } = given
  return proofOf(`
fits: { load: 2 kg }
host:
  mast: { tube: ${tube} }
parts:
  saddle: { plastic: PETG, shape: { saddle: 30 x 60 x 40, seat: ${seat}, depth: 15 }, ${at} }
ties:
  clamp: { ties: 2 x 4.8x300, holds: saddle, round: mast${tie} }
${more}
steps:
  fit: { do: [place: saddle, strap: clamp] }
`).fit
}

describe("seats measured on the mesh", () => {
  test.each([20, 25.4, 32, 34.9, 42.4, 48, 60.3])("round %d", (diameter) => {
    const fit = fitOf({
      tube: `round ${diameter}`,
      seat: `round ${diameter}`,
      at: `at: [-15, -30, ${diameter / 2 - 15}]`,
    })
    expect(fit.seats[0]?.seatMm?.value).toBeCloseTo(diameter, 1)
    expect(fit.seats[0]?.gapMm).toBeCloseTo(0, 1)
    // 15 mm deep in a seat of radius R the arc reaches arccos((R - 15) / R) to both sides, beyond the middle for a small tube.
    const half = Math.acos((diameter / 2 - 15) / (diameter / 2))
    expect(fit.seats[0]?.contactDeg).toBeCloseTo((2 * half * 180) / Math.PI, -1)
  })
  test("with a pad of 1.5 mm the seat must be 3 mm wider", () => {
    const more = "pads:\n  grip: { pads: 1 x 30 x 20 x 1.5, on: saddle }"
    const fit = fitOf({ tube: "round 32", seat: "round 35", at: "at: [-15, -30, 2.5]", more })
    expect(fit.seats[0]).toMatchObject({ neededMm: 35 })
    expect(fit.seats[0]?.gapMm).toBeCloseTo(0, 1)
  })
  test("square 40 in a channel of 43", () => {
    const fit = fitOf({ tube: "square 40 corner 3", seat: "square 43 corner 3", at: "at: [-15, -30, 6.5]" })
    expect(fit.seats[0]).toMatchObject({ seatMm: { value: 43 }, neededMm: 40, gapMm: 1.5 })
  })
  test("a part that is not on the tube gives no seat", () => {
    const fit = fitOf({ tube: "round 32", seat: "round 32", at: "at: [-15, 200, 100]" })
    expect(fit.seats[0]?.seatMm).toBeUndefined()
  })
  test("turned about the tube it is the same seat", () => {
    const fit = fitOf({ tube: "round 32", seat: "round 32", at: "at: [-15, 30, -1], turn: [180, 0, 0]" })
    expect(fit.seats[0]?.seatMm?.value).toBeCloseTo(32, 1)
  })
})

describe("ties", () => {
  test("round the whole saddle: hull of tube and box", () => {
    const { loopMm, neededMm } = fitOf({ tube: "round 32", seat: "round 32", at: "at: [-15, -30, 1]" }).ties[0] ?? {}
    // Box 60 x 40 from z = 1 to 41 over a tube of radius 16: 60 + 2 x 40 + 2 sqrt(30^2 + 1 - 16^2) + arc, + pi 1.3.
    const [reach, lean] = [Math.hypot(30, 1), Math.atan2(1, 30)]
    const arc = 16 * (Math.PI - 2 * (Math.acos(16 / reach) - lean))
    const hull = 60 + 80 + 2 * Math.sqrt(reach ** 2 - 256) + arc
    expect(loopMm).toBeCloseTo(hull + Math.PI * 1.3, 3)
    expect(neededMm).toBeCloseTo(hull + Math.PI * 1.3 + 35, 3)
  })
  test("through a slot at a told height: a flat as wide as the saddle", () => {
    const { loopMm } =
      fitOf({
        tube: "round 32",
        seat: "round 32",
        at: "at: [-15, -30, 1]",
        tie: ", slot: { in: saddle, size: 6 x 2 }, seat-height: 10",
      }).ties[0] ?? {}
    const [reach, lean] = [Math.hypot(30, 26), Math.atan2(26, 30)]
    const arc = 16 * (Math.PI - 2 * (Math.acos(16 / reach) - lean))
    expect(loopMm).toBeCloseTo(60 + 2 * Math.sqrt(reach ** 2 - 256) + arc + Math.PI * 1.3, 3)
  })
  test("load: 2 kg x 9.80665 x 3 against two loops of 50 lbf (222.4 N) at half", () => {
    const { load } = fitOf({ tube: "round 32", seat: "round 32", at: "at: [-15, -30, 1]" }).ties[0] ?? {}
    expect(load?.neededN).toBeCloseTo(58.84, 2)
    expect(load?.bornN).toBeCloseTo(222.41, 2)
  })
})
