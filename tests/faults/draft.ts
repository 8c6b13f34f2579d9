/**
 * The text files of a kit, open for edits as an author would make them: steps and acts are moved, copied and deleted with
 * their lines, single values are overwritten where they stand. All edits of a draft are kept apart until `write`.
 */
import { isMap, isPair, isScalar, isSeq, type Node, type Pair, parseDocument, type YAMLMap } from "yaml"
import type { Place } from "../../src/findings/types.ts"

export type TextFile = { readonly path: string; readonly text: string }

/** One act of a step; `origin` is its path in the kit as it was, undefined for a new one. */
type DraftAct = { readonly origin: string | undefined; text: string; readonly from: number }

type DraftStep = {
  readonly id: string
  readonly file: string
  readonly from: number
  readonly to: number
  /** The `do:` of the step: from the end of its key to the end of its value; undefined without one. */
  readonly acts: { readonly from: number; readonly to: number; readonly indent: string } | undefined
  list: DraftAct[]
  isChanged: boolean
}

type Splice = { readonly file: string; readonly from: number; readonly to: number; readonly text: string }

/** Where an act goes: before or behind another. */
export type Side = "before" | "behind"

export type Draft = {
  readonly files: readonly TextFile[]
  /** Steps of each file in their present order. */
  readonly steps: Map<string, DraftStep[]>
  readonly splices: Splice[]
}

/** Opens the files. Steps are read from each of them. */
export function openDraft(files: readonly TextFile[]): Draft {
  return { files, steps: new Map(files.map((file) => [file.path, readSteps(file)])), splices: [] }
}

/** The files with all edits. */
export function writeDraft(draft: Draft): readonly TextFile[] {
  return draft.files.map(({ path, text }) => {
    const steps = draft.steps.get(path) ?? []
    const written = readSteps({ path, text })
    const [first, last] = [written[0], written.at(-1)]
    if (first === undefined || last === undefined) return { path, text: slice(draft, path, 0, text.length, true) }
    const blocks = steps.map((step) => writeStep(draft, step))
    const head = slice(draft, path, 0, first.from, false)
    return { path, text: head + blocks.join("") + slice(draft, path, last.to, text.length, true) }
  })
}

/** The path that an act of the kit has now; undefined when it was deleted. */
export function pathNow(draft: Draft, origin: string): string | undefined {
  const found = findAct(draft, origin)
  return found === undefined ? undefined : `steps/${found.step.id}/do/${found.index}`
}

/** Takes an act out of its step and puts it beside another one. Both must be acts of the draft. */
export function moveAct(draft: Draft, origin: string, side: Side, other: string): void {
  const moved = takeOut(draft, origin)
  const target = needAct(draft, other)
  target.step.list.splice(target.index + (side === "behind" ? 1 : 0), 0, moved)
  target.step.isChanged = true
}

/** Deletes an act. A step that has no other gets a look at the work instead, so that it stays a step. */
export function deleteAct(draft: Draft, origin: string): void {
  takeOut(draft, origin)
}

/** Writes a new act beside another one; gives a name for it that `pathNow` knows. */
export function addAct(draft: Draft, text: string, side: Side, other: string): string {
  const { step, index } = needAct(draft, other)
  const origin = `new ${text} ${step.list.length}`
  step.list.splice(index + (side === "behind" ? 1 : 0), 0, { origin, text, from: -1 })
  step.isChanged = true
  return origin
}

/** Overwrites an act. */
export function rewriteAct(draft: Draft, origin: string, change: (text: string) => string): void {
  const { step, index } = needAct(draft, origin)
  const act = step.list[index]
  if (act === undefined) return
  act.text = change(act.text)
  step.isChanged = true
}

/** Moves a step with all its lines beside another step of the same file. */
export function moveStep(draft: Draft, id: string, side: Side, other: string): void {
  const steps = stepsWith(draft, id)
  const from = steps.findIndex((step) => step.id === id)
  const [moved] = steps.splice(from, 1)
  const to = steps.findIndex((step) => step.id === other)
  if (moved === undefined || to < 0) throw new Error(`steps ${id} and ${other} do not stand in one file`)
  steps.splice(to + (side === "behind" ? 1 : 0), 0, moved)
}

