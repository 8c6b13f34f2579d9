/** Numbers with units in the form of a locale, for documents. */

/** Prints numbers of one locale: decimal sign and digits by `Intl`, no-break space before the unit. */
export type NumberFormat = {
  readonly number: (value: number, digits?: number) => string
  readonly mm: (value: number) => string
  readonly torque: (valueNm: number) => string
}

/** Gives the number format of a language tag such as `en` or `de`. */
export function numberFormat(language: string): NumberFormat {
  const number = (value: number, digits = 2): string =>
    new Intl.NumberFormat(language, { maximumFractionDigits: digits, useGrouping: false }).format(value)
  return {
    number,
    mm: (value) => `${number(value)}\u00a0mm`,
    torque: (valueNm) => `${number(valueNm)}\u00a0N·m`,
  }
}
