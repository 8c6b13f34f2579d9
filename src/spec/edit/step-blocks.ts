/**
 * The lines of each step in a block map. To a step belong its key and content, the comment lines directly above its key
 * that are indented no deeper than it, and those directly below its content that are. Blank lines and comments that
 * stand alone between two steps belong to neither: they keep their place.
 */
import { isAlias, isCollection, isMap, isPair, isScalar, type Node } from "yaml"
import type { Finding } from "../../findings/types.ts"
import { quote } from "../tell.ts"
import type { FoundSteps, StepPair } from "./find-steps.ts"
import { refuse } from "./refuse.ts"

/** Lines from `from` to before `to`, counted from 0. */
export type Block = { readonly id: string; readonly from: number; readonly to: number }

/** Gives the block of each step, in the order of writing. `lines` are those of the text that `found` was read from. */
export function findBlocks(
  found: FoundSteps,
  lines: readonly string[],
  file: string,
): readonly Block[] | { readonly refusal: Finding } {
  const blocks: Block[] = []
  const indent = (found.pairs[0]?.spot.column ?? 1) - 1
  let free = found.spot.line
  for (const pair of found.pairs) {
    const keyLine = pair.spot.line - 1
    if (!/^\s*(?:[&!]\S*\s+|\?\s+)*$/.test((lines[keyLine] ?? "").slice(0, pair.spot.column - 1))) {
      return refuse(file, pair.spot, {
        message: `step ${quote(pair.id)} does not begin a line of its own`,
        fix: "write each step on lines of its own",
      })
    }
    const kept = findKeptBlanks(pair, found.source)
    if (kept !== undefined) {
      return refuse(file, pair.spot, {
        message: `step ${quote(pair.id)} ends with a text that keeps its blank lines (\`${kept}\`)`,
        why: "The blank lines below it are part of the text, so they cannot be told from those between steps.",
        fix: `write \`${kept.replace("+", "")}\``,
      })
    }
    const last = found.counter.linePos(Math.max(0, endOf(pair) - 1)).line - 1
    const unclear = findUnclear(lines, free, keyLine, indent, blocks.length > 0)
    if (unclear !== undefined) return refuseComment(unclear, lines, file)
    blocks.push({
      id: pair.id,
      from: headOf(lines, free, keyLine, indent),
      to: tailOf(lines, last + 1, indent),
    })
    free = blocks.at(-1)?.to ?? free
  }
  const end = lines.findIndex((line, index) => index >= free && !isBlank(line) && !isComment(line))
  const unclear = findUnclear(lines, free, end < 0 ? lines.length : end, indent, true)
  return unclear === undefined ? blocks : refuseComment(unclear, lines, file)
}

/** First line of the comment that stands directly above the key. */
function headOf(lines: readonly string[], free: number, keyLine: number, indent: number): number {
  let from = keyLine
  while (from > free && isComment(lines[from - 1]) && indentOf(lines[from - 1]) <= indent) from -= 1
  return from
}

/** Line after the comments that stand directly below the content and deeper than the keys. */
function tailOf(lines: readonly string[], after: number, indent: number): number {
  let to = after
  while (to < lines.length && isComment(lines[to]) && indentOf(lines[to]) > indent) to += 1
  return to
}

/** A comment between two steps that is indented like the content of one but does not stand at it. */
function findUnclear(
  lines: readonly string[],
  from: number,
  to: number,
  indent: number,
  hasStepAbove: boolean,
): number | undefined {
  for (let index = from; index < to; index += 1) {
    const line = lines[index]
    // The head of the list may be laid out as the maker likes, but for what stands directly at the first step.
    const isFar = !hasStepAbove && lines.slice(index, to).some(isBlank)
    if (isComment(line) && indentOf(line) > indent && !isFar) return index
  }
  return undefined
}

function refuseComment(index: number, lines: readonly string[], file: string): { readonly refusal: Finding } {
  const text = lines[index] ?? ""
  const spot = { line: index + 1, column: indentOf(text) + 1, length: text.trim().length }
  return refuse(file, spot, {
    message: "it is not clear to which step this comment belongs",
    why: "It is indented like the content of a step but does not stand directly below one.",
    fix: "indent it like the ids of the steps, or put it directly below the content of its step",
  })
}

/** Where the last written letter of a step ends. */
function endOf({ key, value }: StepPair): number {
  let end = key.range?.[1] ?? 0
  let node: Node | undefined = value
  while (node !== undefined) {
    const [start = 0, stop = 0] = node.range ?? []
    if (stop > start && (isAlias(node) || isScalar(node) || isFlow(node))) return Math.max(end, stop)
    if (!isCollection(node)) return end
    const last: unknown = node.items.at(-1)
    if (isPair(last)) {
      end = Math.max(end, rangeEnd(last.key))
      node = asNode(last.value)
    } else node = asNode(last)
  }
  return end
}

/** The mark of the block text with which a step ends when it keeps blank lines, such as `|+`. */
function findKeptBlanks({ value }: StepPair, source: string): string | undefined {
  let node: Node | undefined = value
  while (isCollection(node) && !isFlow(node)) {
    const last: unknown = node.items.at(-1)
    node = asNode(isPair(last) ? last.value : last)
  }
  const isBlockText = isScalar(node) && (node.type === "BLOCK_LITERAL" || node.type === "BLOCK_FOLDED")
  return isBlockText ? /^[|>]\d?\+\d?/.exec(source.slice(node?.range?.[0] ?? 0))?.[0] : undefined
}

function isFlow(node: Node): boolean {
  return isCollection(node) && node.flow === true
}

function rangeEnd(node: unknown): number {
  return asNode(node)?.range?.[1] ?? 0
}

/** Types of the package say `unknown` for what stands in a collection; after parsing it is always a node or null. */
function asNode(value: unknown): Node | undefined {
  return isMap(value) || isCollection(value) || isScalar(value) || isAlias(value) ? value : undefined
}

function isBlank(line: string | undefined): boolean {
  return line === undefined || line.trim() === ""
}

function isComment(line: string | undefined): boolean {
  return /^\s*#/.test(line ?? "")
}

function indentOf(line: string | undefined): number {
  return /^\s*/.exec(line ?? "")?.[0].length ?? 0
}