/** Swaps two steps of one file with all their lines. */
export function swapSteps(draft: Draft, first: string, second: string): void {
  const steps = stepsWith(draft, first)
  const [one, other] = [first, second].map((id) => steps.findIndex((step) => step.id === id))
  const [from, to] = [steps[one ?? -1], steps[other ?? -1]]
  if (one === undefined || other === undefined || from === undefined || to === undefined)
    throw new Error("no such step")
  steps[one] = to
  steps[other] = from
}

/** Deletes a step with all its lines. */
export function deleteStep(draft: Draft, id: string): void {
  const steps = stepsWith(draft, id)
  steps.splice(
    steps.findIndex((step) => step.id === id),
    1,
  )
}

/** Overwrites what stands at a place. */
export function overwrite(draft: Draft, place: Place, text: string): void {
  draft.splices.push({ file: place.file, ...rangeOf(draft, place), text })
}

/** The text at a place. */
export function textAt(draft: Pick<Draft, "files">, place: Place): string {
  const { from, to } = rangeOf(draft, place)
  return textOf(draft, place.file).slice(from, to)
}

/**
 * Names of all that the edits have to do with: steps that changed or changed places, things of the kit with a value
 * overwritten, and the names in acts that were moved, written or deleted.
 */
export function namesTouched(draft: Draft): ReadonlySet<string> {
  const names = new Set<string>()
  for (const file of draft.files) {
    const before = readSteps(file)
    const after = draft.steps.get(file.path) ?? []
    for (const [index, step] of before.entries()) {
      if (after[index]?.id !== step.id) names.add(step.id)
      const now = after.find(({ id }) => id === step.id)
      const [old, own] = [step, now].map((one) => one?.list.map(({ text }) => text) ?? [])
      if (old?.join("\n") === own?.join("\n")) continue
      names.add(step.id)
      const changed = [...(old ?? []), ...(own ?? [])].filter((text) => !(old?.includes(text) && own?.includes(text)))
      for (const text of changed.length > 0 ? changed : (old ?? []))
        for (const [word] of text.matchAll(/[a-z][a-z0-9-]*/g)) names.add(word)
    }
  }
  for (const { file, from, text } of draft.splices) {
    const owner = ownerAt(textOf(draft, file), from)
    names.add(owner.id ?? `${owner.block} ${text}`)
  }
  return names
}

