/** Fasteners of a spec, each designation read once, each that cannot be read reported once. */
import { type ReadDesignation, readDesignation } from "../fasteners/designation.ts"
import { coarsePitchMm } from "../fasteners/tables/iso-261.ts"
import type { Fastener } from "../fasteners/types.ts"
import { quote } from "../spec/tell.ts"
import type { FastenerText } from "../spec/types.ts"
import { called, type Desk, placeOf, report } from "./desk.ts"

export type Designations = {
  /** What was read, by the text as written. */
  readonly read: Map<string, ReadDesignation>
  /** Paths of texts about which something was reported. */
  readonly reported: Set<string>
}

/** Reads a designation; one that cannot be read gives undefined and a finding at its place. */
export function readFastener(
  desk: Desk & { readonly designations: Designations },
  text: FastenerText,
  wanted: Fastener["kind"],
): Fastener | undefined {
  const { read, reported } = desk.designations
  const result = read.get(text.written) ?? readAs(text.written, wanted)
  read.set(text.written, result)
  const isFirst = !reported.has(text.path)
  reported.add(text.path)
  const where = placeOf(desk, text.path)
  if ("problem" in result) {
    const { message, fix } = result.problem
    if (isFirst) {
      report(desk, "unreadable-designation", "error", { message, where, ...(fix === undefined ? {} : { fix }) })
    }
    return undefined
  }
  const { fastener, note } = result
  if (fastener.kind !== wanted) {
    if (isFirst) {
      report(desk, "wrong-kind-of-fastener", "error", {
        message: `${called(text.path.replace(/\/of$/, ""))} names a ${fastener.kind}, ${quote(text.written)}; a ${wanted} belongs here`,
        where,
      })
    }
    return undefined
  }
  if (note !== undefined && isFirst) {
    report(desk, "designation-completed", "note", { message: `${quote(text.written)}: ${note}`, where })
  }
  return fastener
}

/** `M4` or `M4x0.5` with its pitch; undefined when it is no metric thread or its pitch is not known. */
export function readThread(text: string): { readonly diameterMm: number; readonly pitchMm: number } | undefined {
  const match = /^\s*M\s*(\d+(?:[.,]\d+)?)(?:\s*[x×*]\s*(\d+(?:[.,]\d+)?))?\s*$/i.exec(text)
  if (match === null) return undefined
  const diameterMm = Number(match[1]?.replace(",", "."))
  const pitchMm = match[2] === undefined ? coarsePitchMm(diameterMm) : Number(match[2].replace(",", "."))
  return pitchMm === undefined ? undefined : { diameterMm, pitchMm }
}

/** An insert may be written without its word, where the key says it: `insert: M3 x 5.7`. */
function readAs(written: string, wanted: Fastener["kind"]): ReadDesignation {
  const plain = readDesignation(written)
  if (wanted !== "insert" || !("problem" in plain)) return plain
  const named = readDesignation(`insert ${written}`)
  return "problem" in named ? plain : named
}
