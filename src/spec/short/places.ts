/** Points, directions, sizes, openings, tube profiles, and where holes are. */
import { nearNames } from "../../findings/near.ts"
import { parseNumber } from "../../units/parse.ts"
import type { Dimension } from "../../units/types.ts"
import { nameOf } from "../names.ts"
import { cut, hole, type Scalar, shortMap, type Tree, valueAt } from "../read/tree.ts"
import type { At, ShortForm } from "../schema/forms.ts"
import { fault, quote } from "../tell.ts"
import { numberForm, readNumber } from "./numbers.ts"
import { pointsForm } from "./points.ts"

/** Directions by name: unit vectors, x to the right, y to the back, z up. */
const directionWords: Readonly<Record<string, readonly [number, number, number]>> = {
  down: [0, 0, -1],
  up: [0, 0, 1],
  left: [-1, 0, 0],
  right: [1, 0, 0],
  front: [0, -1, 0],
  back: [0, 1, 0],
  x: [1, 0, 0],
  y: [0, 1, 0],
  z: [0, 0, 1],
  "-x": [-1, 0, 0],
  "-y": [0, -1, 0],
  "-z": [0, 0, -1],
}

/** Tells that a short form could not be read, with the form it should have. */
export function unreadable(tree: Scalar, at: At, needed: string, example: string): Tree {
  const message = `${nameOf(at.path)} is ${quote(tree.written)}; needed is ${needed}`
  at.tell(
    fault("unreadable-value", "error", { message, at: tree.span, path: at.path, fix: `write it like \`${example}\`` }),
  )
  return hole(tree.span)
}

/** `10, 20, 30` or `[10, 20, 30]` to a list of numbers of one dimension. */
export function tripleForm(dimension: Dimension, least = 3): ShortForm {
  return (tree, at) => {
    if (tree.kind === "hole" || tree.kind === "map") return tree
    if (tree.kind === "scalar") {
      if (tree.value === null) return tree
      const bare = withoutBrackets(tree)
      const parts = splitAt(bare, /\s*[,;]\s*|\s+(?=[-+.\d])/g)
      if (parts.length < least || parts.length > 3) return unreadable(tree, at, "x, y and z", "10, 20, 30")
      return numbers({ kind: "list", items: parts, span: tree.span }, dimension, at)
    }
    if (tree.items.length < least || tree.items.length > 3) {
      const message = `${nameOf(at.path)} has ${tree.items.length} numbers; needed are x, y and z`
      at.tell(
        fault("wrong-number-count", "error", {
          message,
          at: tree.span,
          path: at.path,
          fix: "write `[10, 20, 30]`, with decimal points",
        }),
      )
      return hole(tree.span)
    }
    return numbers(tree, dimension, at)
  }
}

/** `[10, 20]` inside a text, where YAML leaves the brackets in. */
function withoutBrackets(scalar: Scalar): Scalar {
  const match = /^\s*[[(]\s*(.*?)\s*[\])]\s*$/.exec(scalar.written)
  const inner = match?.[1]
  if (inner === undefined) return scalar
  const from = scalar.written.indexOf(inner)
  return cut(scalar, from, from + inner.length)
}

function numbers(list: Extract<Tree, { kind: "list" }>, dimension: Dimension, at: At): Tree {
  const items = list.items.map((item) => numberForm(dimension)(item, at))
  if (items.some((item) => item.kind === "hole")) return hole(list.span)
  return { ...list, items }
}

/** Cuts a text at a separator; each part keeps its place. */
export function splitAt(scalar: Scalar, separator: RegExp): readonly Scalar[] {
  const parts: Scalar[] = []
  let from = 0
  for (const match of scalar.written.matchAll(separator)) {
    parts.push(cut(scalar, from, match.index))
    from = match.index + match[0].length
  }
  parts.push(cut(scalar, from, scalar.written.length))
  return parts
}

