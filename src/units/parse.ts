/**
 * Numbers with units as people write them: `32`, `32mm`, `0.5 in`, `1 1/4 in`, `50 lbf in`, `3,5`, `up to 45`.
 * Factors: BIPM, The International System of Units, 9th edition (2019), and NIST Special Publication 811 (2008),
 * appendix B.8; the inch and the pound are exact since 1959 (25.4 mm, 0.453 592 37 kg), standard gravity is
 * 9.806 65 m/s2 (3rd CGPM, 1901).
 */
import type { Dimension } from "./types.ts"

/** Pound-force in newtons: 0.453 592 37 kg x 9.806 65 m/s2 (NIST SP 811, B.8: 4.448 222 E+00). */
const poundForceN = 0.45359237 * 9.80665
/** Kilogram-force in newtons. */
const kilogramForceN = 9.80665

type Unit = { readonly dimension: Dimension; readonly factor: number; readonly offset?: number }

const unit = (dimension: Dimension, factor: number, offset = 0): Unit => ({ dimension, factor, offset })

/** Spellings with spaces, dots, stars and case already taken out where case does not matter. */
const units: ReadonlyMap<string, Unit> = new Map([
  ["mm", unit("length", 1)],
  ["cm", unit("length", 10)],
  ["m", unit("length", 1000)],
  ["in", unit("length", 25.4)],
  ["inch", unit("length", 25.4)],
  ["inches", unit("length", 25.4)],
  ['"', unit("length", 25.4)],
  ["″", unit("length", 25.4)],
  ["ft", unit("length", 304.8)],
  ["°", unit("angle", 1)],
  ["deg", unit("angle", 1)],
  ["degrees", unit("angle", 1)],
  ["rad", unit("angle", 180 / Math.PI)],
  ["N", unit("force", 1)],
  ["kN", unit("force", 1000)],
  ["lbf", unit("force", poundForceN)],
  ["kgf", unit("force", kilogramForceN)],
  ["Nm", unit("torque", 1)],
  ["Ncm", unit("torque", 0.01)],
  ["Nmm", unit("torque", 0.001)],
  ["cNm", unit("torque", 0.01)],
  ["lbfin", unit("torque", poundForceN * 0.0254)],
  ["inlbf", unit("torque", poundForceN * 0.0254)],
  ["inlb", unit("torque", poundForceN * 0.0254)],
  ["lbfft", unit("torque", poundForceN * 0.3048)],
  ["ftlbf", unit("torque", poundForceN * 0.3048)],
  ["kgfcm", unit("torque", kilogramForceN * 0.01)],
  ["kg", unit("mass", 1)],
  ["g", unit("mass", 0.001)],
  ["lb", unit("mass", 0.45359237)],
  ["oz", unit("mass", 0.45359237 / 16)],
  ["min", unit("duration", 1)],
  ["minute", unit("duration", 1)],
  ["minutes", unit("duration", 1)],
  ["h", unit("duration", 60)],
  ["hour", unit("duration", 60)],
  ["hours", unit("duration", 60)],
  ["s", unit("duration", 1 / 60)],
  ["seconds", unit("duration", 1 / 60)],
  ["d", unit("duration", 1440)],
  ["days", unit("duration", 1440)],
  ["°C", unit("temperature", 1)],
  ["degC", unit("temperature", 1)],
  ["C", unit("temperature", 1)],
  ["°F", unit("temperature", 5 / 9, -32)],
  ["degF", unit("temperature", 5 / 9, -32)],
  ["F", unit("temperature", 5 / 9, -32)],
  ["K", unit("temperature", 1, -273.15)],
  ["mm2", unit("area", 1)],
  ["mm²", unit("area", 1)],
  ["cm2", unit("area", 100)],
  ["cm²", unit("area", 100)],
  ["%", unit("share", 1)],
])

/** Unit that a bare number has, as it is written in findings. */
export const baseUnit: Readonly<Record<Dimension, string>> = {
  length: "mm",
  angle: "°",
  force: "N",
  torque: "N·m",
  mass: "kg",
  duration: "min",
  temperature: "°C",
  area: "mm²",
  share: "%",
}

/** What a text held: a value in the base unit, or the reason why it is none. */
export type ParsedNumber =
  | { readonly is: "number"; readonly value: number; readonly hasComma: boolean; readonly unit: string }
  /** A comma before exactly three digits: 1,500 is 1.5 to some and 1500 to others. */
  | { readonly is: "ambiguous"; readonly asDecimal: number; readonly asThousands: number }
  | { readonly is: "other-dimension"; readonly unit: string; readonly dimension: Dimension }
  | { readonly is: "unknown-unit"; readonly unit: string }
  | { readonly is: "no-number" }

