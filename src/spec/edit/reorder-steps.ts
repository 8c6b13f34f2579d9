/** Puts the steps in the text of a kit into another order, and changes nothing else of it. */
import type { Finding } from "../../findings/types.ts"
import { parseYaml } from "../read/parse-yaml.ts"
import type { Tree } from "../read/tree.ts"
import { quote } from "../tell.ts"
import { findTornAlias } from "./aliases.ts"
import { type FoundSteps, findSteps } from "./find-steps.ts"
import { joinLines, type Line, type Lines, plainText, splitLines } from "./lines.ts"
import { type Edit, refuse, type Spot } from "./refuse.ts"
import { findSlots } from "./slots.ts"
import { findBlocks } from "./step-blocks.ts"

/** A new text and where each letter of the old one went, so far as order goes. */
type Moved = { readonly text: string; readonly placeOf: (at: number) => number }

/**
 * Gives the text with its steps in `order`, which names each of them once. Whole steps move, with the comments directly
 * above and below them; line ends, indentation, byte order mark and all else stay byte for byte, and the way back gives the
 * first text again. Refuses, with the place, where `steps` is missing or not plain, ids differ, a comment could belong to
 * either of two steps, or an alias would come to stand for something else. Never throws on any text.
 */
export function reorderSteps(text: string, order: readonly string[], file = "kit.yaml"): Edit {
  const lines = splitLines(text)
  const plain = plainText(lines)
  const found = findSteps(plain, file)
  if ("refusal" in found) return found
  const wrong = compareIds(found, order, file)
  if (wrong !== undefined) return wrong
  if (found.pairs.every(({ id }, index) => id === order[index])) return { text }
  const moved = found.map.flow === true ? moveSlots(lines, found, order, file) : moveBlocks(lines, found, order, file)
  if ("refusal" in moved) return moved
  const torn = findTornAlias(found.document, moved.placeOf)
  if (torn !== undefined) {
    const { line, col } = found.counter.linePos(torn.at)
    return refuse(
      file,
      { line, column: col, length: torn.name.length + 1 },
      {
        message: `${quote(`*${torn.name}`)} would come to stand before \`&${torn.name}\`, or behind another one`.slice(
          0,
          100,
        ),
        why: "An alias repeats what the last anchor of its name before it holds, so it ties the order of the text.",
        fix: "write the value out in place of the alias, then reorder",
      },
    )
  }
  return isSameButOrder(plain, plainText(splitLines(moved.text)), order, file) && isReversible(moved.text, found, text)
    ? { text: moved.text }
    : refuse(file, found.spot, {
        message: "the lines of these steps cannot be told apart safely",
        why: "In the new order the file would read otherwise than now, beyond the order of its steps.",
        fix: "move the steps by hand",
      })

  /** The way back must give the same bytes, else a comment or blank line changed its owner. */
  function isReversible(changed: string, { pairs }: FoundSteps, original: string): boolean {
    const now = splitLines(changed)
    const again = findSteps(plainText(now), file)
    if ("refusal" in again) return false
    const before = pairs.map(({ id }) => id)
    const back = again.map.flow === true ? moveSlots(now, again, before, file) : moveBlocks(now, again, before, file)
    return "text" in back && back.text === original
  }
}

/** Both orders must name the same steps, each once. */
function compareIds({ pairs, spot }: FoundSteps, order: readonly string[], file: string): Edit | undefined {
  const written = new Set(pairs.map(({ id }) => id))
  const at: Spot = spot
  const named = new Set(order)
  const seen = new Set<string>()
  const twice = order.find((id) => seen.size === seen.add(id).size)
  if (twice !== undefined) {
    return refuse(file, at, { message: `the new order names step ${quote(twice)} twice`, fix: "name each step once" })
  }
  const unknown = order.find((id) => !written.has(id))
  if (unknown !== undefined) {
    return refuse(file, at, {
      message: `the new order names step ${quote(unknown)}, which is not in \`${file}\``,
      fix: "name the steps that stand there",
    })
  }
  const left = pairs.find(({ id }) => !named.has(id))
  return left === undefined
    ? undefined
    : refuse(file, left.spot, {
        message: `the new order leaves step ${quote(left.id)} out`,
        fix: "name all steps that stand there",
      })
}

