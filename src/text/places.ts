/** Places of stretches of a text in the file it was written in. */
import type { Place } from "../findings/types.ts"
import type { SourceText } from "./types.ts"

/**
 * Gives the place of the letters from `start` to `end` (offsets in `source.text`, end exclusive).
 * The end is where the last letter ends, so a span never runs into the indentation of the line that follows.
 */
export function placeOfSpan(source: SourceText, start: number, end: number): Place {
  const first = positionOf(source, start)
  const last = end > start ? positionOf(source, end - 1) : { line: first.line, column: first.column - 1 }
  return {
    file: source.where.file,
    path: source.where.path,
    line: first.line,
    column: first.column,
    endLine: last.line,
    endColumn: last.column + 1,
  }
}

/** Line and column of one letter. */
function positionOf(source: SourceText, offset: number): { readonly line: number; readonly column: number } {
  const stretch = source.stretches.findLast((one) => one.at <= offset)
  if (stretch === undefined) return { line: source.where.line, column: source.where.column }
  return { line: stretch.line, column: stretch.column + offset - stretch.at }
}
