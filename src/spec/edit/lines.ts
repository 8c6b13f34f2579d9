/** A text as lines that keep their ends, so that moving lines changes no other byte. */

export type Line = { readonly text: string; readonly end: string }

/** The text of a file: its byte order mark, if any, and its lines. The last line has no end; it may be empty. */
export type Lines = { readonly mark: string; readonly lines: readonly Line[] }

/** Splits a text at CR LF, LF or CR, each of which ends a line. `joinLines` gives it back as it was. */
export function splitLines(text: string): Lines {
  const mark = text.startsWith("\ufeff") ? "\ufeff" : ""
  const pieces = text.slice(mark.length).split(/(\r\n|\r|\n)/)
  const lines: Line[] = []
  for (let index = 0; index < pieces.length; index += 2) {
    lines.push({ text: pieces[index] ?? "", end: pieces[index + 1] ?? "" })
  }
  return { mark, lines }
}

/** Joins lines to a text. When the line without an end is no longer the last, it takes the end of the one that is. */
export function joinLines({ mark, lines }: Lines): string {
  const bare = lines.findIndex(({ end }) => end === "")
  const last = lines.at(-1)
  const body = lines.map(({ text, end }, index) => {
    if (index === lines.length - 1) return text
    return `${text}${index === bare ? (last?.end ?? "") : end}`
  })
  return mark + body.join("")
}

/** The lines with line feeds only and without the mark, as a parser of YAML wants them; lines and columns stay. */
export function plainText({ lines }: Lines): string {
  return lines.map(({ text }) => text).join("\n")
}
