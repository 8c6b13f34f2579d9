/** Puts the steps of a kit and of its variant files into one order. Texts in, texts out; nothing is half done. */
import type { Finding } from "../../findings/types.ts"
import { loadSpecs } from "../index.ts"
import { quote } from "../tell.ts"
import type { Spec } from "../types.ts"
import { findSteps } from "./find-steps.ts"
import { plainText, splitLines } from "./lines.ts"
import { listPlaceWords, moveSteps, type PlaceWord } from "./place-words.ts"
import { refuse } from "./refuse.ts"
import { reorderSteps } from "./reorder-steps.ts"

/** A text file of the kit's folder; the path is relative to that folder, with `/`. */
export type TextFile = { readonly path: string; readonly text: string }

/** The files that change, with their new texts, or why none does. */
export type KitEdit = { readonly changed: readonly TextFile[] } | { readonly refusal: Finding }

/**
 * Gives the texts in which every variant has its steps in `order`, which names the steps of all variants. Steps of
 * `kit.yaml` move as whole blocks; a step that a variant file puts in its place gets another neighbour in its
 * `place-before` or `place-after`, where that is the same in all variants of the file. The outcome is read again: when one
 * variant would have another order, nothing is changed and the refusal names the line to change by hand.
 */
export function reorderKit(files: readonly TextFile[], order: readonly string[]): KitEdit {
  const edit = reorderKitFile(files, order)
  if ("refusal" in edit) return edit
  let now: readonly TextFile[] = files.map((file) => edit.changed.find(({ path }) => path === file.path) ?? file)
  if (findMisplaced(now, order) !== undefined) {
    const moved = moveWords(now, order)
    if ("refusal" in moved) return moved
    now = moved.files
    const misplaced = findMisplaced(now, order)
    if (misplaced !== undefined) return refuseMisplaced(now, misplaced)
  }
  return { changed: now.filter(({ path, text }) => files.some((file) => file.path === path && file.text !== text)) }
}

/**
 * Gives the text of `kit.yaml` in which its own steps stand in `order`; variant files stay as they are, so that their steps go along
 * with the neighbours they name. The order of a variant may then be another one.
 */
export function reorderKitFile(files: readonly TextFile[], order: readonly string[]): KitEdit {
  const kit = files.find(({ path }) => /^kit\.ya?ml$/i.test(path))
  if (kit === undefined) {
    return refuse("kit.yaml", { line: 1, column: 1 }, { message: "there is no `kit.yaml`", fix: "name a kit" })
  }
  const found = findSteps(plainText(splitLines(kit.text)), kit.path)
  if ("refusal" in found) return found
  const wanted = completeOrder(
    found.pairs.map(({ id }) => id),
    order,
  )
  const edit = reorderSteps(kit.text, wanted, kit.path)
  if ("refusal" in edit) return edit
  return { changed: edit.text === kit.text ? [] : [{ path: kit.path, text: edit.text }] }
}

/** The ids as written, put in `order`; those that no variant has stay behind the one they follow. */
function completeOrder(written: readonly string[], order: readonly string[]): readonly string[] {
  const known = new Set(written)
  const named = new Set(order)
  const followers = new Map<string, string[]>()
  let previous = ""
  for (const id of written) {
    if (named.has(id)) previous = id
    else followers.set(previous, [...(followers.get(previous) ?? []), id])
  }
  return [
    ...(followers.get("") ?? []),
    ...order.filter((id) => known.has(id)).flatMap((id) => [id, ...(followers.get(id) ?? [])]),
  ]
}

/** A step that would not stand where it should, and the one it should follow. */
type Misplaced = { readonly spec: Spec; readonly step: string; readonly after: string | undefined }

/** Gives the first place in a variant where another step than wanted would stand, by the step that a variant file puts there. */
function findMisplaced(files: readonly TextFile[], order: readonly string[]): Misplaced | undefined {
  for (const spec of readSpecs(files)) {
    const wanted = wantedOf(spec, order)
    const index = wanted.findIndex((id, position) => spec.steps[position]?.id !== id)
    if (index < 0) continue
    const candidates = [wanted[index], spec.steps[index]?.id].flatMap((id) => (id === undefined ? [] : [id]))
    const isOfVariant = (id: string): boolean =>
      spec.places[`steps/${id}`]?.file.startsWith("variants/") === true || findWord(files, spec, id) !== undefined
    const step = candidates.find(isOfVariant) ?? candidates[0] ?? ""
    return { spec, step, after: wanted[wanted.indexOf(step) - 1] }
  }
  return undefined
}

