/** The maker's Markdown to a tree with references, numbers and places; what a document may not hold is told and left out. */
import type { Link, Nodes, PhrasingContent, Root, RootContent } from "mdast"
import remarkParse from "remark-parse"
import { unified } from "unified"
import { finding } from "../findings/order.ts"
import type { Finding, Outcome, Place, Report } from "../findings/types.ts"
import { findNumbers } from "./numbers.ts"
import { placeOfSpan } from "./places.ts"
import { readAddress, referenceKinds } from "./references.ts"
import type { MakerText, SourceText, TextNumber, TextReference } from "./types.ts"

/** A step's text has some hundred letters; this is a small book. */
const mostLetters = 50_000
/** Levels of quotes, lists and emphasis that a reader can follow are fewer than five. */
const mostLevels = 30

type Reading = {
  readonly source: SourceText
  /** Addresses of links by reference: `[x]: part:plate`. */
  readonly addresses: ReadonlyMap<string, string>
  readonly references: TextReference[]
  readonly numbers: TextNumber[]
  readonly findings: Finding[]
}

/**
 * Gives the tree of a text (CommonMark). Links such as `[](torque:hood)` become references and stay in the tree as links.
 * Raw HTML, pictures and links that could run code or read files are told and taken out. A text that is too long or nests
 * too deep is told and kept as one plain paragraph.
 */
export function parseText(source: SourceText): Outcome<MakerText> {
  const collected = { references: [], numbers: [], findings: [] }
  const root = readTree(source, { source, addresses: new Map(), ...collected })
  const reading: Reading = { source, addresses: new Map([...addressesIn(root)].reverse()), ...collected }
  const kept: Root = { ...root, children: keepSafe(root.children, reading, 0) }
  const value: MakerText = { source, root: kept, references: reading.references, numbers: reading.numbers }
  return { value, findings: reading.findings }
}

function readTree(source: SourceText, reading: Reading): Root {
  const { text } = source
  if (text.length > mostLetters) {
    tell(reading, "text-too-long", {
      message: `the text has ${text.length} letters; at most ${mostLetters} are read`,
      where: source.where,
      fix: "split it into steps",
    })
    return plain(text.slice(0, mostLetters))
  }
  if (nestsTooDeep(text)) return tooDeep(reading)
  try {
    const root = unified().use(remarkParse).parse(text)
    return depthOf(root) > mostLevels ? tooDeep(reading) : root
  } catch (thrown) {
    // The parser recurses; a stack that runs out is the one thing it throws.
    if (thrown instanceof RangeError) return tooDeep(reading)
    throw thrown
  }
}

function tooDeep(reading: Reading): Root {
  const { source } = reading
  tell(reading, "text-too-deep", {
    message: `the text nests lists, quotes or emphasis deeper than ${mostLevels} levels`,
    where: source.where,
    fix: "write plain paragraphs",
  })
  return plain(source.text.slice(0, 2000))
}

function plain(text: string): Root {
  return { type: "root", children: [{ type: "paragraph", children: [{ type: "text", value: text }] }] }
}