function moveBlocks(
  whole: Lines,
  found: FoundSteps,
  order: readonly string[],
  file: string,
): Moved | { readonly refusal: Finding } {
  const blocks = findBlocks(found, found.source.split("\n"), file)
  if ("refusal" in blocks) return blocks
  const byId = new Map(blocks.map((block) => [block.id, block]))
  const { lines } = whole
  const moved: Line[] = []
  const newIndex = new Map<number, number>()
  const take = (from: number, to: number): void => {
    for (let index = from; index < to; index += 1) {
      newIndex.set(index, moved.length)
      moved.push(lines[index] ?? { text: "", end: "" })
    }
  }
  let done = 0
  for (const [position, { from, to }] of blocks.entries()) {
    take(done, from)
    const block = byId.get(order[position] ?? "")
    if (block !== undefined) take(block.from, block.to)
    done = to
  }
  take(done, lines.length)
  const placeOf = (at: number): number => {
    const { line, col } = found.counter.linePos(at)
    return (newIndex.get(line - 1) ?? 0) * (found.source.length + 1) + col
  }
  return { text: joinLines({ ...whole, lines: moved }), placeOf }
}

function moveSlots(
  whole: Lines,
  found: FoundSteps,
  order: readonly string[],
  file: string,
): Moved | { readonly refusal: Finding } {
  const slots = findSlots(found, file)
  if ("refusal" in slots) return slots
  const source = plainText(whole)
  const byId = new Map(slots.map((slot) => [slot.id, slot]))
  let body = ""
  let done = 0
  const shifts: { readonly from: number; readonly to: number; readonly by: number }[] = []
  const take = (from: number, to: number): void => {
    shifts.push({ from, to, by: body.length - from })
    body += source.slice(from, to)
  }
  for (const [position, { from, to }] of slots.entries()) {
    take(done, from)
    const slot = byId.get(order[position] ?? "")
    if (slot !== undefined) take(slot.from, slot.to)
    done = to
  }
  take(done, source.length)
  // As many lines as before: each takes the end that the line in its place had.
  const ends = whole.lines.map(({ end }) => end)
  const lines = body.split("\n").map((line, index): Line => ({ text: line, end: ends[index] ?? "" }))
  const placeOf = (at: number): number => at + (shifts.find(({ from, to }) => at >= from && at < to)?.by ?? 0)
  return { text: joinLines({ ...whole, lines }), placeOf }
}

/** Both texts hold the same and read without new faults, but for the order of the steps, which is `order` in the new one. */
function isSameButOrder(before: string, after: string, order: readonly string[], file: string): boolean {
  const [old, now] = [before, after].map((text) => {
    const told: string[] = []
    const { tree } = parseYaml(file, text, ({ id }) => told.push(id))
    return { tree, told: told.sort().join() }
  })
  const others = (tree: Tree | undefined): string =>
    tree?.kind === "map" ? JSON.stringify(tree.entries.filter(({ key }) => key !== "steps").map(bareEntry)) : ""
  const steps = (tree: Tree | undefined): readonly (readonly [string, unknown])[] => {
    const found = tree?.kind === "map" ? tree.entries.find(({ key }) => key === "steps")?.value : undefined
    return found?.kind === "map" ? found.entries.map(bareEntry) : []
  }
  const byId = new Map(steps(old?.tree).map((step) => [step[0], step]))
  const wanted = order.map((id) => byId.get(id))
  const isSameSteps = JSON.stringify(wanted) === JSON.stringify(steps(now?.tree))
  return old?.told === now?.told && others(old?.tree) === others(now?.tree) && isSameSteps
}

function bareEntry({ key, value }: { readonly key: string; readonly value: Tree }): readonly [string, unknown] {
  return [key, bare(value)]
}

/** A value without places. The blank lines with which a text ends are layout. Depth is bounded by the parser. */
function bare(tree: Tree): unknown {
  switch (tree.kind) {
    case "map":
      return { map: tree.entries.map(bareEntry) }
    case "list":
      return { list: tree.items.map(bare) }
    case "scalar":
      return typeof tree.value === "string" ? tree.value.trimEnd() : { value: tree.value }
    case "hole":
      return "hole"
  }
}
