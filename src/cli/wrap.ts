/** Lines for a terminal of 80 columns. */

const width = 80

/**
 * Breaks a text at blanks so that no line is wider than 80 columns; `first` stands before the first line, its width in blanks
 * before the others. A single word that is too long stays whole.
 */
export function wrapText(first: string, text: string): string {
  const indent = " ".repeat(first.length)
  const lines: string[] = []
  let line = first
  let isEmpty = true
  for (const word of text.split(" ").filter((one) => one !== "")) {
    const joined = isEmpty ? line + word : `${line} ${word}`
    if (joined.length > width && !isEmpty) {
      lines.push(line)
      line = indent + word
    } else line = joined
    isEmpty = false
  }
  lines.push(line)
  return lines.join("\n")
}
