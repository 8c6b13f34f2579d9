/** Numbers as text for findings (English, fixed form). Documents print through `Intl` with their own locale. */

/** No-break space between number and unit (ISO 80000-1, 7.1.4). */
const space = "\u00a0"

/** At most `digits` decimals, trailing zeros dropped: `17.5`, `6`. */
export function trimmed(value: number, digits = 2): string {
  return String(Number(value.toFixed(digits)))
}

/** `17.5 mm` */
export function mm(value: number): string {
  return trimmed(value) + space + "mm"
}

/** `1.2 N·m`; small torques keep two decimals. */
export function newtonMetres(value: number): string {
  return trimmed(value) + space + "N·m"
}

/** `120 N` */
export function newtons(value: number): string {
  return trimmed(value, 0) + space + "N"
}
