/** Faults of the YAML itself in our own words. */

export type SyntaxWords = {
  readonly message: string
  readonly why?: string
  readonly fix: string
  readonly from: number
  readonly to: number
}

/** Words a syntax fault from the package's code and the letters around its offset. */
export function wordSyntaxFault(code: string, text: string, offset: number): SyntaxWords {
  const at = Math.min(offset, Math.max(0, text.length - 1))
  const here = { from: offset, to: offset + 1 }
  const lineStart = text.lastIndexOf("\n", at - 1) + 1
  const line = text.slice(lineStart, text.indexOf("\n", lineStart) === -1 ? text.length : text.indexOf("\n", lineStart))
  const span = { from: lineStart + (line.length - line.trimStart().length), to: lineStart + line.trimEnd().length }
  const below = deeperLineBelow(text, lineStart, line)
  const inText = bracketInText(text, offset)
  if (inText !== undefined) return inText
  switch (code) {
    case "TAB_AS_INDENT":
      return {
        message: "a tab stands in the indentation; YAML knows spaces only",
        fix: "indent with two spaces",
        ...here,
      }
    case "BAD_SCALAR_START":
      return { message: `a text cannot begin with \`${text[at]}\``, fix: "put the text in quotes", ...here }
    case "BAD_DQ_ESCAPE":
      return {
        message: "a backslash in double quotes begins an escape that is not known",
        fix: "use single quotes, or write `\\\\`",
        ...here,
      }
    case "BLOCK_AS_IMPLICIT_KEY":
    case "MULTILINE_IMPLICIT_KEY":
      if (/:.*:/.test(line)) {
        const why = "a colon followed by a space begins a new value"
        return {
          message: "two `key: value` stand on one line",
          why,
          fix: "put a text that holds a colon in quotes, or write `{ }` round a map",
          ...span,
        }
      }
      if (below !== undefined) {
        const message = "the line is indented as if it belonged to the value above it"
        return { message, fix: "line it up with the key above, or take the value above away", ...below }
      }
      return {
        message: "the line is no `key: value`",
        why: "the colon needs a space behind it",
        fix: "write `key: value`",
        ...span,
      }
    case "MISSING_CHAR":
      if (/quote/.test(code) || isOpenQuote(text, offset)) return openQuote(text, offset)
      return { message: "the line is no `key: value`", fix: "write a colon and a space behind the key", ...span }
    case "BAD_INDENT":
      return (
        openBracket(text, offset) ?? {
          message: "the line is indented unlike its neighbours",
          why: "lines of one map or list begin at the same column; what belongs to a key is indented further",
          fix: "line it up with the lines it belongs to",
          ...span,
        }
      )
    case "MULTIPLE_ANCHORS":
    case "MULTIPLE_TAGS":
    case "BAD_ALIAS":
      return {
        message: "`&`, `*` and `!` stand for anchors, aliases and tags here",
        fix: "put the text in quotes",
        ...here,
      }
    case "MULTIPLE_DOCS":
      return {
        message: "a second document begins here; a file holds one",
        fix: "put each variant into its own file",
        ...here,
      }
    case "BAD_DIRECTIVE":
      return {
        message: "a line that begins with `%` is a directive, which a spec does not need",
        fix: "take it out",
        ...span,
      }
    default:
      return (
        openBracket(text, offset) ?? {
          message: "the text from here on does not fit what stands before it",
          why: "YAML takes one value behind a key: a text, a `[list]`, a `{map}` or an indented block",
          fix: "put a text with brackets, colons or quotes into quotes",
          ...here,
        }
      )
  }
}

/** The next line, when it is indented deeper than this one, which has a value already. */
function deeperLineBelow(
  text: string,
  lineStart: number,
  line: string,
): { readonly from: number; readonly to: number } | undefined {
  const start = lineStart + line.length + 1
  const next = text.slice(start).split("\n", 1)[0] ?? ""
  const indentOf = (one: string): number => one.length - one.trimStart().length
  if (!/:\s+\S/.test(line) || next.trim() === "" || indentOf(next) <= indentOf(line)) return undefined
  return { from: start + indentOf(next), to: start + next.trimEnd().length }
}

/** A bracket behind words, as in `{ holes: 2.4 in [a, b] }`, ends the text that it was meant to be part of. */
function bracketInText(text: string, offset: number): SyntaxWords | undefined {
  const from = [offset, offset - 1].find((index) => /[[{]/.test(text[index] ?? ""))
  const lineStart = text.lastIndexOf("\n", offset - 1) + 1
  if (from === undefined || !/[\w)\]}"'] +$/.test(text.slice(lineStart, from))) return undefined
  const message = `\`${text[from]}\` stands in the middle of a text, where it begins a list or map`
  return { message, fix: "put the text in quotes, or write it without brackets", from, to: from + 1 }
}

function isOpenQuote(text: string, offset: number): boolean {
  return lastOpenQuote(text, offset) !== undefined
}

/** The last value before `offset` that begins with a quote mark which nothing closes. */
function lastOpenQuote(text: string, offset: number): { readonly at: number; readonly mark: string } | undefined {
  const before = text.slice(0, offset)
  const found = [...before.matchAll(/(?:[:\-[{,]\s+|[[{]|^)(["'])/gm)].at(-1)
  if (found === undefined) return undefined
  const mark = found[1] ?? ""
  const at = found.index + found[0].length - 1
  return before.indexOf(mark, at + 1) === -1 ? { at, mark } : undefined
}

function openQuote(text: string, offset: number): SyntaxWords {
  const open = lastOpenQuote(text, offset)
  const from = open?.at ?? offset
  return {
    message: "a quote mark opens here and is never closed",
    fix: `write ${open?.mark === "'" ? "`'`" : '`"`'} at the end of the text`,
    from,
    to: from + 1,
  }
}

/** The innermost `[` or `{` before `offset` that is not closed, unless letters in quotes mislead. */
function openBracket(text: string, offset: number): SyntaxWords | undefined {
  const stack: number[] = []
  const plain = text
    .slice(0, offset)
    .replace(/"(?:\\.|[^"\\\n])*"|'[^'\n]*'/g, (quoted) => " ".repeat(quoted.length))
    .replace(/(?<=^|\s)#.*/gm, (comment) => " ".repeat(comment.length))
  for (let index = 0; index < plain.length; index += 1) {
    if (plain[index] === "[" || plain[index] === "{") stack.push(index)
    if (plain[index] === "]" || plain[index] === "}") stack.pop()
  }
  const from = stack.at(-1)
  if (from === undefined) return undefined
  const close = plain[from] === "[" ? "]" : "}"
  return {
    message: `\`${plain[from]}\` opens here and is never closed`,
    fix: `write \`${close}\` where it ends`,
    from,
    to: from + 1,
  }
}
