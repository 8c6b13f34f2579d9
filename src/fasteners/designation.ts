/**
 * Reads fastener designations as makers write them and prints them after ISO 8991: `ISO 4762 - M4 x 16 - A2-70`.
 * Text in, data out; nothing is guessed silently: what was assumed or replaced is told in `note`.
 */
import { nearNames } from "../findings/near.ts"
import { type Drive, readCrossSize, readTail, type Tail } from "./designation-tail.ts"
import { findNutStandard, findScrewStandard, findWasherStandard, standardNames, successors } from "./standards.ts"
import type { HeadRow, ScrewStandard } from "./tables/heads.ts"
import { coarsePitchMm, isListedThread, pitchTable } from "./tables/iso-261.ts"
import { isListedLengthMm, nearLengthsMm } from "./tables/iso-888.ts"
import type { Fastener } from "./types.ts"

type Problem = { readonly message: string; readonly fix: string | undefined }

export type ReadDesignation =
  /** `note` says what was assumed or replaced, as a sentence without full stop; undefined when nothing was. */
  { readonly fastener: Fastener; readonly note: string | undefined } | { readonly problem: Problem }

type Size = {
  readonly diameterMm: number
  readonly isMetric: boolean
  readonly numbers: readonly number[]
  readonly rest: string
}

/** What all readers below need: the text as written, short enough for a message, and what it was cut into. */
type Written = { readonly written: string; readonly name: string; readonly size: Size }

const genericWords = /\b(?:thread|self)[\s-]?(?:forming|tapping)\b|\bheat[\s-]?set\b|\binsert\b/i

/**
 * Reads a designation such as `ISO 4762 M4x14`, `ISO 4762 - M4 x 16 - A2-70`, `DIN 912 M4x16`, `ISO 4032 M4`,
 * `ISO 7089 - 4 - 200 HV`, `thread-forming pan M3x10 PZ1` or `insert M3x5.7`. Gives the fastener, or a problem
 * ready to be a finding. A withdrawn DIN number becomes its ISO successor, told in `note`. Never throws.
 */
export function readDesignation(text: string): ReadDesignation {
  const written = text.trim()
  const plain = tidy(written)
  const name = plain.length > 40 ? `${plain.slice(0, 37)}...` : plain
  if (plain === "") return problem("a fastener has no designation", "write for example `ISO 4762 M4x16`")
  if (plain.length > 120)
    return problem(`\`${name}\` is too long for a designation`, "write for example `ISO 4762 M4x16`")
  const counted = /^([-+]?[\d.]+) ?x (?=\D)(.+)$/i.exec(plain)
  if (counted !== null) {
    const [, count = "", rest = ""] = counted
    return problem(`\`${name}\`: ${count} is no number of pieces`, `write a whole number from 1 on: \`1 x ${rest}\``)
  }
  const standard = findStandardIn(plain)
  if (standard !== undefined) {
    const size = readSize(standard.rest)
    if (!isKnown(standard.name)) return unknownStandard(name, standard.name)
    const example = `for example \`${exampleOf(standard.name)}\``
    if (size === undefined) return problem(`\`${name}\` has no size`, `write the size after the standard, ${example}`)
    return readStandard({ written, name, size }, standard.name, standard.replaced)
  }
  if (genericWords.test(plain)) return readGeneric(written, name, plain)
  if (readSize(plain) === undefined) {
    return problem(`\`${name}\` is not a fastener designation`, "write for example `ISO 4762 M4x16`")
  }
  return problem(`\`${name}\` names no standard`, `write the standard in front, for example \`ISO 4762 ${name}\``)
}

/** Prints a fastener after ISO 8991; `readDesignation` reads the result back to an equal fastener. */
export function printDesignation(fastener: Fastener): string {
  const { kind, standard, head, drive, diameterMm, pitchMm, lengthMm, propertyClass, isClassAssumed } = fastener
  const pitch = fastener.isThreadForming || pitchMm === coarsePitchMm(diameterMm) ? "" : ` x ${pitchMm}`
  const length = lengthMm === undefined ? "" : ` x ${lengthMm}`
  const thread = kind === "washer" ? String(diameterMm) : `M${diameterMm}`
  const group = /^A[1-5](?=-)/.exec(propertyClass)?.[0]
  const grade = !isClassAssumed ? ` - ${propertyClass}` : group === undefined ? "" : ` - ${group}`
  if (kind === "insert") return `insert ${thread}${pitch}${length}${grade}`
  if (standard === undefined) {
    return `thread-forming ${head} ${thread}${length}${grade}${drive === undefined ? "" : ` - ${nameDrive(drive)}`}`
  }
  const recess = drive?.kind === "cross-pz" ? " - Z" : drive?.kind === "cross-ph" ? " - H" : ""
  return `${standard} - ${thread}${pitch}${length}${grade}${recess}`
}