/** A cheap look before parsing: marks at the head of a line, and brackets or stars in a row. */
function nestsTooDeep(text: string): boolean {
  const heads = text
    .split("\n")
    .some(
      (line) =>
        (/^[\s>*+-]*/.exec(line)?.[0].replace(/\s/g, "").length ?? 0) > mostLevels &&
        !/^\s*([*-])\s*(\1\s*)+$/.test(line),
    )
  return heads || /(?:[[(]\s*){60}|(?:!\[){30}/.test(text)
}

/** Depth without recursion, so that no tree can exhaust the stack. */
function depthOf(root: Root): number {
  let level: readonly Nodes[] = [root]
  let depth = 0
  while (level.length > 0 && depth <= mostLevels + 1) {
    depth += 1
    level = level.flatMap((node): readonly Nodes[] => ("children" in node ? node.children : []))
  }
  return depth
}

function tell(reading: Reading, id: string, report: Report): void {
  reading.findings.push(finding(id, "error", report))
}

/** Definitions of links by reference; the first of a name counts (CommonMark 0.31, section 4.7). */
function addressesIn(node: Nodes): readonly (readonly [string, string])[] {
  if (node.type === "definition") return [[node.identifier, node.url]]
  return "children" in node ? node.children.flatMap(addressesIn) : []
}

/** Walks the tree, collects references and numbers, and takes out what may not stand in a document. */
function keepSafe<Node extends RootContent>(nodes: readonly Node[], reading: Reading, level: number): Node[] {
  return nodes.flatMap((node): Node[] => {
    const where = placeOf(node, reading)
    switch (node.type) {
      case "html":
        if (/^\s*<!--[\s\S]*-->\s*$/.test(node.value)) return []
        tell(reading, "html-in-text", {
          message: `the text holds raw HTML: \`${shown(node.value)}\``,
          where,
          why: "guides are also printed and read aloud; only CommonMark gives all of them",
          fix: "write it in CommonMark, or put the letters between backticks",
        })
        return []
      case "image":
      case "imageReference":
        tell(reading, "picture-in-text", {
          message: "the text holds a picture; drawings are made from the kit",
          where,
          fix: "take the picture out",
        })
        return []
      case "definition":
        return []
      case "text":
        collectNumbers(node.position, reading)
        return [node]
      case "linkReference": {
        const { children, position } = node
        const url = reading.addresses.get(node.identifier) ?? ""
        const link: Link = { type: "link", url, children, ...(position === undefined ? {} : { position }) }
        return keepLink(link, where, reading, level) as RootContent[] as Node[]
      }
      case "link":
        // A link stands among words, and so does what becomes of it.
        return keepLink(node, where, reading, level) as RootContent[] as Node[]
      default:
        if (!("children" in node)) return [node]
        // The children of a node stay of the kinds they were.
        return [{ ...node, children: keepSafe(node.children as RootContent[], reading, level + 1) } as Node]
    }
  })
}

function keepLink(node: Link, where: Place, reading: Reading, level: number): PhrasingContent[] {
  const address = readAddress(node.url)
  const children = keepSafe(node.children, reading, level + 1)
  const label = labelOf(children)
  const kept = { ...node, children }
  // Words of a refused link stay; its address goes.
  const words: PhrasingContent[] = children
  switch (address.is) {
    case "reference":
      reading.references.push({ kind: address.kind, target: address.target, label, where })
      return [{ ...kept, url: `${address.kind}:${address.target}` }]
    case "outside":
      return [kept]
    case "nothing":
      tell(reading, "link-without-target", {
        message: `link \`${shown(node.url === "" ? label : node.url)}\` points at nothing`,
        where,
        fix: "write what it points at, such as `part:ID`",
      })
      return words
    case "unknown-kind": {
      const { kind, near } = address
      const fix =
        near.length > 0
          ? `write ${near.map((name) => `\`${name}:…\``).join(" or ")}`
          : `write one of ${referenceKinds.map((name) => `\`${name}:\``).join(", ")}`
      tell(reading, "unknown-reference-kind", {
        message: `link \`${shown(node.url)}\` has kind \`${shown(kind)}\`, which is no kind of thing`,
        where,
        fix,
      })
      return words
    }
    case "refused": {
      const message =
        address.scheme === ""
          ? `link \`${shown(node.url)}\` points at a file or page beside the guide`
          : `link \`${shown(node.url)}\` has an address of kind \`${address.scheme}\``
      const why =
        "a guide is one file that works offline; links lead to things of the kit, to web pages, mail or telephone"
      tell(reading, "link-not-allowed", {
        message,
        where,
        why,
        fix: "write a web address that begins with `https://`, or a link such as `part:ID`",
      })
      return words
    }
  }
}

function labelOf(nodes: readonly Nodes[]): string {
  return nodes.map((node) => ("value" in node ? node.value : "children" in node ? labelOf(node.children) : "")).join("")
}

function placeOf(node: Nodes, { source }: Reading): Place {
  const start = node.position?.start.offset
  const end = node.position?.end.offset
  return start === undefined || end === undefined ? source.where : placeOfSpan(source, start, end)
}

/** Numbers are sought in the letters as typed, so that each keeps its place. */
function collectNumbers(position: Nodes["position"], { source, numbers }: Reading): void {
  const start = position?.start.offset
  const end = position?.end.offset
  if (start === undefined || end === undefined) return
  for (const { value, unit, written, at } of findNumbers(source.text.slice(start, end))) {
    numbers.push({ value, unit, written, where: placeOfSpan(source, start + at, start + at + written.length) })
  }
}

/** What the maker typed, short enough for one line. */
function shown(text: string): string {
  const line = text.replace(/\s+/g, " ").replaceAll("`", "'").trim()
  return line.length > 30 ? `${line.slice(0, 29)}…` : line
}
