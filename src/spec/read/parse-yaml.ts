/** YAML text to a raw tree in which every key and value knows where it stands. */
import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  parseDocument,
  Scalar as YamlScalar,
} from "yaml"
import { fault, quote, type Tell } from "../tell.ts"
import { findStretches, type LinePosition, type ScalarSource } from "./stretches.ts"
import { wordSyntaxFault } from "./syntax-words.ts"
import { type Entry, hole, type Scalar, type Span, type Tree, type TreeMap } from "./tree.ts"

/** A spec typed by hand has some hundred values; more than this comes from aliases that stand for one another. */
const mostValues = 50_000
const mostLevels = 40

export type Parsed = {
  readonly tree: TreeMap
  /** First line of the block in which the YAML itself is broken; what follows is not to be trusted. */
  readonly brokenFromLine: number | undefined
}

/** Gives the tree of a file; an empty file is an empty map. Syntax faults are told in our own words, with their place. */
export function parseYaml(file: string, text: string, tell: Tell): Parsed {
  const lines = text.split("\n")
  const whole: Span = { file, line: 1, column: 1, endLine: lines.length, endColumn: (lines.at(-1) ?? "").length + 1 }
  const nothing: TreeMap = { kind: "map", entries: [], span: whole, isShort: false }
  const parsed = compose(text)
  if (parsed === undefined) {
    tell(
      fault("nested-too-deep", "error", {
        message: `\`${file}\` nests too deep to be read`,
        at: whole,
        fix: "a spec needs about ten levels",
      }),
    )
    return { tree: nothing, brokenFromLine: 1 }
  }
  const { document, source, hadTabs, counter } = parsed
  const positionOf: LinePosition = (offset) => {
    const { line, col } = counter.linePos(offset)
    return { line: Math.max(1, line), column: Math.max(1, col) }
  }
  const spanOf = (start: number, end: number): Span => {
    const { line, column } = positionOf(start)
    const last = positionOf(Math.max(start, end))
    return { file, line, column, endLine: last.line, endColumn: last.column }
  }
  if (hadTabs) tellTabs(file, text, tell)
  const first = document.errors[0]
  if (first !== undefined) {
    const words = wordSyntaxFault(first.code, source, first.pos[0])
    tell(fault("yaml-syntax", "error", { ...words, at: spanOf(words.from, Math.max(words.from + 1, words.to)) }))
  }
  for (const warning of first === undefined ? document.warnings.slice(0, 1) : []) {
    const message = "a word that begins with `!` is a tag of YAML and was passed over"
    tell(
      fault("tag-passed-over", "warning", {
        message,
        at: spanOf(...warning.pos),
        fix: "put the text in quotes, or take the tag out",
      }),
    )
  }
  const brokenFromLine = first === undefined ? undefined : topLevelLine(lines, positionOf(first.pos[0]).line)
  if (document.contents === null) return { tree: nothing, brokenFromLine }
  const tree = convert(document, {
    file,
    text: source,
    tell: first === undefined ? tell : () => {},
    positionOf,
    spanOf,
  })
  if (tree.kind === "map") return { tree, brokenFromLine }
  if (first === undefined && !(tree.kind === "scalar" && tree.isEmpty) && tree.kind !== "hole") {
    const message = `\`${file}\` holds ${tree.kind === "list" ? "a list" : "a text"}; a spec is made of \`key: value\` lines`
    tell(fault("not-a-map", "error", { message, at: tree.span, fix: "begin with a line such as `kit: my-kit`" }))
  }
  return { tree: nothing, brokenFromLine: brokenFromLine ?? (tree.kind === "scalar" && tree.isEmpty ? undefined : 1) }
}

/** A file as the package reads it, before it is made a tree. `source` is what was read: tabs in it may have become blanks. */
export type Composed = {
  readonly document: Document
  readonly source: string
  readonly hadTabs: boolean
  readonly counter: LineCounter
}