/** `PZ1`, `T10`, `hexagon socket 3`: a drive in the words of the trade. */
function nameDrive(drive: NonNullable<Fastener["drive"]>): string {
  if (drive.kind === "cross-pz") return `PZ${drive.size}`
  if (drive.kind === "cross-ph") return `PH${drive.size}`
  if (drive.kind === "hexalobular") return drive.size
  return `${drive.kind.replace("-", " ")} ${drive.size}`
}

function problem(message: string, fix: string | undefined): { readonly problem: Problem } {
  return { problem: { message, fix } }
}

/** One form for signs that look alike: times signs, dashes, decimal commas, spaces. */
function tidy(text: string): string {
  return text
    .normalize("NFKC")
    .replace(/[\u00d7\u2715\u2716\u0445\u0425*]/g, "x")
    .replace(/[\u2010-\u2015\u2212]/g, "-")
    .replace(/(\d),(\d)/g, "$1.$2")
    .replace(/\s+/g, " ")
    .trim()
}

function isKnown(name: string): boolean {
  return standardNames.includes(name)
}

/** Finds `ISO 7380-1`, `DIN EN ISO 4762`, `iso4762`, `DIN 912` anywhere; a part number only where such a part is known. */
function findStandardIn(
  plain: string,
): { readonly name: string; readonly replaced: string | undefined; readonly rest: string } | undefined {
  const match = /(?:\b(?:DIN\s*)?(?:EN\s*)?ISO|\bDIN)\s*-?\s*(\d{2,5})(?:\s?-\s?(\d)(?![\d.]))?/i.exec(plain)
  if (match === null) return undefined
  const family = /ISO/i.test(match[0]) ? "ISO" : "DIN"
  const base = `${family} ${match[1] ?? ""}`
  const part = match[2] === undefined ? undefined : `${base}-${match[2]}`
  const hasPart = part !== undefined && (isKnown(part) || part in successors)
  const name = hasPart ? part : base
  const end = match.index + match[0].length - (match[2] !== undefined && !hasPart ? match[2].length : 0)
  const rest = `${plain.slice(0, match.index)} ${plain.slice(end)}`
  const successor = successors[name]
  const replaced = successor !== undefined && name.startsWith("DIN") ? name : undefined
  return { name: successor ?? name, replaced, rest }
}

/** Cuts `M8 x 1 x 20 - 8.8` into its numbers and what follows; undefined when there is no number to begin with. */
function readSize(text: string): Size | undefined {
  const match = /^[\s\-:]*(M)?\s?(\d+(?:\.\d+)?)((?:\s?x\s?\d+(?:\.\d+)?){0,2})(?![\d.]|x)/i.exec(text)
  if (match === null) return undefined
  const diameterMm = Number(match[2])
  const numbers = (match[3] ?? "").split(/x/i).slice(1).map(Number)
  // A length of 0 or of a kilometre is read too, so that it is told as a length.
  if (diameterMm === 0 || ![diameterMm, ...numbers].every((number) => number < 1e6)) return undefined
  return { diameterMm, isMetric: match[1] !== undefined, numbers, rest: text.slice(match[0].length) }
}

function unknownStandard(name: string, standard: string): ReadDesignation {
  const near = nearNames(standard, [...standardNames, ...Object.keys(successors)])
  const fix = near.length === 0 ? `write one of ${standardNames.slice(0, 4).join(", ")} ...` : `write ${orList(near)}`
  return problem(`\`${name}\`: there is no table for \`${standard}\``, fix)
}

function orList(names: readonly string[]): string {
  return names.map((one) => `\`${one}\``).join(" or ")
}

function exampleOf(standard: string): string {
  if (findNutStandard(standard) !== undefined) return `${standard} M4`
  return findWasherStandard(standard) !== undefined ? `${standard} M4` : `${standard} M4x16`
}