/** A direction word (`down`), an axis (`x`) or three numbers, to a unit vector. */
export const directionForm: ShortForm = (tree, at) => {
  if (tree.kind === "scalar" && tree.value !== null) {
    const vector = Object.hasOwn(directionWords, tree.written.toLowerCase())
      ? directionWords[tree.written.toLowerCase()]
      : undefined
    if (vector !== undefined) return listOf(tree, vector)
    if (!/\d/.test(tree.written))
      return unreadable(tree, at, "`up`, `down`, `left`, `right`, `front` or `back`", nearDirection(tree.written))
  }
  const triple = tripleForm("length")(tree, at)
  if (triple.kind !== "list") return triple
  const values = triple.items.map((item) => (item.kind === "scalar" && typeof item.value === "number" ? item.value : 0))
  const length = Math.hypot(...values)
  if (length > 0) return { ...triple, items: values.map((value) => valueAt(triple.span, value / length)) }
  at.tell(
    fault("no-direction", "error", {
      message: `${nameOf(at.path)} has no length, so it points nowhere`,
      at: tree.span,
      path: at.path,
      fix: "write `down`, or `[0, 0, -1]`",
    }),
  )
  return hole(tree.span)
}

/** Natural words for directions that have another name here. */
const otherWords: Readonly<Record<string, string>> = {
  top: "up",
  above: "up",
  upward: "up",
  upwards: "up",
  bottom: "down",
  below: "down",
  downward: "down",
  downwards: "down",
  rear: "back",
  behind: "back",
  backward: "back",
  backwards: "back",
  forward: "front",
  forwards: "front",
  ahead: "front",
}

/** The direction that was most likely meant; `down` when nothing is near. */
function nearDirection(written: string): string {
  const word = written.trim().toLowerCase()
  const words = ["up", "down", "left", "right", "front", "back"]
  const meant = Object.hasOwn(otherWords, word) ? otherWords[word] : undefined
  return meant ?? nearNames(word, words)[0] ?? "down"
}

function listOf(tree: Scalar, values: readonly number[]): Tree {
  return { kind: "list", items: values.map((value) => valueAt(tree.span, value)), span: tree.span }
}

/** Sizes joined by `x`: `80 x 60 x 40`, `12x9`, `0.5 in x 0.4 in`. A unit at the end counts for all. */
export function readSizes(scalar: Scalar, at: At): readonly Tree[] | undefined {
  const parts = splitAt(scalar, /\s*[x×*]\s*/gi)
  const unit = /(?<=\d\s*)[a-z"″]+\s*$/i.exec(parts.at(-1)?.written ?? "")?.[0] ?? ""
  const sizes: Tree[] = []
  for (const part of parts) {
    const isBare = unit !== "" && parseNumber(part.written, "length").is === "number" && /\d\s*$/.test(part.written)
    const value = readNumber(
      isBare ? { ...part, value: `${part.written} ${unit}`, written: `${part.written} ${unit}` } : part,
      "length",
      at,
    )
    if (value === undefined) return undefined
    sizes.push(valueAt(part.span, value))
  }
  return sizes
}

/** `80 x 60 x 40` or a list, to a list of `count` lengths. */
export function sizesForm(count: number, example: string): ShortForm {
  return (tree, at) => {
    if (tree.kind === "list") {
      const items = tree.items.map((item) => numberForm("length")(item, at))
      return items.some((item) => item.kind === "hole") ? hole(tree.span) : { ...tree, items }
    }
    if (tree.kind !== "scalar" || tree.value === null) return tree
    if (tree.written.split(/[x×*]/i).length !== count) return unreadable(tree, at, `${count} lengths`, example)
    const items = readSizes(tree, at)
    return items === undefined ? hole(tree.span) : { kind: "list", items, span: tree.span }
  }
}

/** `14 x 10`, `14 x 10 corner 2`, `round 12`, `obround 20 x 8` to a map with its kind. */
export const outlineForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const match =
    /^\s*(round|circle|obround|slot|square|rectangle|⌀|ø)?\s*([^a-z]*?(?:mm|cm|in)?(?:\s*[x×*].*?)?)\s*(?:(?:corner|r)\s*(.+))?\s*$/i.exec(
      tree.written,
    )
  const [, word = "", sizes = "", corner] = match ?? []
  const kind = /^(round|circle|⌀|ø)$/i.test(word) ? "circle" : /^(obround|slot)$/i.test(word) ? "obround" : "rectangle"
  const from = tree.written.indexOf(sizes, word.length)
  const needed = "`width x height` or `round diameter`"
  if (sizes === "") return unreadable(tree, at, needed, "14 x 10")
  const values = readSizes(cut(tree, from, from + sizes.length), at)
  if (values === undefined) return hole(tree.span)
  const [width, height = /^square$/i.test(word) ? width : undefined] = values
  const kindTree = valueAt(tree.span, kind)
  if (kind === "circle") {
    return values.length === 1
      ? shortMap(tree.span, { kind: kindTree, diameter: width })
      : unreadable(tree, at, needed, "round 12")
  }
  if (height === undefined || values.length > 2) return unreadable(tree, at, needed, "14 x 10")
  const cornerTree =
    corner === undefined
      ? undefined
      : numberForm("length")(cut(tree, tree.written.lastIndexOf(corner), tree.written.length), at)
  if (cornerTree?.kind === "hole") return cornerTree
  return shortMap(tree.span, {
    kind: kindTree,
    width,
    height,
    corner: kind === "rectangle" ? (cornerTree ?? valueAt(tree.span, 0)) : undefined,
  })
}