/**
 * Reads the text; when tabs stand in the indentation, each is taken as one space, which keeps every column.
 * Undefined when it nests too deep to be read.
 */
export function compose(text: string): Composed | undefined {
  const read = (source: string): Composed => {
    const counter = new LineCounter()
    const options = {
      keepSourceTokens: true,
      uniqueKeys: false,
      prettyErrors: false,
      logLevel: "error",
      lineCounter: counter,
    } as const
    return { document: parseDocument(source, options), source, hadTabs: false, counter }
  }
  try {
    const composed = read(text)
    if (composed.document.errors.length === 0 || !/^[ ]*\t/m.test(text)) return composed
    const spaced = text.replace(/^[ \t]+/gm, (indent) => indent.replaceAll("\t", " "))
    return { ...read(spaced), hadTabs: true }
  } catch (thrown) {
    // The package recurses over nested lists; a stack that runs out is the one thing it throws.
    if (thrown instanceof RangeError) return undefined
    throw thrown
  }
}

function tellTabs(file: string, text: string, tell: Tell): void {
  const lines = text.split("\n")
  const index = lines.findIndex((line) => /^[ ]*\t/.test(line) && line.trim() !== "")
  const indent = /^[ \t]*/.exec(lines[index] ?? "")?.[0] ?? ""
  const isMixed =
    lines.some((line) => /^[ ]+\S/.test(line) && !/^[ ]+#/.test(line)) ||
    lines.some((line) => /^\t+[ ]|^[ ]+\t/.test(line))
  const at = { file, line: index + 1, column: 1, endLine: index + 1, endColumn: indent.length + 1 }
  const message = isMixed
    ? "tabs and spaces are mixed in the indentation"
    : "the indentation is made of tabs; YAML knows spaces only"
  tell(fault("tab-in-indentation", isMixed ? "error" : "note", { message, at, fix: "indent with two spaces" }))
}

/** The line of the outermost key that holds `line`. */
function topLevelLine(lines: readonly string[], line: number): number {
  for (let index = Math.min(line, lines.length) - 1; index > 0; index -= 1) {
    if (/^[^\s#\]})-]/.test(lines[index] ?? "") && index < line - 1) return index + 1
  }
  return 1
}

type Reader = {
  readonly file: string
  readonly text: string
  readonly tell: Tell
  readonly positionOf: LinePosition
  readonly spanOf: (start: number, end: number) => Span
}

function convert(document: Document, { text, tell, positionOf, spanOf }: Reader): Tree {
  let count = 0
  let hasTooMany = false
  const open = new Set<Node>()

  const walk = (node: Node | null | undefined, fallbackAt: number, level: number): Tree => {
    const [start = fallbackAt, valueEnd = fallbackAt] = node?.range ?? []
    const span = spanOf(start, trimmedEnd(text, start, valueEnd))
    count += 1
    if (count > mostValues || level > mostLevels) {
      if (!hasTooMany) {
        const message =
          count > mostValues
            ? `the file stands for more than ${mostValues} values`
            : `values nest deeper than ${mostLevels} levels`
        tell(
          fault(count > mostValues ? "too-many-values" : "nested-too-deep", "error", {
            message,
            at: span,
            fix: "write the values out instead of repeating them with `*`",
          }),
        )
      }
      hasTooMany = true
      return hole(span)
    }
    if (node === null || node === undefined)
      return { kind: "scalar", value: null, written: "", isEmpty: true, stretches: [], span }
    if (isAlias(node)) return walkAlias(node, span, level)
    if (isMap(node)) return walkMap(node, span, level)
    if (isSeq(node))
      return { kind: "list", items: node.items.map((item) => walk(asNode(item), start, level + 1)), span }
    return isScalar(node) ? readScalar(node, span) : hole(span)
  }

  const walkAlias = (node: Node & { source: string }, span: Span, level: number): Tree => {
    const target = document.contents === null ? undefined : resolveAlias(document, node)
    if (target === undefined || open.has(target)) {
      const message =
        target === undefined
          ? `\`*${node.source}\` stands for nothing; no \`&${node.source}\` comes before it`
          : `\`*${node.source}\` stands for something that holds itself`
      tell(fault("alias-without-anchor", "error", { message, at: span, fix: "write the value out" }))
      return hole(span)
    }
    open.add(target)
    const tree = walk(target, 0, level + 1)
    open.delete(target)
    return tree
  }

  const walkMap = (
    node: Node & { items: readonly { key: unknown; value: unknown }[] },
    span: Span,
    level: number,
  ): Tree => {
    open.add(node)
    const entries: Entry[] = []
    for (const pair of node.items) {
      const keyNode = asNode(pair.key)
      const [keyStart = 0, keyEnd = 0] = keyNode?.range ?? []
      const keySpan = spanOf(keyStart, keyEnd)
      if (!isScalar(keyNode)) {
        tell(
          fault("unreadable-key", "error", {
            message: "a key is a single word; here stands a list or map",
            at: keySpan,
            fix: "put the text in quotes",
          }),
        )
        continue
      }
      const key = typeof keyNode.value === "string" ? keyNode.value : (keyNode.source ?? "")
      const value = walk(asNode(pair.value), keyEnd, level + 1)
      if (key === "<<" && (value.kind === "map" || value.kind === "list")) {
        const sources = value.kind === "map" ? [value] : value.items
        for (const source of sources) {
          if (source.kind !== "map") continue
          entries.push(...source.entries.filter((entry) => !entries.some((known) => known.key === entry.key)))
        }
        continue
      }
      const earlier = entries.find((entry) => entry.key === key)
      if (earlier !== undefined) {
        tell(
          fault("duplicate-key", "error", {
            message: `${quote(key)} is written twice in one place; only the first counts`,
            at: keySpan,
            fix: `rename one \`${key}\` or join both`,
            related: [{ message: "written first here", at: earlier.keySpan }],
          }),
        )
        continue
      }
      entries.push({ key, keySpan, value, isNew: false })
    }
    open.delete(node)
    return { kind: "map", entries, span, isShort: false }
  }

  const readScalar = (node: YamlScalar, span: Span): Scalar => {
    const [start = 0, end = 0] = node.range ?? []
    const raw = node.value
    const written = node.source ?? ""
    const value =
      typeof raw === "string" || typeof raw === "boolean" || raw === null
        ? raw
        : typeof raw === "number"
          ? raw
          : String(raw)
    const indent = node.srcToken !== undefined && "indent" in node.srcToken ? node.srcToken.indent : 0
    const decoded = typeof value === "string" ? value : written
    const source: ScalarSource = {
      style: styleOf(node.type),
      text,
      start,
      end,
      value: decoded,
      parentIndent: Math.max(0, indent),
    }
    const stretches = findStretches(source, positionOf)
    return { kind: "scalar", value, written: decoded, isEmpty: value === null && written === "", stretches, span }
  }

  return walk(asNode(document.contents), 0, 0)
}

/** Types of the package say `unknown` for what stands in a collection; after parsing it is always a node or null. */
function asNode(value: unknown): Node | null {
  return value as Node | null
}

function resolveAlias(document: Document, alias: Node): Node | undefined {
  return isAlias(alias) ? (alias.resolve(document) ?? undefined) : undefined
}

function styleOf(type: string | undefined): ScalarSource["style"] {
  switch (type) {
    case YamlScalar.QUOTE_DOUBLE:
      return "double"
    case YamlScalar.QUOTE_SINGLE:
      return "single"
    case YamlScalar.BLOCK_LITERAL:
      return "literal"
    case YamlScalar.BLOCK_FOLDED:
      return "folded"
    default:
      return "plain"
  }
}

/** A block's range runs to the next key; its place ends with its last letter. */
function trimmedEnd(text: string, start: number, end: number): number {
  return start + text.slice(start, end).trimEnd().length
}
