/** `place-before` and `place-after` in the text of a variant file: where they stand, and giving them another neighbour. */
import { isMap, isScalar, type Scalar } from "yaml"
import type { Finding } from "../../findings/types.ts"
import { findSteps } from "./find-steps.ts"
import { joinLines, plainText, splitLines } from "./lines.ts"
import { type Edit, refuse, type Spot } from "./refuse.ts"

/** One such line: `step` is to stand before or after `neighbour`. */
export type PlaceWord = {
  readonly step: string
  readonly word: "place-before" | "place-after"
  readonly neighbour: string
  readonly spot: Spot
}

type Found = PlaceWord & { readonly scalar: Scalar }

/** Gives the place words of a text, in the order of writing; none where its steps cannot be read. */
export function listPlaceWords(text: string, file: string): readonly PlaceWord[] {
  const found = findWords(text, file)
  return "refusal" in found ? [] : found.map(({ scalar: _, ...word }) => word)
}

/**
 * Gives the text with another neighbour in the place words of some steps; nothing else of it changes, and a name in quotes
 * stays in quotes. Refuses where a step has no such word, or more than one.
 */
export function moveSteps(text: string, neighbours: ReadonlyMap<string, string>, file: string): Edit {
  const found = findWords(text, file)
  if ("refusal" in found) return found
  const whole = splitLines(text)
  const lines = [...whole.lines]
  for (const [step, neighbour] of neighbours) {
    const words = found.filter((word) => word.step === step)
    const [word] = words
    if (word === undefined || words.length > 1) {
      return refuse(file, word?.spot ?? { line: 1, column: 1 }, {
        message: `step \`${step}\` has ${words.length === 0 ? "no line" : "two lines"} that says where it stands`,
        fix: `write \`place-after\` or \`place-before\` once in step \`${step}\``,
      })
    }
    const { line, column } = word.spot
    const old = lines[line - 1]
    if (old === undefined) continue
    const [start = 0, end = 0] = word.scalar.range ?? []
    const typed = old.text.slice(column - 1, column - 1 + end - start)
    const quoteMark = /^["']/.exec(typed)?.[0] ?? (/^(null|true|false)$/.test(neighbour) ? '"' : "")
    const written = `${quoteMark}${neighbour}${quoteMark}`
    // Words further right on this line move along; each line holds at most the words that were found on it before.
    lines[line - 1] = {
      ...old,
      text: old.text.slice(0, column - 1) + written + old.text.slice(column - 1 + typed.length),
    }
    const shift = written.length - typed.length
    for (const [index, other] of found.entries()) {
      const isBehind = other.spot.line === line && other.spot.column > column
      if (isBehind) found[index] = { ...other, spot: { ...other.spot, column: other.spot.column + shift } }
    }
  }
  return { text: joinLines({ ...whole, lines }) }
}

function findWords(text: string, file: string): Found[] | { readonly refusal: Finding } {
  const found = findSteps(plainText(splitLines(text)), file)
  if ("refusal" in found) return found
  return found.pairs.flatMap(({ id, value }): readonly Found[] => {
    if (!isMap(value)) return []
    return value.items.flatMap(({ key, value: named }): readonly Found[] => {
      const word =
        isScalar(key) && (key.value === "place-before" || key.value === "place-after") ? key.value : undefined
      if (word === undefined || !isScalar(named) || typeof named.value !== "string") return []
      const [start = 0, end = 0] = named.range ?? []
      const { line, col } = found.counter.linePos(start)
      return [
        { step: id, word, neighbour: named.value, spot: { line, column: col, length: end - start }, scalar: named },
      ]
    })
  })
}