function readStandard(from: Written, standard: string, replaced: string | undefined): ReadDesignation {
  const screw = findScrewStandard(standard)
  const nut = findNutStandard(standard)
  const washer = findWasherStandard(standard)
  const table = screw ?? nut ?? washer
  const { size, name } = from
  const row = table?.rows.find((one) => one.diameterMm === size.diameterMm)
  if (table === undefined || row === undefined) {
    const near = nearDiameters(size.diameterMm, table?.rows ?? [])
    return problem(`\`${name}\`: \`${standard}\` has no size M${size.diameterMm}`, `write ${orList(near)}`)
  }
  const note = replaced === undefined ? undefined : `\`${replaced}\` is withdrawn, \`${standard}\` took its place`
  const tail = readTail(size.rest, washer !== undefined)
  if (tail.unknown !== undefined && !(screw !== undefined && size.numbers.length === 0)) {
    return problem(`\`${name}\`: \`${tail.unknown}\` is no property class or drive`, `leave \`${tail.unknown}\` out`)
  }
  if (screw !== undefined) return readScrew(from, screw, row as HeadRow, tail, note)
  if (washer !== undefined) {
    if (size.numbers.length > 0)
      return problem(`\`${name}\`: a washer has no length`, `write \`${standard} M${size.diameterMm}\``)
    return finish(
      from,
      note,
      { kind: "washer", standard, head: "none", drive: undefined },
      tail,
      "200 HV",
      undefined,
      undefined,
    )
  }
  const flats = nut?.rows.find((one) => one.diameterMm === size.diameterMm)?.flatsMm
  const [pitchMm, length] = size.numbers
  if (length !== undefined || (pitchMm !== undefined && !isListedThread(size.diameterMm, pitchMm))) {
    return problem(`\`${name}\`: a nut has no length`, `write \`${standard} M${size.diameterMm}\``)
  }
  const drive: Drive = { kind: "hexagon", size: String(flats) }
  return finish(
    from,
    note,
    { kind: "nut", standard, head: "hexagon", drive },
    tail,
    nut?.usualClass ?? "8",
    pitchMm,
    undefined,
  )
}

function nearDiameters(diameterMm: number, rows: readonly { readonly diameterMm: number }[]): readonly string[] {
  const below = rows.filter((row) => row.diameterMm < diameterMm).at(-1)
  const above = rows.find((row) => row.diameterMm > diameterMm)
  return [below, above].flatMap((row) => (row === undefined ? [] : [`M${row.diameterMm}`]))
}

function readScrew(
  from: Written,
  screw: ScrewStandard,
  row: HeadRow,
  tail: Tail,
  note: string | undefined,
): ReadDesignation {
  const { size, name } = from
  const [first, second] = size.numbers
  const thread = `M${size.diameterMm}`
  const hasPitch = second !== undefined
  if (first === undefined || (!hasPitch && isListedThread(size.diameterMm, first) && first < size.diameterMm / 2)) {
    const length = /^\d+(?:\.\d+)?$/.test(tail.unknown ?? "") ? tail.unknown : "16"
    const pitch = first === undefined ? "" : `x${first}`
    return problem(
      `\`${name}\` has no length`,
      `write the length after the thread: \`${screw.name} ${thread}${pitch}x${length}\``,
    )
  }
  const pitchMm = hasPitch ? first : undefined
  const lengthMm = hasPitch ? second : first
  if (pitchMm !== undefined && !isListedThread(size.diameterMm, pitchMm))
    return unlistedPitch(name, size.diameterMm, pitchMm)
  if (!isListedLengthMm(lengthMm)) {
    const near = nearLengthsMm(lengthMm).map((one) => `${screw.name} ${thread}x${one}`)
    return problem(
      `\`${name}\`: screws are not made in length ${lengthMm} mm (ISO 888)`,
      near.length === 0 ? undefined : `write ${orList(near)}`,
    )
  }
  const drive = resolveDrive(screw, row, tail)
  if ("message" in drive) return problem(`\`${name}\` ${drive.message}`, drive.fix)
  const notes = [note, drive.note].filter((one) => one !== undefined)
  const kind = { kind: "screw", standard: screw.name, head: screw.head, drive: drive.drive } as const
  return finish(
    from,
    notes.length === 0 ? undefined : notes.join("; "),
    kind,
    tail,
    screw.usualClass,
    pitchMm,
    lengthMm,
  )
}

function unlistedPitch(name: string, diameterMm: number, pitchMm: number): ReadDesignation {
  const row = pitchTable.find((one) => one.diameterMm === diameterMm)
  const pitches = row === undefined ? [] : [row.coarseMm, ...row.fineMm]
  return problem(
    `\`${name}\`: M${diameterMm} has no pitch of ${pitchMm} mm (ISO 261)`,
    `write one of ${pitches.join(", ")}`,
  )
}

/** The drive that the standard gives; a written one must agree with it. */
function resolveDrive(
  screw: ScrewStandard,
  row: HeadRow,
  tail: Tail,
): { readonly drive: Drive; readonly note: string | undefined } | { readonly message: string; readonly fix: string } {
  const { driveSize } = row
  const typed = tail.drive
  if (screw.drive === "cross") {
    const kind = typed?.kind ?? tail.recess
    const drive: Drive = { kind: kind === "cross-pz" ? "cross-pz" : "cross-ph", size: driveSize }
    const isWrong = typed !== undefined && (readCrossSize(typed) ?? "") !== driveSize
    if (isWrong) {
      return {
        message: `has a recess of size ${driveSize}, not ${nameDrive(typed)}`,
        fix: `write \`${nameDrive(drive)}\` or nothing`,
      }
    }
    return { drive, note: kind === undefined ? `recess type H (PH${driveSize}) taken, none is written` : undefined }
  }
  const drive: Drive = { kind: screw.drive, size: driveSize }
  if (typed !== undefined && (typed.kind !== drive.kind || typed.size !== drive.size)) {
    return {
      message: `has drive ${nameDrive(drive)}, not ${nameDrive(typed)}`,
      fix: `leave \`${nameDrive(typed)}\` out`,
    }
  }
  return { drive, note: undefined }
}

