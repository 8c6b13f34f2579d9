/** Numbers with units for documents: decimal sign of the language, no-break space, true minus, one unit for a range. */
import type { Outline } from "../../solids/types.ts"
import { numberFormat } from "../../units/formats.ts"

/** No-break space between number and unit (ISO 80000-1, 7.1.4). */
const space = "\u00a0"

type Span = { readonly min: number; readonly max: number }

/** All ways a document prints numbers. Lengths in mm, torques in N*m, masses in kg, times in minutes. */
export type Measures = {
  readonly number: (value: number, digits?: number) => string
  readonly mm: (value: number) => string
  readonly torque: (valueNm: number) => string
  readonly kg: (value: number) => string
  readonly celsius: (value: number) => string
  readonly newtons: (value: number) => string
  /** `45 min`, `1 h 30 min`. */
  readonly duration: (minutes: number) => string
  /** `2 ×`, glued to what follows. */
  readonly times: (count: number) => string
  /** `60 × 30 × 1.5 mm` */
  readonly sizeMm: (sides: readonly number[]) => string
  /** `20 × 12 mm`, `Ø 11 mm` */
  readonly outline: (outline: Outline) => string
  /** `31.5 mm to 32.5 mm`; one value when both ends are equal; `up to 45 °C` when an end is open (infinite). */
  readonly range: (span: Span, unit: (value: number) => string) => string
}

/** The sentences of a range; an end may be open. */
export type RangeWords = {
  readonly between: (from: string, to: string) => string
  readonly upTo: (value: string) => string
  readonly from: (value: string) => string
}

/** Gives the measures of a language. */
export function makeMeasures(language: string, ranges: RangeWords): Measures {
  const format = numberFormat(language)
  // `Intl` prints a hyphen as minus sign (measured for `en` and `de`).
  const number = (value: number, digits?: number): string => format.number(value, digits).replace("-", "\u2212")
  const withUnit = (unit: string, digits?: number) => (value: number) => number(value, digits) + space + unit
  return {
    number,
    mm: withUnit("mm"),
    torque: withUnit("N·m"),
    kg: withUnit("kg"),
    celsius: withUnit("°C", 1),
    newtons: withUnit("N", 0),
    duration: (minutes) => {
      const hours = Math.floor(minutes / 60)
      const rest = minutes - 60 * hours
      if (hours === 0) return number(rest, 1) + space + "min"
      const whole = number(hours) + space + "h"
      return rest === 0 ? whole : whole + space + number(rest, 0) + space + "min"
    },
    times: (count) => number(count) + space + "×",
    sizeMm: (sides) => `${sides.map((side) => number(side)).join(`${space}×${space}`)}${space}mm`,
    outline: (outline) =>
      outline.kind === "circle"
        ? `Ø${space}${number(outline.diameterMm)}${space}mm`
        : `${number(outline.widthMm)}${space}×${space}${number(outline.heightMm)}${space}mm`,
    range: ({ min, max }, unit) => {
      if (min === max) return unit(min)
      if (!Number.isFinite(min)) return ranges.upTo(unit(max))
      return Number.isFinite(max) ? ranges.between(unit(min), unit(max)) : ranges.from(unit(min))
    },
  }
}