/** The block and the id of the entry that an offset lies in. */
function ownerAt(text: string, offset: number): { readonly block: string; readonly id: string | undefined } {
  const lines = text.slice(0, lineEnd(text, offset)).split("\n")
  const blockIndex = lines.findLastIndex((line) => /^[a-z]/.test(line))
  const id = lines.slice(blockIndex + 1).findLast((line) => /^ {2}[a-zA-Z]/.test(line))
  const inline = /^[a-z-]+: *\{ *([a-z][a-z0-9-]*):/.exec(lines[blockIndex] ?? "")?.[1]
  return {
    block: /^[a-z-]+/.exec(lines[blockIndex] ?? "")?.[0] ?? "",
    id: /[a-zA-Z][\w-]*/.exec(id ?? "")?.[0] ?? inline,
  }
}

/** Puts text in at an offset of a file. */
export function insertAt(draft: Draft, file: string, offset: number, text: string): void {
  draft.splices.push({ file, from: offset, to: offset, text })
}

/** Adds `key: value` to the map at a path of a file; a missing file, map or path gives false and changes nothing. */
export function addEntry(draft: Draft, file: string, path: readonly string[], entry: string): boolean {
  const text = textOf(draft, file)
  const map = path.length === 0 ? readDocument(text).contents : readDocument(text).getIn(path, true)
  if (!isMap(map) || map.items.length === 0) return false
  const first = map.items[0]
  const start = first === undefined ? undefined : startOf(first)
  if (start === undefined) return false
  if (map.flow === true) insertAt(draft, file, start, `${entry}, `)
  else insertAt(draft, file, start, `${entry}\n${indentAt(text, start)}`)
  return true
}

/** Deletes the entry at a path of a file with its lines; false when it is not written there as an entry of a map. */
export function deleteEntry(draft: Draft, file: string, path: readonly string[]): boolean {
  const text = textOf(draft, file)
  const owner = path.length === 1 ? readDocument(text).contents : readDocument(text).getIn(path.slice(0, -1), true)
  if (!isMap(owner)) return false
  const index = owner.items.findIndex(({ key }) => isScalar(key) && String(key.value) === path.at(-1))
  const pair = owner.items[index]
  const range = pair === undefined ? undefined : rangeOfPair(pair)
  if (range === undefined) return false
  const [from, to] = owner.flow === true ? withComma(text, range) : withLines(text, range)
  draft.splices.push({ file, from, to, text: "" })
  return true
}

/** Overwrites the whole value of the entry at a path of a file; false when it is not written there. */
export function replaceEntry(draft: Draft, file: string, path: readonly string[], value: string): boolean {
  const text = textOf(draft, file)
  const owner = readDocument(text).getIn(path.slice(0, -1), true)
  const pair = isMap(owner)
    ? owner.items.find(({ key }) => isScalar(key) && String(key.value) === path.at(-1))
    : undefined
  const range = pair === undefined ? undefined : rangeOfPair(pair)
  if (range === undefined) return false
  draft.splices.push({ file, from: range.from, to: range.to, text: `${path.at(-1) ?? ""}: ${value}` })
  return true
}

function takeOut(draft: Draft, origin: string): DraftAct {
  const { step, index } = needAct(draft, origin)
  const [act] = step.list.splice(index, 1)
  if (act === undefined) throw new Error(`no act ${origin}`)
  if (step.list.length === 0) step.list.push({ origin: undefined, text: "inspect: The work so far", from: -1 })
  step.isChanged = true
  return act
}

function needAct(draft: Draft, origin: string): { readonly step: DraftStep; readonly index: number } {
  const found = findAct(draft, origin)
  if (found === undefined) throw new Error(`no act ${origin}`)
  return found
}

function findAct(draft: Draft, origin: string): { readonly step: DraftStep; readonly index: number } | undefined {
  for (const steps of draft.steps.values())
    for (const step of steps) {
      const index = step.list.findIndex((act) => act.origin === origin)
      if (index >= 0) return { step, index }
    }
  return undefined
}

function stepsWith(draft: Draft, id: string): DraftStep[] {
  const steps = [...draft.steps.values()].find((list) => list.some((step) => step.id === id))
  if (steps === undefined) throw new Error(`no step ${id}`)
  return steps
}

function readSteps({ path, text }: TextFile): DraftStep[] {
  const map = readDocument(text).get("steps", true)
  if (!isMap(map) || map.flow === true) return []
  const starts = map.items.map((pair) => lineStart(text, startOf(pair) ?? 0))
  const end = lineEnd(text, Math.max(...map.items.map((pair) => rangeOfPair(pair)?.to ?? 0)))
  return map.items.flatMap((pair, index): DraftStep[] => {
    const from = starts[index] ?? 0
    const to = starts[index + 1] ?? end
    const id = isScalar(pair.key) ? String(pair.key.value) : ""
    const found = isMap(pair.value) ? findDo(pair.value) : undefined
    if (found === undefined) return [{ id, file: path, from, to, acts: undefined, list: [], isChanged: false }]
    const indent = " ".repeat(found.keyFrom - lineStart(text, found.keyFrom))
    const list = found.items.map(
      (item, position): DraftAct => ({
        origin: `steps/${id}/do/${position}`,
        text: text.slice(item.from, item.to),
        from: item.from,
      }),
    )
    const acts = { from: found.from, to: found.to, indent }
    return [{ id, file: path, from, to, acts, list, isChanged: false }]
  })
}

function findDo(step: YAMLMap):
  | {
      readonly keyFrom: number
      readonly from: number
      readonly to: number
      readonly items: readonly { readonly from: number; readonly to: number }[]
    }
  | undefined {
  const pair = step.items.find(({ key }) => isScalar(key) && key.value === "do")
  const keyRange = isScalar(pair?.key) ? pair.key.range : undefined
  const value = pair?.value
  if (keyRange == null || !isSeq(value) || value.range == null) return undefined
  const items = value.items.map((item) => {
    const range = isPair(item) ? rangeOfPair(item) : nodeRange(item)
    return range ?? { from: 0, to: 0 }
  })
  const last = value.flow === true ? value.range[1] : Math.max(...items.map(({ to }) => to))
  return { keyFrom: keyRange[0], from: keyRange[1] + 1, to: last, items }
}

function writeStep(draft: Draft, step: DraftStep): string {
  const { acts, file, from, to, list, isChanged } = step
  if (!isChanged || acts === undefined) return slice(draft, file, from, to, false)
  const indent = `${acts.indent}  `
  const items = list.map(({ text, from: at }) => `\n${indent}- ${at < 0 ? text : text}`)
  return slice(draft, file, from, acts.from, false) + items.join("") + slice(draft, file, acts.to, to, false)
}

/** Text between two offsets with the splices in it. */
function slice(draft: Draft, file: string, from: number, to: number, isEnd: boolean): string {
  const text = textOf(draft, file)
  const inside = draft.splices
    .filter(
      (splice) => splice.file === file && splice.from >= from && (splice.from < to || (isEnd && splice.from === to)),
    )
    .sort((one, other) => one.from - other.from)
  let written = ""
  let at = from
  for (const splice of inside) {
    if (splice.from < at) throw new Error(`two edits of ${file} at ${splice.from} meet`)
    written += text.slice(at, splice.from) + splice.text
    at = splice.to
  }
  return written + text.slice(at, to)
}

function textOf(draft: Pick<Draft, "files">, file: string): string {
  const found = draft.files.find(({ path }) => path === file)
  if (found === undefined) throw new Error(`no file ${file}`)
  return found.text
}

function rangeOf(draft: Pick<Draft, "files">, place: Place): { readonly from: number; readonly to: number } {
  const text = textOf(draft, place.file)
  const starts = [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)]
  const offset = (line: number, column: number): number => (starts[line - 1] ?? 0) + column - 1
  return { from: offset(place.line, place.column), to: offset(place.endLine, place.endColumn) }
}

