/** Where each letter of a YAML scalar came from: block, folded, plain and quoted, with escapes and folded lines. */
import type { SourceText } from "../../text/types.ts"

/** One letter (or escape) of the decoded value and the offset in the file it was written at. */
type Letter = { readonly letters: string; readonly from: number }

export type LinePosition = (offset: number) => { readonly line: number; readonly column: number }

export type ScalarSource = {
  readonly style: "plain" | "single" | "double" | "literal" | "folded"
  /** The file's text with line feeds only. */
  readonly text: string
  readonly start: number
  readonly end: number
  readonly value: string
  /** Column that a typed indent of a block (`|2`) counts from. */
  readonly parentIndent: number
}

/**
 * Gives the stretches of a decoded scalar. Should our reading of the source ever differ from the decoded value, the whole
 * value gets the one place of its start, which is coarse but never wrong by a line of somebody else's text.
 */
export function findStretches(source: ScalarSource, positionOf: LinePosition): SourceText["stretches"] {
  const isBlock = source.style === "literal" || source.style === "folded"
  const letters = isBlock ? lettersOfBlock(source) : lettersOfFlow(source)
  const joined = letters?.map((letter) => letter.letters).join("")
  if (letters === undefined || joined !== source.value) return [{ at: 0, ...positionOf(source.start) }]
  return joinLetters(letters, positionOf)
}

/** Joins letters that run on one source line into stretches. */
function joinLetters(letters: readonly Letter[], positionOf: LinePosition): SourceText["stretches"] {
  const stretches: { at: number; line: number; column: number }[] = []
  let at = 0
  let expected = -1
  let line = 0
  for (const { letters: text, from } of letters) {
    const position = positionOf(from)
    if (from !== expected || position.line !== line) stretches.push({ at, ...position })
    at += text.length
    expected = from + text.length
    line = position.line
  }
  return stretches
}

/**
 * Block scalars hold the letters of their lines in order; only white space between lines changes.
 * So each line's text is sought from where the one before ended, passing over white space alone.
 */
function lettersOfBlock({ text, start, end, value, parentIndent }: ScalarSource): readonly Letter[] | undefined {
  const letters: Letter[] = []
  const bodyStart = text.indexOf("\n", start) + 1
  if (bodyStart === 0) return value === "" ? [] : undefined
  const indent = indentOfBlock(text.slice(start, bodyStart), text.slice(bodyStart, end), parentIndent)
  let reached = 0
  let lineStart = bodyStart
  while (lineStart < end) {
    const newline = text.indexOf("\n", lineStart)
    const lineEnd = newline === -1 ? end : Math.min(newline, end)
    const contentStart = Math.min(lineStart + indent, lineEnd)
    const content = text.slice(contentStart, lineEnd)
    if (content.trim() !== "") {
      const found = seek(value, content, reached)
      if (found === undefined) return undefined
      // White space made of line ends belongs to the end of the line before.
      for (let index = reached; index < found; index += 1)
        letters.push({ letters: value[index] ?? "", from: lineStart - 1 })
      for (let index = 0; index < content.length; index += 1) {
        letters.push({ letters: content[index] ?? "", from: contentStart + index })
      }
      reached = found + content.length
    }
    lineStart = lineEnd + 1
  }
  for (let index = reached; index < value.length; index += 1)
    letters.push({ letters: value[index] ?? "", from: Math.max(start, end - 1) })
  return letters
}

function seek(value: string, content: string, from: number): number | undefined {
  for (let index = from; index <= value.length - content.length; index += 1) {
    if (value.startsWith(content, index)) return index
    if (!/\s/.test(value[index] ?? "")) return undefined
  }
  return undefined
}

/** Columns to take off each line: typed in the header (counted from the parent's column) or that of the first line. */
function indentOfBlock(header: string, body: string, parentIndent: number): number {
  const typed = /^[|>][+-]?([1-9])/.exec(header)?.[1]
  if (typed !== undefined) return parentIndent + Number(typed)
  const first = body.split("\n").find((line) => line.trim() !== "") ?? ""
  return first.length - first.trimStart().length
}

const namedEscapes: Readonly<Record<string, string>> = {
  "0": "\0",
  a: "\x07",
  b: "\b",
  e: "\x1b",
  f: "\f",
  n: "\n",
  r: "\r",
  t: "\t",
  "\t": "\t",
  v: "\v",
  N: "\u0085",
  _: "\u00a0",
  L: "\u2028",
  P: "\u2029",
  " ": " ",
  '"': '"',
  "/": "/",
  "\\": "\\",
}

/** Plain and quoted scalars: line ends fold into a space or fewer line ends, quotes and escapes become letters. */
function lettersOfFlow({ style, text, start, end }: ScalarSource): readonly Letter[] | undefined {
  const letters: Letter[] = []
  const isPlain = style === "plain"
  let index = isPlain ? start : start + 1
  const stop = isPlain ? end : end - 1
  while (index < stop) {
    const letter = text[index] ?? ""
    if (letter === "\\" && style === "double") {
      const next = text[index + 1] ?? ""
      if (next === "\n") {
        index = pastBlanks(text, index + 2, stop)
        // Empty lines after an escaped line end stay line ends.
        while (text[index] === "\n" && index < stop) {
          letters.push({ letters: "\n", from: index })
          index = pastBlanks(text, index + 1, stop)
        }
        continue
      }
      const length = next === "x" ? 2 : next === "u" ? 4 : next === "U" ? 8 : 0
      const code = Number.parseInt(text.slice(index + 2, index + 2 + length), 16)
      const decoded = length > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : namedEscapes[next]
      if (decoded === undefined) return undefined
      letters.push({ letters: decoded, from: index })
      index += 2 + length
    } else if (letter === "'" && style === "single") {
      letters.push({ letters: "'", from: index })
      index += 2
    } else if (letter === "\n" || ((letter === " " || letter === "\t") && runsToLineEnd(text, index, stop))) {
      index = foldLines(text, index, stop, letters)
    } else {
      letters.push({ letters: letter, from: index })
      index += 1
    }
  }
  return letters
}

/** Blanks before a line end and before the next line's text vanish; one line end is a space, n are n - 1 line ends. */
function foldLines(text: string, from: number, stop: number, letters: Letter[]): number {
  let index = from
  const ends: number[] = []
  while (index < stop && /[ \t\n]/.test(text[index] ?? "")) {
    if (text[index] === "\n") ends.push(index)
    index += 1
  }
  const [first = from, ...others] = ends
  if (others.length === 0) letters.push({ letters: " ", from: first })
  for (const end of others) letters.push({ letters: "\n", from: end })
  return index
}

function runsToLineEnd(text: string, from: number, stop: number): boolean {
  const after = pastBlanks(text, from, stop)
  return after < stop && text[after] === "\n"
}

function pastBlanks(text: string, from: number, stop: number): number {
  let index = from
  while (index < stop && (text[index] === " " || text[index] === "\t")) index += 1
  return index
}