/** Heads of screws without a standard, by the words for them. */
const headWords: Readonly<Record<string, Fastener["head"]>> = {
  pan: "pan",
  cap: "cap",
  button: "button",
  hexagon: "hexagon",
  countersunk: "countersunk",
  flat: "countersunk",
  csk: "countersunk",
}

function readGeneric(written: string, name: string, plain: string): ReadDesignation {
  const match = /(?:\bM\s?)?\d+(?:\.\d+)?\s?x\s?\d|\bM\s?\d/i.exec(plain)
  const isInsert = /\binsert\b/i.test(plain)
  const example = isInsert ? "insert M3x5.7" : "thread-forming pan M3x10 PZ1"
  const size = match === null ? undefined : readSize(plain.slice(match.index))
  if (size === undefined) return problem(`\`${name}\` has no size`, `write for example \`${example}\``)
  const from: Written = { written, name, size }
  const tail = readTail(size.rest, false)
  const [first, second] = size.numbers
  const lengthMm = second ?? first
  if (lengthMm === undefined) return problem(`\`${name}\` has no length`, `write for example \`${example}\``)
  if (tail.unknown !== undefined) {
    return problem(`\`${name}\`: \`${tail.unknown}\` is no drive or material`, `write for example \`${example}\``)
  }
  if (isInsert) {
    const pitchMm = second === undefined ? undefined : first
    if (lengthMm < 1 || lengthMm > 100)
      return problem(`\`${name}\`: inserts are not ${lengthMm} mm long`, `write for example \`${example}\``)
    const coarse = coarsePitchMm(size.diameterMm)
    if (coarse === undefined) {
      const near = nearDiameters(size.diameterMm, pitchTable)
      return problem(`\`${name}\`: there is no thread M${size.diameterMm} (ISO 261)`, `write ${orList(near)}`)
    }
    if (pitchMm !== undefined && !isListedThread(size.diameterMm, pitchMm))
      return unlistedPitch(name, size.diameterMm, pitchMm)
    return finish(
      from,
      undefined,
      { kind: "insert", standard: undefined, head: "none", drive: undefined },
      tail,
      "brass",
      pitchMm,
      lengthMm,
    )
  }
  const words =
    plain
      .slice(0, match?.index ?? 0)
      .toLowerCase()
      .match(/[a-z]+/g) ?? []
  const head = words.map((word) => headWords[word]).find((one) => one !== undefined) ?? "pan"
  const near = words.flatMap((word) => nearNames(word, Object.keys(headWords)).map((one) => ({ word, one })))
  const [slip] = words.some((word) => Object.hasOwn(headWords, word)) ? [] : near
  if (slip !== undefined)
    return problem(`\`${name}\`: \`${slip.word}\` is no head of a screw`, `write ${orList(near.map(({ one }) => one))}`)
  if (second !== undefined)
    return problem(`\`${name}\`: a thread-forming screw has no pitch`, `write for example \`${example}\``)
  if (size.diameterMm < 1 || size.diameterMm > 10 || lengthMm < size.diameterMm || lengthMm > 120) {
    return problem(`\`${name}\` is no size of a thread-forming screw`, `write for example \`${example}\``)
  }
  const kind = { kind: "screw", standard: undefined, head, drive: tail.drive } as const
  const note = tail.drive === undefined ? "no drive is written, so no driver can be named" : undefined
  return finish(from, note, kind, tail, "steel", undefined, lengthMm)
}

function finish(
  from: Written,
  note: string | undefined,
  kind: Pick<Fastener, "kind" | "standard" | "head" | "drive">,
  tail: Tail,
  usualClass: string,
  pitchMm: number | undefined,
  lengthMm: number | undefined,
): ReadDesignation {
  const { diameterMm } = from.size
  const isThreadForming = kind.kind === "screw" && kind.standard === undefined
  const bare: Fastener = {
    ...kind,
    designation: "",
    written: from.written,
    isThreadForming,
    diameterMm,
    // Screws for plastics have a coarse thread of their own: about 0.45 d (common practice, no standard).
    pitchMm: pitchMm ?? (isThreadForming ? Number((0.45 * diameterMm).toFixed(2)) : (coarsePitchMm(diameterMm) ?? 0)),
    lengthMm,
    propertyClass: tail.propertyClass ?? usualClass,
    isClassAssumed: tail.propertyClass === undefined || tail.isClassAssumed,
  }
  return { fastener: { ...bare, designation: printDesignation(bare) }, note }
}