const numberPattern = /^([-+\u2212]?)(\d+(?:[.,]\d+)?|[.,]\d+)(?:e([+-]?\d{1,2}))?(?:\s+(\d+)\/(\d+)|\/(\d+))?\s*(.*)$/i

/**
 * Reads a number of the given dimension and gives it in the base unit (mm, deg, N, N*m, kg, min, degC, %).
 * A bare number has the base unit. Fractions are read with or without a whole number before them.
 */
export function parseNumber(text: string, dimension: Dimension): ParsedNumber {
  const match = numberPattern.exec(text.trim())
  if (match === null) return { is: "no-number" }
  const [, sign = "", digits = "", exponent = "0", numerator, denominator, under, rest = ""] = match
  const hasComma = digits.includes(",")
  const plain = Number(digits.replace(",", ".")) * 10 ** Number(exponent)
  const divisor = Number(under ?? denominator ?? 1)
  if (divisor === 0) return { is: "no-number" }
  const whole = under === undefined ? plain + Number(numerator ?? 0) / divisor : plain / divisor
  const signed = sign === "-" || sign === "\u2212" ? -whole : whole
  const found = rest === "" ? unit(dimension, 1) : findUnit(rest)
  if (found === undefined) return { is: "unknown-unit", unit: rest }
  if (found.dimension !== dimension) return { is: "other-dimension", unit: rest, dimension: found.dimension }
  const toBase = (number: number): number => tidy((number + (found.offset ?? 0)) * found.factor)
  if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) {
    return { is: "ambiguous", asDecimal: toBase(signed), asThousands: toBase(signed * 1000) }
  }
  return { is: "number", value: toBase(signed), hasComma, unit: rest === "" ? baseUnit[dimension] : rest }
}

/** Gives the dimension of a unit as written, or undefined when it is none that is known here. */
export function dimensionOf(written: string): Dimension | undefined {
  return findUnit(written)?.dimension
}

/** A range as written, its ends still text: `31.5 to 32.5`, `-10 – 45 °C`, `up to 45`, `at least 3`. */
export type WrittenRange = {
  readonly min: string | undefined
  readonly max: string | undefined
  /** Offsets of both ends in the text. */
  readonly minAt: number
  readonly maxAt: number
}

const rangePattern = /^\s*(.*?\d.*?)\s*(?:\bto\b|–|—|\.\.+|(?<=[\d\w°])\s*-\s*(?=\d))\s*(.*\d.*?)\s*$/
const limitPattern = /^\s*(up to|at most|at least|from)\s+(.*\d.*)$/i

/** Splits a range into its two ends; a single number is both ends. The first end takes the unit of the second. */
export function splitRange(text: string): WrittenRange | undefined {
  const limit = limitPattern.exec(text)
  if (limit !== null) {
    const [, word = "", number = ""] = limit
    const at = text.indexOf(number)
    const isUpper = /up|most/i.test(word)
    return { min: isUpper ? undefined : number, max: isUpper ? number : undefined, minAt: at, maxAt: at }
  }
  const match = rangePattern.exec(text)
  if (match === null) return /\d/.test(text) ? { min: text, max: text, minAt: 0, maxAt: 0 } : undefined
  const [, first = "", second = ""] = match
  const secondUnit = numberPattern.exec(second.trim())?.[7] ?? ""
  const firstUnit = numberPattern.exec(first.trim())?.[7] ?? ""
  const min = firstUnit === "" && secondUnit !== "" ? `${first.trim()} ${secondUnit}` : first.trim()
  return { min, max: second.trim(), minAt: text.indexOf(first), maxAt: text.lastIndexOf(second) }
}

/** Looks a unit up as written; dots, stars, spaces and hyphens between factors may be written or not. */
function findUnit(written: string): Unit | undefined {
  const joined = written.trim().replace(/[\s·*⋅.-]+/g, "")
  return units.get(joined) ?? units.get(joined.toLowerCase()) ?? units.get(joined.replace(/^nm$/i, "Nm"))
}

/** Takes off the rounding of the conversion (1e-12 relative), so that 0.1 in is 2.54 and not 2.5399999999999996. */
function tidy(value: number): number {
  return Number(value.toPrecision(12))
}
