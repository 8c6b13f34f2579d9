/** Makes the names of table cells in a PDF depend on its content alone: the browser counts them through its whole life. */

/** Table headings bear such names, so that cells can say which headings they belong to. */
const form = /\(node(\d{8})\)/g

/**
 * Renumbers the names `node00000068` from 1 on, in place and of equal length. Their order stays, since the tree that
 * finds them by name is sorted.
 */
export function renumberStructureIds(pdf: Uint8Array): Uint8Array {
  const bytes = Buffer.from(pdf)
  // Latin-1 keeps one character per byte, so positions in the text are positions in the file.
  const matches = [...bytes.toString("latin1").matchAll(form)]
  const names = [...new Set(matches.map(([, digits = ""]) => digits))].sort()
  const numbers = new Map(names.map((digits, index) => [digits, String(index + 1).padStart(8, "0")]))
  for (const match of matches) {
    const digits = match[1] ?? ""
    bytes.write(numbers.get(digits) ?? digits, match.index + "(node".length, "latin1")
  }
  return new Uint8Array(bytes)
}
