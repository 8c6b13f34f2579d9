/**
 * The maker's Markdown as HTML: references become names, item references, sizes and torques; raw HTML, pictures and
 * unsafe links are dropped; headings become bold paragraphs, since the outline of the document is ours.
 */
import type { Element, ElementContent, Root as HtmlRoot, RootContent } from "hast"
import type { Nodes, Parents, PhrasingContent, Root } from "mdast"
import rehypeSanitize, { defaultSchema } from "rehype-sanitize"
import rehypeStringify from "rehype-stringify"
import remarkRehype from "remark-rehype"
import { unified } from "unified"
import type { NameKind } from "../kit/names.ts"
import type { MakerText } from "../text/types.ts"
import { type Context, listShortDesignations, sayFastener, sayFasteners, sayTorque } from "./context.ts"
import { findName, sayName, withReference } from "./names.ts"
import type { Html } from "./render.ts"

const processor = unified()
  .use(remarkRehype)
  .use(rehypeSanitize, {
    ...defaultSchema,
    clobberPrefix: "",
    attributes: { ...defaultSchema.attributes, span: [["className", "filled"]] },
  })
  .use(rehypeStringify)

/** Gives a text as blocks (`<p>...</p>`). */
export function renderMakerText(context: Context, text: MakerText): Html {
  return { html: processor.stringify(toHtml(context, text)) }
}

/** Gives a text for use inside a line: a single paragraph loses its `<p>`; a full stop at the end is kept. */
export function renderMakerLine(context: Context, text: MakerText): Html {
  const root = toHtml(context, text)
  const blocks = root.children.filter((child): child is Element => child.type === "element")
  const only = blocks[0]
  if (blocks.length !== 1 || only?.tagName !== "p") return { html: processor.stringify(root) }
  return { html: processor.stringify({ type: "root", children: only.children }) }
}

/** Gives the statements of a text, each for a line of its own: paragraphs, and the items of lists one by one. */
export function renderMakerStatements(context: Context, text: MakerText): readonly Html[] {
  const isElement = (child: RootContent | ElementContent): child is Element => child.type === "element"
  const blocks = toHtml(context, text).children.filter(isElement)
  const items = blocks.flatMap((block) =>
    block.tagName === "ul" || block.tagName === "ol" ? block.children.filter(isElement) : [block],
  )
  return items.map(({ children }) => {
    const inner = children.filter(isElement)
    const only = inner[0]
    // A loose list item holds its words in a paragraph.
    const words = inner.length === 1 && only?.tagName === "p" ? only.children : children
    return { html: processor.stringify({ type: "root", children: words }).trim() }
  })
}

function toHtml(context: Context, text: MakerText): HtmlRoot {
  // `runSync` of this chain takes mdast and gives hast; unified types the result as any node.
  return processor.runSync(fill(context, text.root)) as HtmlRoot
}

function wordsOf(node: Nodes): string {
  if (node.type === "text" || node.type === "inlineCode") return node.value
  if (node.type === "break") return " "
  if (!("children" in node)) return ""
  const separator = node.type === "root" || node.type === "list" ? " " : ""
  return node.children.map(wordsOf).join(separator)
}

/** A copy of the tree with every reference replaced. */
function fill(context: Context, root: Root): Root {
  // Children keep the kinds that mdast allows there: phrasing is replaced by phrasing, a heading by a paragraph.
  return fillNode(context, root, undefined, 0) as Root
}

function fillNode(context: Context, node: Nodes, parent: Parents | undefined, index: number): Nodes {
  if (node.type === "text") return { type: "text", value: glueUnits(node.value) }
  if (node.type === "image" || node.type === "imageReference") return { type: "text", value: node.alt ?? "" }
  if (node.type === "html") return { type: "text", value: "" }
  if (node.type === "link") {
    const match = /^([a-z]+):(.+)$/.exec(node.url)
    const filled = match === null ? undefined : fillReference(context, match[1] ?? "", match[2] ?? "", wordsOf(node))
    if (filled !== undefined) return isSentenceStart(node, parent, index) ? capitalise(filled) : filled
  }
  if (!("children" in node)) return node
  // See `fill`: the copy has the same kinds of children.
  const children = (node.children as Nodes[]).map((child, at) =>
    fillNode(context, child, node, at),
  ) as PhrasingContent[]
  if (node.type === "heading") return { type: "paragraph", children: [{ type: "strong", children }] }
  return { ...node, children } as Nodes
}