/** The line that puts the step of a variant in its place, with its file. */
function findWord(
  files: readonly TextFile[],
  spec: Spec,
  step: string,
): { readonly path: string; readonly word: PlaceWord } | undefined {
  return files
    .filter((file) => file.path.startsWith("variants/") && usesFile(spec, file))
    .flatMap(({ path, text }) => listPlaceWords(text, path).map((word) => ({ path, word })))
    .find(({ word }) => word.step === step)
}

function readSpecs(files: readonly TextFile[]): readonly Spec[] {
  const encoder = new TextEncoder()
  return loadSpecs(files.map(({ path, text }) => ({ path, bytes: encoder.encode(text) }))).value
}

function wantedOf(spec: Spec, order: readonly string[]): readonly string[] {
  const own = new Set(spec.steps.map(({ id }) => id))
  return order.filter((id) => own.has(id))
}

/** Gives every place word whose neighbour is no longer the right one another. */
function moveWords(
  files: readonly TextFile[],
  order: readonly string[],
): { readonly files: readonly TextFile[] } | { readonly refusal: Finding } {
  const specs = readSpecs(files)
  const changed: TextFile[] = []
  for (const file of files) {
    const words = file.path.startsWith("variants/") ? listPlaceWords(file.text, file.path) : []
    const placed = new Set(words.map(({ step }) => step))
    const using = specs.filter((spec) => usesFile(spec, file))
    const neighbours = new Map<string, string>()
    for (const word of words) {
      const wanted = using
        .filter(({ steps }) => steps.some(({ id }) => id === word.step))
        .map((spec) => neighbourIn(wantedOf(spec, order), word, placed))
      const [first] = wanted
      if (wanted.length === 0 || wanted.every((id) => id === word.neighbour)) continue
      if (first === undefined || wanted.some((id) => id !== first)) return refuseWord(file, word, wanted)
      neighbours.set(word.step, first)
    }
    const edit = neighbours.size === 0 ? { text: file.text } : moveSteps(file.text, neighbours, file.path)
    if ("refusal" in edit) return edit
    changed.push({ ...file, text: edit.text })
  }
  return { files: changed }
}

/** True when the variant is made with this variant file. */
function usesFile({ variant }: Spec, { path, text }: TextFile): boolean {
  const header = (key: string): string | undefined => new RegExp(`^${key}:\\s*["']?([\\w-]+)`, "m").exec(text)?.[1]
  const id = header("variant") ?? path.replace(/^.*\//, "").replace(/\.ya?ml$/i, "")
  const axis = header("axis")
  return axis === undefined ? Object.values(variant.axes).includes(id) : variant.axes[axis] === id
}

/** The step next to that of the word, passing over others that the file puts in their place: those keep their order. */
function neighbourIn(
  order: readonly string[],
  { step, word }: PlaceWord,
  placed: ReadonlySet<string>,
): string | undefined {
  const at = order.indexOf(step)
  const side = word === "place-before" ? order.slice(at + 1) : order.slice(0, at).reverse()
  return side.find((id) => !placed.has(id))
}

function refuseWord(
  file: TextFile,
  { step, word, neighbour, spot }: PlaceWord,
  wanted: readonly (string | undefined)[],
): { readonly refusal: Finding } {
  const named = [...new Set(wanted)].flatMap((id) => (id === undefined ? [] : [quote(id)]))
  const where = word === "place-before" ? "before" : "after"
  const other = word === "place-before" ? "place-after" : "place-before"
  return named.length > 1
    ? refuse(file.path, spot, {
        message: `step \`${step}\` would have to stand ${where} ${named.join(" and ")}, by variant`,
        why: `The variants made with \`${file.path}\` have different steps there.`,
        fix: `in step \`${step}\`, change \`${word}: ${neighbour}\` by hand to a step that all of them have`,
      })
    : refuse(file.path, spot, {
        message: `step \`${step}\` would stand ${where} no other step`,
        fix: `in step \`${step}\`, write \`${other}\` in place of \`${word}: ${neighbour}\` by hand`,
      })
}

function refuseMisplaced(files: readonly TextFile[], { spec, step, after }: Misplaced): { readonly refusal: Finding } {
  const where = spec.places[`steps/${step}`]
  const found = findWord(files, spec, step)
  const path = found?.path ?? where?.file ?? "kit.yaml"
  const spot = found?.word.spot ?? { line: where?.line ?? 1, column: where?.column ?? 1, length: step.length }
  const goal = after === undefined ? "first" : `after step \`${after}\``
  return refuse(path, spot, {
    message: `step \`${step}\` of variant \`${spec.variant.id}\` would not come to stand ${goal}`,
    why: "Where a step of a variant stands follows from that file, and changing the order of `kit.yaml` does not bring it there.",
    fix:
      after === undefined
        ? `move step \`${step}\` by hand`
        : `in step \`${step}\`, write \`place-after: ${after}\` by hand`,
  })
}