/** `round 32`, `square 40`, `square 40 x 30 corner 3` to a map with its kind. */
export const profileForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const word = /^\s*(round|square|rectangle|rectangular)\b/i.exec(tree.written)?.[1]?.toLowerCase()
  if (word === undefined) return unreadable(tree, at, "`round` or `square` and a size", "round 32")
  const outline = outlineForm(word === "round" ? tree : squareOf(tree), at)
  if (outline.kind !== "map") return outline
  const kind = valueAt(tree.span, word === "round" ? "round" : "square")
  return {
    ...outline,
    entries: outline.entries.map((entry) => (entry.key === "kind" ? { ...entry, value: kind } : entry)),
  }
}

function squareOf(tree: Scalar): Scalar {
  return { ...tree, written: tree.written.replace(/^(\s*)(rectangular)/i, "$1rectangle  ") }
}

/** `10, 20, 5` or `10, 20, 5 along down`, to a map of point and direction. */
export const pointForm: ShortForm = (tree, _at) => {
  if (tree.kind === "list") return shortMap(tree.span, { at: tree })
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const [point, along] = splitAt(tree, /\s+along\s+/gi)
  return shortMap(tree.span, { at: point, along })
}

/** `4.3 in plate`, `4.3 in plate along down` to the holes of a mesh; a list of points stays one. */
export const holesForm: ShortForm = (tree, at) => {
  if (tree.kind === "scalar" && tree.value !== null) {
    const match =
      /^\s*(?:[⌀ø]\s*)?(.+?)\s+in\s+\[?\s*([A-Za-z][\w.-]*(?:\s*(?:,|and)\s*[A-Za-z][\w.-]*)*)\s*\]?(?:\s+along\s+(.+?))?\s*$/.exec(
        tree.written,
      )
    if (match === null) return unreadable(tree, at, "a diameter and the part that has the holes", "4.3 in plate")
    const [, size = "", part = "", along] = match
    const sizeAt = tree.written.indexOf(size)
    const partAt = tree.written.indexOf(part, sizeAt + size.length)
    return shortMap(tree.span, {
      diameter: cut(tree, sizeAt, sizeAt + size.length),
      in: {
        kind: "list",
        items: splitAt(cut(tree, partAt, partAt + part.length), /\s*,\s*|\s+and\s+/g),
        span: tree.span,
      },
      along: along === undefined ? undefined : cut(tree, tree.written.lastIndexOf(along), tree.written.length),
    })
  }
  // A map without a diameter is one point typed alone.
  const isFound = tree.kind === "map" && !tree.entries.some((entry) => entry.key === "at")
  return isFound ? tree : pointsForm(tree, at)
}
