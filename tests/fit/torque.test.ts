import { describe, expect, test } from "vitest"
import type { Calculation, JointFit } from "../../src/fit/types.ts"
import { proofOf } from "./proof-of.ts"

type Given = { readonly screw?: string; readonly bore?: string; readonly plate?: string; readonly more?: string }

/** One joint: a plate of 6 mm on a unit with a tapped bore. */
function joint(given: Given = {}): JointFit {
  const {
    screw = "ISO 4762 M4x14 8.8",
    bore = "thread: M4, in: steel, depth: 9",
    plate = "material: steel",
    more = "",
  } = given
  const { fit } = proofOf(`
host:
  gauge: { bores: { foot: { ${bore} } } }
  mast: { tube: round 32 }
parts:
  plate: { ${plate}, shape: { plate: 40 x 30 x 6, holes: [4.5 at 10, 15] } }
joints:
  foot: { screws: 1 x ${screw}, through: plate, into: gauge.foot, holes: 4.5 in plate${more} }
steps:
  fit: { do: [place: plate, start: foot, tighten: foot] }
`)
  const [first] = fit.joints
  if (first === undefined) throw new Error("no joint came out of the text")
  return first
}

function named(fit: JointFit, words: string): Calculation {
  const found = fit.torque.limits.find(({ name }) => name.includes(words))
  if (found === undefined)
    throw new Error(`no limit with ${words}: ${fit.torque.limits.map(({ name }) => name).join(", ")}`)
  return found
}

function inputOf(calculation: Calculation, symbol: string): number {
  return calculation.inputs.find((one) => one.symbol === symbol)?.value ?? Number.NaN
}

describe("the screw", () => {
  test("M4 8.8 at friction 0.10 takes the preload of VDI 2230 (table A1: 4.5 kN) and, with its own head, 2.7 N·m", () => {
    const screw = named(joint({ screw: "ISO 4762 M4x14 8.8" }), "yields")
    expect(inputOf(screw, "F") / 1000).toBeCloseTo(4.5, 1)
    // Table A1 has 2.6 N·m for the hexagon head (dw 5.88); ISO 4762 presses on dw 6.53: (0.16 P + 0.58 d2 mu + DKm / 2 mu) FM.
    expect(screw.value).toBeCloseTo(4.538 * (0.112 + 0.0581 * 3.545 + ((6.53 + 4.5) / 4) * 0.1), 2)
  })
  test("button heads bear 80 % (ISO 7380-1)", () => {
    const cap = inputOf(named(joint({ screw: "ISO 4762 M4x14 8.8" }), "yields"), "F")
    const button = inputOf(named(joint({ screw: "ISO 7380-1 M4x14 8.8" }), "yields"), "F")
    expect(button / cap).toBeCloseTo(0.8, 6)
  })
  test("A2-70 is reckoned with the friction of stainless steel, and greased with less", () => {
    expect(inputOf(named(joint({ screw: "ISO 4762 M4x14 A2-70" }), "yields"), "mu")).toBe(0.14)
    expect(inputOf(named(joint({ screw: "ISO 4762 M4x14 A2-70", more: ", surface: greased" }), "yields"), "mu")).toBe(
      0.08,
    )
  })
})

describe("the parent", () => {
  test("4 mm of M4 in 6063-T5 strip at 3636 N (FED-STD-H28/2B), here less one pitch and with safety 1.5", () => {
    const strips = named(joint({ screw: "ISO 4762 M4x10", bore: "thread: M4, in: aluminium, depth: 9" }), "strips")
    expect(inputOf(strips, "F")).toBeCloseTo((((3636 * 115) / 117) * ((4 - 0.7) / 4)) / 1.5, -1)
  })
  test("an alloy that is named has its own strength", () => {
    const weak = named(joint({ bore: "thread: M4, in: aluminium, depth: 9" }), "strips")
    const strong = named(joint({ bore: "thread: M4, in: aluminium 7075-T6, depth: 9" }), "strips")
    expect(inputOf(strong, "tau") / inputOf(weak, "tau")).toBeCloseTo(330 / 115, 6)
  })
})

describe("which value is printed", () => {
  test("the smallest limit, named", () => {
    const { torque } = joint({ bore: "thread: M4, in: aluminium, depth: 9" })
    const values = torque.limits.map(({ value }) => value)
    expect(torque.origin).toBe("computed")
    expect(torque.valueNm).toBeCloseTo(Math.min(...values), 1)
    expect(torque.limits.find(({ name }) => name === torque.governing)?.value).toBe(Math.min(...values))
  })
  test("the maker's value wins, the computed one stands beside it", () => {
    const { torque } = joint({ more: ", torque: 1.2" })
    expect(torque).toMatchObject({ valueNm: 1.2, origin: "maker", computedNm: 2.7 })
  })
  test("plastic under the head governs, a washer spreads it, a steel plate does not matter", () => {
    const bare = joint({ plate: "plastic: PETG" })
    const washer = joint({ plate: "plastic: PETG", more: ", washer: ISO 7089 M4" })
    expect(bare.torque.governing).toBe("PETG under the head yields")
    expect(washer.torque.governing).toBe("PETG under the washer yields")
    // Ring pi / 4 (6.53^2 - 4.5^2) against pi / 4 (9^2 - 4.5^2).
    expect(inputOf(named(bare, "under"), "A")).toBeCloseTo(17.59, 2)
    expect(inputOf(named(washer, "under"), "A")).toBeCloseTo(47.71, 2)
    expect(joint().torque.limits.some(({ name }) => name.includes("under"))).toBe(false)
  })
  test("nothing is computed from the rest when one limit is not known", () => {
    const { torque } = joint({ bore: "thread: M4, depth: 9" })
    expect(torque).toMatchObject({ valueNm: undefined, computedNm: undefined, origin: undefined })
    expect(torque.missing).toEqual(["the strength of the material of `gauge.foot`"])
  })
})

