/** Texts for the tests of `text`. */
import type { SourceText } from "../../src/text/types.ts"

/** A text that begins at line 10, column 7 of a file, and goes on at column 7 of each line, as in a block. */
export function blockOf(text: string): SourceText {
  const stretches: { at: number; line: number; column: number }[] = []
  let at = 0
  text.split("\n").forEach((line, index) => {
    stretches.push({ at, line: 10 + index, column: 7 })
    at += line.length + 1
  })
  const lines = text.split("\n")
  const where = {
    file: "kit.yaml",
    path: ["steps", "x", "text"],
    line: 10,
    column: 7,
    endLine: 9 + lines.length,
    endColumn: 7 + (lines.at(-1) ?? "").length,
  }
  return { text, where, stretches }
}

/** The letters at a place of a text made by `blockOf`. */
export function lettersAt(
  source: SourceText,
  place: { readonly line: number; readonly column: number; readonly endLine: number; readonly endColumn: number },
): string {
  const lines = source.text.split("\n").slice(place.line - 10, place.endLine - 9)
  const last = lines.length - 1
  return lines
    .map((line, index) =>
      line.slice(index === 0 ? place.column - 7 : 0, index === last ? place.endColumn - 7 : undefined),
    )
    .join("\n")
}
