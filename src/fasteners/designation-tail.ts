/** The end of a designation: property class, hardness, drive and type of cross recess, in any order. */
import type { Fastener } from "./types.ts"

export type Drive = NonNullable<Fastener["drive"]>

export type Tail = {
  readonly propertyClass: string | undefined
  /** True for a bare `A2`: the usual class of the steel group is taken. */
  readonly isClassAssumed: boolean
  readonly drive: Drive | undefined
  /** From a bare `H` or `Z`. */
  readonly recess: "cross-ph" | "cross-pz" | undefined
  /** First word that is none of these. */
  readonly unknown: string | undefined
}

const steelClass = /^0?(?:4\.6|4\.8|5\.6|5\.8|6\.8|8\.8|9\.8|10\.9|12\.9)$/
const nutClass = /^(?:04|05|4|5|6|8|10|12)$/
const stainless = /^(A[1-5])(?:-?(50|70|80|100))?$/i

/** Reads what follows the size. Classes: ISO 898-1 and -2, ISO 3506; washers: `200 HV`. Unknown words are given back. */
export function readTail(text: string, isWasher: boolean): Tail {
  let tail: Tail = {
    propertyClass: undefined,
    isClassAssumed: false,
    drive: undefined,
    recess: undefined,
    unknown: undefined,
  }
  const words = text
    .replace(/\b(A[1-5])\s?-\s?(\d{2,3})\b/gi, "$1~$2")
    .replace(/\b(\d{3})\s?HV\b/gi, "$1HV")
    .replace(/\b(PZ|PH|TX|T)\s(\d)/gi, "$1$2")
    .split(/[\s\-,;/()]+/)
    .filter((word) => word !== "" && word.toLowerCase() !== "mm")
  for (const word of words) tail = readWord(tail, word.replace("~", "-"), isWasher)
  return tail
}

function readWord(tail: Tail, word: string, isWasher: boolean): Tail {
  const group = stainless.exec(word)
  if (group !== null) {
    const level = group[2] ?? "70"
    const steel = (group[1] ?? "").toUpperCase()
    const propertyClass = isWasher ? steel : `${steel}-${level}`
    return { ...tail, propertyClass, isClassAssumed: !isWasher && group[2] === undefined }
  }
  if (/^\d{3}HV$/i.test(word) && isWasher) return { ...tail, propertyClass: `${word.slice(0, 3)} HV` }
  if (steelClass.test(word) || (nutClass.test(word) && !isWasher)) return { ...tail, propertyClass: word }
  if (/^(?:brass|steel)$/i.test(word)) return { ...tail, propertyClass: word.toLowerCase() }
  const cross = /^(PZ|PH)(\d)$/i.exec(word)
  if (cross !== null) {
    const kind = cross[1]?.toUpperCase() === "PZ" ? "cross-pz" : "cross-ph"
    return { ...tail, drive: { kind, size: cross[2] ?? "" }, recess: kind }
  }
  const hexalobular = /^TX?(\d{1,3})$/i.exec(word)
  if (hexalobular !== null) return { ...tail, drive: { kind: "hexalobular", size: `T${hexalobular[1] ?? ""}` } }
  if (/^[hz]$/i.test(word)) return { ...tail, recess: word.toUpperCase() === "Z" ? "cross-pz" : "cross-ph" }
  return { ...tail, unknown: tail.unknown ?? word }
}

/** Number of a cross recess, undefined for another drive. */
export function readCrossSize(drive: Drive): string | undefined {
  return drive.kind === "cross-pz" || drive.kind === "cross-ph" ? drive.size : undefined
}