test("every limit holds its own arithmetic: F x a is the value, and the value lies in its band", () => {
  const all = [
    joint(),
    joint({ plate: "plastic: ASA" }),
    joint({ screw: "ISO 10642 M4x14 A4-80", more: ", surface: oiled" }),
  ]
  for (const limit of all.flatMap(({ torque }) => torque.limits)) {
    expect((inputOf(limit, "F") * inputOf(limit, "a")) / 1000).toBeCloseTo(limit.value, 9)
    expect(limit.band?.min).toBeLessThanOrEqual(limit.value)
    expect(limit.band?.max).toBeGreaterThanOrEqual(limit.value)
    expect(limit.source).not.toBe("")
  }
})

describe("screws in plastic", () => {
  const inPlastic = (screw: string, into: string): JointFit | undefined =>
    proofOf(`
host:
  mast: { tube: round 32 }
parts:
  base: { shape: { box: 40 x 30 x 20, holes: [${into.includes("insert") ? "4" : "2.4"} at 10, 15, 20 depth 12] }, plastic: PETG }
  lid: { shape: { plate: 20 x 30 x 3, holes: [3.4 at 10, 15] }, material: steel, at: [0, 0, 20] }
joints:
  top: { screws: 1 x ${screw}, through: lid, into: { ${into} }, holes: 3.4 in lid }
steps:
  fit: { do: [place: base, place: lid, start: top, tighten: top] }
`).fit.joints[0]

  test("a formed thread: band from weak to strong prints, value at half of the middle", () => {
    const fit = inPlastic("thread-forming pan M3x12 PZ1", "holes: 2.4 in base, depth: 12")
    const formed = fit === undefined ? undefined : named(fit, "formed")
    if (formed === undefined) throw new Error("no limit")
    // pi x 3 x (9 - 1.35) mm2 of cylinder; PETG 25 to 56 MPa tensile, / sqrt 3 in shear.
    expect(inputOf(formed, "A")).toBeCloseTo(Math.PI * 3 * 7.65, 6)
    expect(inputOf(formed, "tau low")).toBeCloseTo(25 / Math.sqrt(3), 6)
    expect(inputOf(formed, "tau high")).toBeCloseTo(56 / Math.sqrt(3), 6)
    expect(formed.value).toBeCloseTo(0.5 * Math.sqrt(inputOf(formed, "M low") * inputOf(formed, "M high")), 9)
  })

  test("an insert: pull-out band on the cylinder round it", () => {
    const fit = inPlastic("ISO 4762 M3x8", "insert: M3 x 5.7, hole: 4, holes: 4 in base")
    const insert = fit === undefined ? undefined : named(fit, "insert")
    if (insert === undefined) throw new Error("no limit")
    expect(inputOf(insert, "F low")).toBeCloseTo(0.35 * (25 / Math.sqrt(3)) * Math.PI * 4.4 * 5.7, 6)
  })

  test("the insert share covers a test: M8 in sintered PA12 held 3.83 kN on average (Polymers 2026, 18, 112)", () => {
    // 10.1 mm outside, 12.7 mm long, PA12 SLS 42 to 50 MPa tensile: 0.35 to 0.6 of the sheared cylinder.
    const area = Math.PI * 10.1 * 12.7
    expect((0.35 * 42 * area) / Math.sqrt(3)).toBeLessThan(3830)
    expect((0.6 * 50 * area) / Math.sqrt(3)).toBeGreaterThan(3830)
  })
})

test("plastic under a nut limits the torque, also when the head presses on metal", () => {
  const { fit } = proofOf(`
parts:
  block: { plastic: PETG, shape: { box: 80 x 30 x 20, holes: [5.5 at 15, 15] } }
  board: { material: aluminium, shape: { plate: 80 x 30 x 5, holes: [5.5 at 15, 15] }, at: [0, 0, 20], goes: down }
joints:
  board: { screws: 1 x ISO 4762 M5x35, through: [board, block], nut: ISO 4032 M5 }
steps:
  fit: { do: [place: block, place: board, start: board, tighten: board] }
`)
  const [first] = fit.joints
  if (first === undefined) throw new Error("no joint came out of the text")
  expect(first.torque.governing).toBe("PETG under the nut yields")
  // ISO 4032 M5: 8 mm across flats; hole 5.5 mm (ISO 273 medium): pi / 4 (8² - 5.5²) = 26.5 mm².
  expect(inputOf(named(first, "under the nut"), "A")).toBeCloseTo(26.5, 1)
})
