/** Collecting findings while a file is read. */
import { finding } from "../findings/order.ts"
import type { Finding, Report, Severity } from "../findings/types.ts"
import type { Span } from "./read/tree.ts"

/** Takes one finding; everything that reads a spec is handed one. */
export type Tell = (one: Finding) => void

type Fault = Omit<Report, "where" | "related"> & {
  readonly at: Span
  readonly path?: readonly string[]
  readonly related?: readonly { readonly message: string; readonly at: Span }[]
}

/** Makes a finding from a span of a file. */
export function fault(id: string, severity: Severity, { at, path = [], related = [], ...words }: Fault): Finding {
  return finding(id, severity, {
    ...words,
    message: shorten(words.message),
    where: { ...at, path },
    related: related.map((one) => ({ message: one.message, where: { ...one.at, path: [] } })),
  })
}

/** Keeps what the maker typed short enough to be quoted in one line. */
export function quote(text: string, most = 32): string {
  const line = text.replace(/\s+/g, " ").replaceAll("`", "'").trim()
  return line.length > most ? `\`${line.slice(0, most - 1)}…\`` : `\`${line}\``
}

/** `a, b or c`, each in backticks. */
export function oneOfWords(words: readonly string[]): string {
  const quoted = words.map((word) => `\`${word}\``)
  return quoted.length < 2 ? quoted.join("") : `${quoted.slice(0, -1).join(", ")} or ${quoted.at(-1)}`
}

/** A message stays within 100 characters; what is cut is told in full by `why` and the place. */
function shorten(message: string): string {
  return message.length <= 100 ? message : `${message.slice(0, 99)}…`
}
