import { describe, expect, test } from "vitest"
import { proofOf } from "./proof-of.ts"

/** A plate on a unit, screwed from above; `plate` is its shape and place. */
function grip(plate: string, joint: string, more = ""): unknown {
  const { fit } = proofOf(`
host:
  gauge: { bores: { foot: { thread: M4, in: aluminium, depth: 20 } } }
  mast: { tube: round 32 }
parts:
  plate: { plastic: PETG, ${plate} }
${more}
joints:
  foot: { screws: 1 x ISO 4762 M4x20, into: gauge.foot, ${joint} }
steps:
  fit: { do: [place: plate, start: foot, tighten: foot] }
`)
  return fit.joints[0]?.gripMm?.value
}

describe("grip measured on the mesh", () => {
  test("of a plain plate", () => {
    expect(grip("shape: { plate: 40 x 30 x 6, holes: [4.5 at 10, 15] }", "through: plate, holes: 4.5 in plate")).toBe(6)
  })
  test("under a head in a counterbore of 8 mm, 4 mm deep", () => {
    const shape = "shape: { plate: 40 x 30 x 12, holes: [4.5 at 10, 15, 8 at 10, 15 depth 4] }"
    expect(grip(shape, "through: plate, holes: 4.5 in plate")).toBe(8)
  })
  test("of a countersunk plate, where the whole plate counts", () => {
    const text = grip(
      "shape: { plate: 40 x 30 x 6, holes: [4.5 at 10, 15, 7.5 at 10, 15 depth 1.5] }",
      "through: plate, holes: 4.5 in plate",
    )
    expect(text).toBe(4.5)
  })
  test.each([
    ["turned about x", "turn: [90, 0, 0]"],
    ["turned about two axes, and moved", "turn: [30, 45, 0], at: [12, -7, 33]"],
    ["turned over", "turn: [180, 0, 0]"],
  ])("of a plate %s", (_, place) => {
    const shape = `shape: { plate: 40 x 30 x 6, holes: [4.5 at 10, 15] }, ${place}`
    expect(grip(shape, "through: plate, holes: 4.5 in plate")).toBeCloseTo(6, 3)
  })
  test("of two parts on each other", () => {
    const more = "  strip: { plastic: PETG, shape: { plate: 40 x 30 x 2.5, holes: [4.5 at 10, 15] }, at: [0, 0, -2.5] }"
    const joint = "through: [plate, strip], holes: 4.5 in plate"
    expect(grip("shape: { plate: 40 x 30 x 6, holes: [4.5 at 10, 15] }", joint, more)).toBe(8.5)
  })
  test("of one layer only, where the axis meets the part a second time far away", () => {
    const shape = "shape: { box: 40 x 30 x 60, holes: [4.5 at 10, 15, 30 x 20 at 20, 0, 33 along back] }"
    expect(grip(shape, "through: plate, holes: 4.5 in plate")).not.toBe(60)
  })
})

test("a typed grip stands in where there is no shape", () => {
  const { fit } = proofOf(`
host:
  gauge: { bores: { foot: { thread: M4, in: aluminium, depth: 9 } } }
  mast: { tube: round 32 }
parts:
  plate: { plastic: PETG }
joints:
  foot: { screws: 2 x ISO 4762 M4x14, through: plate, into: gauge.foot, grip: 6 }
steps:
  fit: { do: [place: plate, start: foot, tighten: foot] }
`)
  expect(fit.joints[0]).toMatchObject({
    gripMm: { value: 6, origin: "declared" },
    reachMm: 8,
    engagementMm: 8,
    depthLeftMm: 1,
    headMm: { diameter: 7, height: 4 },
  })
})

test("a thread that goes through has no more engagement than the wall it goes through", () => {
  const { fit } = proofOf(`
host:
  mast: { tube: round 32 }
parts:
  base: { plastic: ASA, shape: { plate: 40 x 30 x 6, holes: [2.4 at 10, 15] } }
  lid: { plastic: ASA, shape: { plate: 20 x 30 x 3, holes: [3.4 at 10, 15] }, at: [0, 0, 6] }
joints:
  top: { screws: 1 x thread-forming pan M3x12 PZ1, through: lid, into: { holes: 2.4 in base }, holes: 3.4 in lid }
steps:
  fit: { do: [place: base, place: lid, start: top, tighten: top] }
`)
  expect(fit.joints[0]).toMatchObject({ reachMm: 9, engagementMm: 6, depthLeftMm: undefined })
})