function isSentenceStart(node: Nodes & { readonly type: "link" }, parent: Parents | undefined, index: number): boolean {
  if (node.children.length > 0) return false
  if (index === 0) return parent?.type === "paragraph"
  const before = parent?.children[index - 1]
  return before?.type === "text" && /[.!?:]\s+$/.test(before.value)
}

function capitalise(node: PhrasingContent): PhrasingContent {
  if (node.type === "text") return { ...node, value: node.value.charAt(0).toUpperCase() + node.value.slice(1) }
  if (node.type !== "emphasis") return node
  const [first, ...rest] = node.children
  return first === undefined ? node : { ...node, children: [capitalise(first), ...rest] }
}

/** A reference in running text; undefined for an ordinary link. `label` holds the maker's own words. */
function fillReference(context: Context, kind: string, target: string, label: string): PhrasingContent | undefined {
  const { kit, words } = context
  const joint = kit.joints.find((each) => each.id === target)
  const named = (kinds: readonly NameKind[]): PhrasingContent =>
    filled(
      context,
      label === "" ? sayName(context, target, kinds) : withReference(label, findName(context, target, kinds).reference),
    )
  switch (kind) {
    case "part":
      return named(["part", "instance", "assembly"])
    case "cable":
    case "end":
    case "passage":
    case "socket":
    case "tool":
    case "unit":
    case "frame":
    case "pad":
    case "tie":
      return named([kind])
    case "joint":
    case "screw": {
      if (joint === undefined) {
        const own = kit.ownJoints.find((each) => each.id === target)
        if (own === undefined || label !== "") return filled(context, label === "" ? target : label)
        return filled(context, `${words.measures.times(own.count)}\u00a0${sayFastener(context, own.fastener)}`)
      }
      if (label !== "") return filled(context, withReference(label, joint.itemReference))
      if (kind === "joint") return filled(context, sayFasteners(context, joint, joint.count))
      return filled(context, sayFastener(context, joint.fastener, joint.itemReference))
    }
    case "torque":
      return filled(context, sayTorque(context, target) ?? (label === "" ? target : label))
    case "count": {
      const counted = joint ?? [...kit.ties, ...kit.pads, ...kit.ownJoints].find((each) => each.id === target)
      const part = kit.parts.find((each) => each.id === target)
      return filled(context, words.measures.number(counted?.count ?? part?.instances.length ?? 0))
    }
    case "bag": {
      const bag = kit.bags.find((each) => each.id === target)
      return filled(context, label === "" ? words.box.bag(target, bag?.name ?? "") : label)
    }
    case "step": {
      const number = kit.steps.findIndex((each) => each.id === target) + 1
      const said = label === "" ? words.steps.reference(words.measures.number(number)) : label
      return { type: "link", url: `#step-${target}`, children: [{ type: "text", value: said }] }
    }
    default:
      return undefined
  }
}

/** Words that came from the data. A value stays on one line, of a long phrase the size of its fastener does. */
function filled(context: Context, value: string): PhrasingContent {
  const size = listShortDesignations(context).find((each) => value.includes(each))
  const at = size === undefined || value.length <= mostLetters ? 0 : value.lastIndexOf(size)
  const head: PhrasingContent[] = at === 0 ? [] : [{ type: "text", value: value.slice(0, at) }]
  const tail = value.slice(at)
  if (tail.length > mostLetters && at === 0) return { type: "text", value }
  const kept: PhrasingContent = {
    type: "emphasis",
    data: { hName: "span", hProperties: { className: ["filled"] } },
    children: [{ type: "text", value: tail }],
  }
  if (head.length === 0) return kept
  return { type: "emphasis", data: { hName: "span" }, children: [...head, kept] }
}

/** As many letters as have room on one line of a phone. */
const mostLetters = 34

/** Puts a no-break space between a typed number and its unit (ISO 80000-1, 7.1.4). */
function glueUnits(text: string): string {
  return text.replace(/(\d) (mm|cm|m|N·m|Nm|kg|g|°C|%|min|s|h|V|A|W|N)(?![\p{L}\d])/gu, "$1\u00a0$2")
}
