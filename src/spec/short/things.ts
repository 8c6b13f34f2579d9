/** Counted fasteners, ties and pads, cable ends, holes of shapes, names in lists. */
import { nameOf } from "../names.ts"
import { cut, hole, type Scalar, shortMap, type Tree, valueAt } from "../read/tree.ts"
import type { ShortForm } from "../schema/forms.ts"
import { fault, quote } from "../tell.ts"
import { readSizes, splitAt, unreadable } from "./places.ts"

const countPattern = /^\s*(\d{1,5})\s*[x×*]\s+(?=\S)|^\s*(\d{1,5})[x×*](?=[A-Za-z])/i

/** Splits `2 x rest` into count and rest; without a count there is one. */
export function splitCount(scalar: Scalar): {
  readonly count: Scalar
  readonly rest: Scalar
  readonly isCounted: boolean
} {
  const match = countPattern.exec(scalar.written)
  if (match === null) return { count: valueAt(scalar.span, 1), rest: scalar, isCounted: false }
  const digits = match[1] ?? match[2] ?? "1"
  const from = scalar.written.indexOf(digits)
  const count = cut(scalar, from, from + digits.length)
  return {
    count: { ...count, value: Number(digits) },
    rest: cut(scalar, match[0].length, scalar.written.trimEnd().length),
    isCounted: true,
  }
}

/** `2 x ISO 4762 M4x14` to count and designation. */
export const fastenersForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const { count, rest } = splitCount(tree)
  if (!/[A-Za-z]/.test(rest.written)) return unreadable(tree, at, "a count and a designation", "2 x ISO 4762 M4x14")
  return shortMap(tree.span, { count, of: rest })
}

/** `4 x 4.8x300` to count, width and length of ties. */
export const tiesForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const { count, rest } = countedSizes(tree)
  if (rest.written.split(/[x×*]/i).length !== 2) return unreadable(tree, at, "a count, width and length", "4 x 4.8x300")
  const sizes = readSizes(rest, at)
  if (sizes === undefined) return hole(tree.span)
  const [width, length] = sizes
  return shortMap(tree.span, { count, width, length })
}

/** `2 x 60 x 20 x 1.5` to count and size of pads; `60 x 20` is one pad of unknown thickness. */
export const padsForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  if (/^\s*\d+\s*$/.test(tree.written)) return shortMap(tree.span, { count: tree })
  const parts = splitAt(tree, /\s*[x×*]\s*/gi)
  if (parts.length === 4) {
    const [count, first] = parts
    if (count !== undefined && first !== undefined) {
      return shortMap(tree.span, {
        count,
        size: cut(tree, tree.written.indexOf(first.written, count.written.length), tree.written.length),
      })
    }
  }
  if (parts.length === 3) return shortMap(tree.span, { count: valueAt(tree.span, 1), size: tree })
  return unreadable(tree, at, "a count and length x width x thickness", "2 x 60 x 20 x 1.5")
}

/** A count stands before the sizes only when a space follows its `x`, or when three numbers are there. */
function countedSizes(tree: Scalar): { readonly count: Scalar; readonly rest: Scalar } {
  const parts = splitAt(tree, /\s*[x×*]\s*/gi)
  const [first] = parts
  if (parts.length !== 3 || first === undefined) return { count: valueAt(tree.span, 1), rest: tree }
  const after = /\s*[x×*]\s*/i.exec(tree.written)
  const from = (after?.index ?? 0) + (after?.[0].length ?? 0)
  return { count: first, rest: cut(tree, from, tree.written.length) }
}

/** `12 x 9`, `round 12`, `fixed`, `connected to driver.out`, joined by commas, to a cable end. */
export const endForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar") return tree
  if (tree.value === null) return tree
  const parts: Record<string, Tree> = {}
  for (const part of splitAt(tree, /\s*,\s*(?![\d])/g)) {
    const connected = /^\s*connected\s+(?:to\s+)?(.+?)\s*$/i.exec(part.written)
    if (/^\s*fixed\s*$/i.test(part.written)) parts.fixed = valueAt(part.span, true)
    else if (/^\s*(free|loose)\s*$/i.test(part.written)) parts.fixed = valueAt(part.span, false)
    else if (connected !== null)
      parts.connected = cut(part, part.written.lastIndexOf(connected[1] ?? ""), part.written.trimEnd().length)
    else if (/\d/.test(part.written)) parts.size = part
    else return unreadable(tree, at, "a size, `fixed` or `connected to` a socket", "12 x 9")
  }
  return shortMap(tree.span, parts)
}

