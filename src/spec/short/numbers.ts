/** Single numbers and ranges with units, yes and no, counts. */
import { baseUnit, parseNumber, splitRange } from "../../units/parse.ts"
import { trimmed } from "../../units/print.ts"
import type { Dimension } from "../../units/types.ts"
import { nameOf } from "../names.ts"
import { cut, hole, type Scalar, shortMap, type Tree, valueAt } from "../read/tree.ts"
import type { At, ShortForm } from "../schema/forms.ts"
import { fault, quote } from "../tell.ts"

/** Examples of numbers with a unit, by dimension. */
const examples: Readonly<Record<Dimension, string>> = {
  length: "`12`, `12 mm` or `0.5 in`",
  angle: "`30` or `30°`",
  force: "`120`, `120 N` or `27 lbf`",
  torque: "`0.5`, `0.5 N·m` or `4.4 lbf in`",
  mass: "`1.2`, `1.2 kg` or `900 g`",
  duration: "`45`, `45 min` or `2 h`",
  temperature: "`40` or `40 °C`",
  area: "`84 mm²`",
  share: "`0.3` or `0.3 %`",
}

/** Reads one number; tells what is wrong with it and gives undefined. A decimal comma is taken, with a note. */
export function readNumber(scalar: Scalar, dimension: Dimension, at: At): number | undefined {
  if (typeof scalar.value === "number" && Number.isFinite(scalar.value)) return scalar.value
  const name = nameOf(at.path)
  const parsed = parseNumber(scalar.written, dimension)
  const tell = (id: string, words: { message: string; fix: string; why?: string }): undefined => {
    at.tell(fault(id, "error", { ...words, at: scalar.span, path: at.path }))
    return undefined
  }
  const written = quote(scalar.written, 24)
  switch (parsed.is) {
    case "number":
      if (parsed.hasComma) {
        const message = `${name} is written ${written}; it was read as ${trimmed(parsed.value, 4)} ${baseUnit[dimension]}`
        at.tell(
          fault("decimal-comma", "note", { message, at: scalar.span, path: at.path, fix: "write a decimal point" }),
        )
      }
      return parsed.value
    case "ambiguous":
      return tell("ambiguous-number", {
        message: `${name} is written ${written}, which is ${trimmed(parsed.asDecimal, 4)} to some and ${trimmed(parsed.asThousands, 4)} to others`,
        fix: "write a decimal point, or no mark between thousands",
      })
    case "other-dimension":
      return tell("wrong-unit", {
        message: `${name} is ${written}; \`${parsed.unit}\` measures ${words[parsed.dimension]}, needed is ${words[dimension]}`,
        fix: `write ${examples[dimension]}`,
      })
    case "unknown-unit":
      return tell("unknown-unit", {
        message: `${name} is ${written}; \`${parsed.unit}\` is no unit that is known here`,
        fix: `write ${examples[dimension]}`,
      })
    case "no-number":
      return tell("not-a-number", {
        message: `${name} is the text ${written}; needed is a number`,
        fix: `write ${examples[dimension]}`,
      })
  }
}

const words: Readonly<Record<Dimension, string>> = {
  length: "a length",
  angle: "an angle",
  force: "a force",
  torque: "a torque",
  mass: "a mass",
  duration: "a time",
  temperature: "a temperature",
  area: "an area",
  share: "a share",
}

/** A single number of a dimension. */
export function numberForm(dimension: Dimension): ShortForm {
  return (tree, at) => {
    if (tree.kind !== "scalar" || tree.value === null) return tree
    const value = readNumber(tree, dimension, at)
    return value === undefined ? hole(tree.span) : { ...tree, value }
  }
}

/** `31.5 to 32.5`, `32`, `up to 45` to `{ min, max }`. */
export function rangeForm(dimension: Dimension): ShortForm {
  return (tree, at) => {
    if (tree.kind !== "scalar" || tree.value === null) return tree
    const range = splitRange(tree.written)
    if (range === undefined) {
      const message = `${nameOf(at.path)} is the text ${quote(tree.written, 24)}; needed is a number or a range`
      at.tell(fault("not-a-number", "error", { message, at: tree.span, path: at.path, fix: "write `31.5 to 32.5`" }))
      return hole(tree.span)
    }
    const end = (text: string | undefined, from: number): Tree | undefined => {
      if (text === undefined) return undefined
      const part = { ...cut(tree, from, from + text.length), value: text, written: text }
      const value = readNumber(part, dimension, at)
      return value === undefined ? hole(part.span) : valueAt(part.span, value)
    }
    if (range.min === range.max) {
      const both = end(range.min, range.minAt)
      return both?.kind === "hole" ? hole(tree.span) : shortMap(tree.span, { min: both, max: both })
    }
    const min = end(range.min, range.minAt)
    const max = end(range.max, range.maxAt)
    if (min?.kind === "hole" || max?.kind === "hole") return hole(tree.span)
    if (min?.kind === "scalar" && max?.kind === "scalar" && Number(min.value) > Number(max.value)) {
      const message = `${nameOf(at.path)} is ${quote(tree.written, 24)}; its lower end is above its upper one`
      const fix = `write ${quote(`${range.max} to ${range.min}`)}`
      at.tell(fault("range-reversed", "error", { message, at: tree.span, path: at.path, fix }))
      return hole(tree.span)
    }
    return shortMap(tree.span, { min, max })
  }
}

const yes = new Set(["yes", "true", "on", "y"])
const no = new Set(["no", "false", "off", "n"])

/** `yes`, `no`, `on`, `off`, `true`, `false`. */
export const flagForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null || typeof tree.value === "boolean") return tree
  const word = tree.written.toLowerCase()
  if (yes.has(word) || no.has(word)) return { ...tree, value: yes.has(word) }
  const message = `${nameOf(at.path)} is ${quote(tree.written)}; needed is \`yes\` or \`no\``
  at.tell(fault("not-yes-or-no", "error", { message, at: tree.span, path: at.path, fix: "write `yes` or `no`" }))
  return hole(tree.span)
}

/** `yes` and `no`, else `4 to 6.5` to `{ min, max }`. */
export const glandForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const isWord =
    typeof tree.value === "boolean" || yes.has(tree.written.toLowerCase()) || no.has(tree.written.toLowerCase())
  return isWord ? flagForm(tree, at) : rangeForm("length")(tree, at)
}

/** A whole number, `2` or `2 x`. */
export const countForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const match = /^\+?(\d{1,6})(?:\.0+)?\s*(?:x|×|pcs\.?|pieces)?$/i.exec(tree.written.trim())
  if (match !== null) return { ...tree, value: Number(match[1]) }
  const message = `${nameOf(at.path)} is ${quote(tree.written)}; needed is a whole number`
  at.tell(fault("not-a-count", "error", { message, at: tree.span, path: at.path, fix: "write a number such as `2`" }))
  return hole(tree.span)
}

/** Words and names: a number typed where a text belongs keeps its letters (`B`, `2`, `1e3`). */
export const textForm: ShortForm = (tree) => {
  if (tree.kind !== "scalar" || tree.value === null || typeof tree.value === "string") return tree
  return { ...tree, value: tree.written }
}

/** A range or number that stands for an upper limit, `up to 1.2 kg`. */
export function limitForm(dimension: Dimension): ShortForm {
  return (tree, at) => {
    if (tree.kind !== "scalar" || typeof tree.value !== "string") return numberForm(dimension)(tree, at)
    const match = /^\s*(?:up to|at most)\s+/i.exec(tree.written)
    return numberForm(dimension)(match === null ? tree : cut(tree, match[0].length, tree.written.length), at)
  }
}
