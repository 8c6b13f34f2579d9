import { expect, test } from "vitest"
import { proofOf } from "./proof-of.ts"

const vice = (place: string, tag: string): string => `
host:
  vice:
    shape: { box: 80 x 60 x 50, holes: [5 at 40, 30 depth 15] }
    ${place}
    bores: { top: { thread: M6, in: steel, depth: 15, holes: [40, 30, 50 along down] } }
parts:
  tag: { shape: { plate: 30 x 30 x 3, holes: [6.6 at 15, 15] }, ${tag}, material: aluminium }
joints:
  tag: { screws: 1 x ISO 4762 M6x14, through: tag, into: vice.top }
steps:
  put: { do: [place: tag, start: tag, tighten: tag] }
`

test("a screw in pieces that are turned passes as in pieces that are not", () => {
  // A quarter turn about y takes (25, 15, 50) to (50, 15, -25).
  const [screw] = proofOf(vice("turn: [0, 90, 0]", "at: [50, 15, -25], turn: [0, 90, 0]")).fit.joints[0]?.screws ?? []
  expect(screw?.along.map(Math.round)).toEqual([-1, 0, 0])
  expect(screw?.clamped).toEqual([{ part: "tag", kind: "passes", holeMm: undefined, beside: undefined }])
  expect(screw?.gap?.gapMm).toBeCloseTo(0, 6)
  expect(screw?.recessMm).toBe(0)
  expect(screw?.materialMm).toBeCloseTo(50, 6)
})

test("where the hole stands is told in the assembly, not in the piece", () => {
  const [screw] = proofOf(vice("turn: [0, 90, 0]", "at: [50, 15, -30], turn: [0, 90, 0]")).fit.joints[0]?.screws ?? []
  expect(screw?.clamped[0]?.kind).toBe("blocked")
  const offset = screw?.clamped[0]?.beside?.offsetMm ?? []
  expect(offset.map((value) => Math.round(value * 1000) / 1000 + 0)).toEqual([0, 0, -5])
})

test("a screw with a nut is followed from the hole of its first part through the others", () => {
  const plates = (lower: string): string => `
host: { mast: { tube: round 32 } }
parts:
  upper: { shape: { plate: 30 x 30 x 3, holes: [5.5 at 15, 15] }, at: [0, 0, 103], material: aluminium }
  lower: { shape: { plate: 30 x 30 x 3, holes: [5.5 at ${lower}] }, at: [0, 0, 100], material: aluminium }
joints:
  pair: { screws: 1 x ISO 4762 M5x14, through: [upper, lower], nut: ISO 4032 M5 }
steps:
  put: { do: [place: lower, place: upper, start: pair, tighten: pair] }
`
  const kinds = (lower: string) =>
    proofOf(plates(lower)).fit.joints[0]?.screws[0]?.clamped.map(({ part, kind }) => `${part} ${kind}`)
  expect(kinds("15, 15")).toEqual(["upper passes", "lower passes"])
  expect(kinds("17, 15")).toEqual(["upper passes", "lower blocked"])
})

test("without a shape of the part nothing is said about its holes", () => {
  const text = vice("", "at: [25, 15, 50]").replace("shape: { plate: 30 x 30 x 3, holes: [6.6 at 15, 15] }, ", "")
  expect(proofOf(text).fit.joints[0]?.screws.map(({ clamped }) => clamped)).toEqual([[]])
})