/** `4.3 at 10, 10`, `14 x 10 at 20, 30 along down depth 8` to a hole of a shape. */
export const shapeHoleForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const match = /^\s*(.+?)\s+at\s+(.+?)(?:\s+along\s+(\S+))?(?:\s+depth\s+(.+?))?\s*$/i.exec(tree.written)
  if (match === null) return unreadable(tree, at, "a size and a point", "4.3 at 10, 10")
  const [, size = "", point = "", along, depth] = match
  const part = (text: string, after: number): Scalar => {
    const from = tree.written.indexOf(text, after)
    return cut(tree, from, from + text.length)
  }
  const pointAt = tree.written.search(/\sat\s/i) + 4
  const sizePart = part(size.replace(/^(round|⌀|ø)\s*/i, ""), 0)
  return shortMap(tree.span, {
    ...(/[x×*]/i.test(size) ? { size: sizePart } : { diameter: sizePart }),
    at: part(point, pointAt),
    along: along === undefined ? undefined : part(along, tree.written.search(/\salong\s/i) + 7),
    depth: depth === undefined ? undefined : part(depth, tree.written.search(/\sdepth\s/i) + 7),
  })
}

/** `plate`, `washer-plate, plate` or a list, to a list of names. */
export const namesForm: ShortForm = (tree) => {
  if (tree.kind === "scalar" && tree.value !== null) {
    const items = splitAt(tree, /\s*,\s*/g).filter((part) => part.written.trim() !== "")
    return { kind: "list", items, span: tree.span }
  }
  return tree
}

/** Makes a map of one key from a single value: `model: driver.stl` is `model: { file: driver.stl }`. */
export function keyForm(key: string): ShortForm {
  return (tree) => (tree.kind === "scalar" && tree.value !== null ? shortMap(tree.span, { [key]: tree }) : tree)
}

/** Path of a file in the kit's folder; one that leads out of it is refused. */
export const fileForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const file = tree.written
  const leavesKit =
    /^([/\\~]|[A-Za-z]:)/.test(file) || file.split(/[/\\]/).includes("..") || /^[a-z][a-z0-9+.-]+:/i.test(file)
  if (leavesKit) {
    const message = `${nameOf(at.path)} is ${quote(file, 40)}, which lies outside the kit's folder`
    at.tell(
      fault("mesh-outside-kit", "error", {
        message,
        at: tree.span,
        path: at.path,
        fix: "copy the file into `models/` and write its name",
      }),
    )
    return hole(tree.span)
  }
  return { ...tree, value: file.replaceAll("\\", "/").replace(/^(\.\/)+/, "") }
}

/** Slot: `6 x 2 in saddle`. */
export const slotForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const match = /^\s*(.+?)\s+in\s+([a-z][\w.-]*)\s*$/.exec(tree.written)
  if (match === null) return unreadable(tree, at, "a size and the part that has the slot", "6 x 2 in saddle")
  const [, size = "", part = ""] = match
  const partAt = tree.written.lastIndexOf(part)
  return shortMap(tree.span, {
    size: cut(tree, tree.written.indexOf(size), tree.written.indexOf(size) + size.length),
    in: cut(tree, partAt, partAt + part.length),
  })
}

/** `needs-after: [other]` and `{ other: reason }` to a list of `{ step, why }`. */
export const needsForm: ShortForm = (tree, at) => {
  if (tree.kind === "scalar" && tree.value !== null) return needsForm(namesForm(tree, at), at)
  if (tree.kind === "map") {
    const isLong = tree.entries.some((entry) => entry.key === "step")
    if (isLong) return { kind: "list", items: [tree], span: tree.span }
    const items = tree.entries.map((entry) => needOf(entry.key, entry.keySpan, entry.value))
    return { kind: "list", items, span: tree.span }
  }
  if (tree.kind !== "list") return tree
  const items = tree.items.map((item) => {
    if (item.kind === "scalar" && item.value !== null) return shortMap(item.span, { step: item })
    const [only] = item.kind === "map" && item.entries.length === 1 ? item.entries : []
    return only === undefined || only.key === "step" ? item : needOf(only.key, only.keySpan, only.value)
  })
  return { ...tree, items }
}

function needOf(step: string, span: Scalar["span"], why: Tree): Tree {
  const isSilent = why.kind === "scalar" && why.value === null
  return shortMap(span, { step: valueAt(span, step), why: isSilent ? undefined : why })
}
