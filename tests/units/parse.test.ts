import fc from "fast-check"
import { expect, test } from "vitest"
import { baseUnit, dimensionOf, parseNumber, splitRange } from "../../src/units/parse.ts"
import type { Dimension } from "../../src/units/types.ts"

/**
 * Conversion factors as printed in NIST Special Publication 811 (2008), appendix B.8, "Factors for units listed
 * alphabetically" (seven digits there; quoted from memory, checked by arithmetic against the exact definitions of
 * inch, pound and standard gravity), and 4.2.1.1 for temperatures.
 */
test.each<{ text: string; dimension: Dimension; value: number }>([
  { text: "1 in", dimension: "length", value: 25.4 },
  { text: "1 ft", dimension: "length", value: 304.8 },
  { text: "1 lbf", dimension: "force", value: 4.448222 },
  { text: "1 kgf", dimension: "force", value: 9.80665 },
  { text: "1 lbf in", dimension: "torque", value: 0.1129848 },
  { text: "1 lbf·in", dimension: "torque", value: 0.1129848 },
  { text: "1 lbf ft", dimension: "torque", value: 1.355818 },
  { text: "1 ft-lbf", dimension: "torque", value: 1.355818 },
  { text: "1 kgf cm", dimension: "torque", value: 0.0980665 },
  { text: "1 lb", dimension: "mass", value: 0.4535924 },
  { text: "1 oz", dimension: "mass", value: 0.02834952 },
  { text: "32 °F", dimension: "temperature", value: 0 },
  { text: "212 °F", dimension: "temperature", value: 100 },
  { text: "273.15 K", dimension: "temperature", value: 0 },
  { text: "3.141593 rad", dimension: "angle", value: 180 },
])("$text is the published $value", ({ text, dimension, value }) => {
  const parsed = parseNumber(text, dimension)
  if (parsed.is !== "number") throw new Error(`${text} was read as ${parsed.is}`)
  expect(Math.abs(parsed.value - value)).toBeLessThanOrEqual(Math.max(1e-9, Math.abs(value) * 5e-7))
})

/** Spellings of one value. */
test.each<{ texts: readonly string[]; dimension: Dimension; value: number }>([
  { texts: ["32", "32mm", "32 mm", "+32", "3.2 cm", "0.032 m", "3.2e1", " 32 "], dimension: "length", value: 32 },
  { texts: ["0.5 in", "1/2 in", '0.5"', "0.5inch", ".5 in"], dimension: "length", value: 12.7 },
  { texts: ["1 1/4 in", "1.25 in", "5/4 in"], dimension: "length", value: 31.75 },
  {
    texts: ["0.5", "0.5 N m", "0.5 N*m", "0.5 N·m", "0.5 Nm", "0.5 N.m", "0.5N·m", "50 Ncm", "500 N mm", "50 cNm"],
    dimension: "torque",
    value: 0.5,
  },
  { texts: ["1.2", "1.2 kg", "1200 g", "1200g"], dimension: "mass", value: 1.2 },
  { texts: ["45", "45 min", "0.75 h", "2700 s"], dimension: "duration", value: 45 },
  { texts: ["-10", "−10", "-10 °C", "-10 C", "14 °F"], dimension: "temperature", value: -10 },
  { texts: ["0.3", "0.3 %", "0.3%"], dimension: "share", value: 0.3 },
])("$texts are $value", ({ texts, dimension, value }) => {
  for (const text of texts)
    expect([text, parseNumber(text, dimension)]).toEqual([text, expect.objectContaining({ is: "number", value })])
})

test.each<{ text: string; dimension: Dimension; is: string }>([
  { text: "", dimension: "length", is: "no-number" },
  { text: "wide", dimension: "length", is: "no-number" },
  { text: "1/0 in", dimension: "length", is: "no-number" },
  { text: "5 kg", dimension: "length", is: "other-dimension" },
  { text: "5 N", dimension: "torque", is: "other-dimension" },
  { text: "5 Nm", dimension: "force", is: "other-dimension" },
  { text: "5 furlong", dimension: "length", is: "unknown-unit" },
  { text: "5 6", dimension: "length", is: "unknown-unit" },
  { text: "1,500", dimension: "length", is: "ambiguous" },
  { text: "12,345 mm", dimension: "length", is: "ambiguous" },
  { text: "0,500", dimension: "length", is: "number" },
  { text: "1,50", dimension: "length", is: "number" },
  { text: "Infinity", dimension: "length", is: "no-number" },
  { text: "0x10", dimension: "length", is: "unknown-unit" },
])("`$text` as a $dimension is $is", ({ text, dimension, is }) => {
  expect(parseNumber(text, dimension).is).toBe(is)
})

test("a decimal comma is read and told apart from a point", () => {
  expect(parseNumber("3,5", "length")).toEqual({ is: "number", value: 3.5, hasComma: true, unit: "mm" })
  expect(parseNumber("3.5", "length")).toEqual({ is: "number", value: 3.5, hasComma: false, unit: "mm" })
})

test("milli and mega are not confused: `mN` and `MN` are no units here", () => {
  expect(parseNumber("5 MM", "length").is).toBe("number")
  expect(parseNumber("5 mN", "force").is).not.toBe("number")
})

test.each([
  { text: "31.5 to 32.5", min: "31.5", max: "32.5" },
  { text: "31.5 – 32.5 mm", min: "31.5 mm", max: "32.5 mm" },
  { text: "31.5-32.5", min: "31.5", max: "32.5" },
  { text: "-10 to 45", min: "-10", max: "45" },
  { text: "-10 to -5 °C", min: "-10 °C", max: "-5 °C" },
  { text: "1 in to 2 in", min: "1 in", max: "2 in" },
  { text: "up to 45", min: undefined, max: "45" },
  { text: "at least 3 mm", min: "3 mm", max: undefined },
  { text: "32", min: "32", max: "32" },
  { text: "-10", min: "-10", max: "-10" },
])("the range `$text`", ({ text, min, max }) => {
  expect(splitRange(text)).toMatchObject({ min, max })
})

test("no range without a number", () => {
  expect(splitRange("any")).toBeUndefined()
})

test("what is printed with its base unit reads back to the same value", () => {
  const dimensions: readonly Dimension[] = [
    "length",
    "angle",
    "force",
    "torque",
    "mass",
    "duration",
    "temperature",
    "area",
    "share",
  ]
  fc.assert(
    fc.property(
      fc.constantFrom(...dimensions),
      fc.integer({ min: -999_999, max: 999_999 }),
      (dimension, thousandths) => {
        const value = thousandths / 1000
        expect(dimensionOf(baseUnit[dimension])).toBe(dimension)
        expect(parseNumber(`${value} ${baseUnit[dimension]}`, dimension)).toMatchObject({ is: "number", value })
      },
    ),
    { seed: 20260102, numRuns: 500 },
  )
})