type ParsedDocument = ReturnType<typeof parseDocument>
const documents = new Map<string, ParsedDocument>()

/** Parses a text once; the files of a clean kit are asked for again and again. */
function readDocument(text: string): ParsedDocument {
  const known = documents.get(text)
  if (known !== undefined) return known
  const document = parseDocument(text)
  documents.set(text, document)
  return document
}

function startOf(pair: Pair): number | undefined {
  return isScalar(pair.key) ? pair.key.range?.[0] : undefined
}

function nodeRange(node: unknown): { readonly from: number; readonly to: number } | undefined {
  // Nodes of a parsed document have ranges; the type allows made ones without.
  const range = (node as Node | undefined)?.range
  if (range == null) return undefined
  const inner = isMap(node) && node.flow !== true ? node.items.at(-1) : undefined
  const last = inner === undefined ? undefined : rangeOfPair(inner)
  return { from: range[0], to: last?.to ?? range[1] }
}

function rangeOfPair(pair: Pair): { readonly from: number; readonly to: number } | undefined {
  const from = startOf(pair)
  const value = nodeRange(pair.value)
  const keyEnd = isScalar(pair.key) ? pair.key.range?.[1] : undefined
  if (from === undefined) return undefined
  const valueTo = isSeq(pair.value) && pair.value.flow !== true ? lastOf(pair.value.items) : value?.to
  return { from, to: Math.max(valueTo ?? 0, keyEnd ?? 0) }
}

function lastOf(items: readonly unknown[]): number | undefined {
  const last = items.at(-1)
  return isPair(last) ? rangeOfPair(last)?.to : nodeRange(last)?.to
}

function withLines(text: string, { from, to }: { readonly from: number; readonly to: number }): [number, number] {
  return [lineStart(text, from), lineEnd(text, to)]
}

/** With the comma behind it, or the one before it when it is the last. */
function withComma(text: string, { from, to }: { readonly from: number; readonly to: number }): [number, number] {
  const behind = /^\s*,\s*/.exec(text.slice(to))?.[0]
  if (behind !== undefined) return [from, to + behind.length]
  const before = /,\s*$/.exec(text.slice(0, from))?.[0] ?? ""
  return [from - before.length, to]
}

function lineStart(text: string, offset: number): number {
  return text.lastIndexOf("\n", offset - 1) + 1
}

function lineEnd(text: string, offset: number): number {
  // A block text ends behind its last line.
  if (offset > 0 && text[offset - 1] === "\n") return offset
  const end = text.indexOf("\n", offset)
  return end < 0 ? text.length : end + 1
}

function indentAt(text: string, offset: number): string {
  return /^ */.exec(text.slice(lineStart(text, offset), offset))?.[0] ?? ""
}
