/** The raw tree of a YAML file: maps, lists and single values, each with its place. Plain data. */
import type { Place } from "../../findings/types.ts"
import type { SourceText } from "../../text/types.ts"

/** A place without the path of names, which is only known once the variant is put together. */
export type Span = Omit<Place, "path">

export type Scalar = {
  readonly kind: "scalar"
  /** As YAML reads it, or the value in base units once a measure was read. */
  readonly value: string | number | boolean | null
  /** As typed, quotes and block marks taken off. */
  readonly written: string
  /** A key with nothing behind it, as against a typed `null`. */
  readonly isEmpty: boolean
  readonly stretches: SourceText["stretches"]
  readonly span: Span
}

export type Entry = {
  readonly key: string
  readonly keySpan: Span
  readonly value: Tree
  /** The entry says `new: true` (variant files only). */
  readonly isNew: boolean
}

export type TreeMap = {
  readonly kind: "map"
  readonly entries: readonly Entry[]
  readonly span: Span
  /** Made from a short form: its parts share one cause. */
  readonly isShort: boolean
}

type TreeList = { readonly kind: "list"; readonly items: readonly Tree[]; readonly span: Span }

/** A value that was found faulty and reported; later stages pass over it in silence. */
export type Hole = { readonly kind: "hole"; readonly span: Span }

export type Tree = Scalar | TreeMap | TreeList | Hole

/** Gives the value under `key`, or undefined. */
export function childOf(tree: Tree | undefined, key: string): Tree | undefined {
  if (tree?.kind === "map") return tree.entries.find((entry) => entry.key === key)?.value
  if (tree?.kind === "list") return tree.items[Number(key)]
  return undefined
}

/** Gives the value at a path of names, or undefined. */
export function treeAt(tree: Tree | undefined, path: readonly string[]): Tree | undefined {
  return path.reduce<Tree | undefined>((reached, key) => childOf(reached, key), tree)
}

/** Makes the stand-in for a value that was found faulty and told. */
export function hole(span: Span): Hole {
  return { kind: "hole", span }
}

/** Makes a map of a short form from its parts; parts that are undefined are left out. */
export function shortMap(span: Span, parts: Readonly<Record<string, Tree | undefined>>): TreeMap {
  const entries = Object.entries(parts).flatMap(([key, value]) =>
    value === undefined ? [] : [{ key, keySpan: value.span, value, isNew: false }],
  )
  return { kind: "map", entries, span, isShort: true }
}

/** Makes a single value that stands for a part of a short form. */
export function valueAt(span: Span, value: string | number | boolean): Scalar {
  return { kind: "scalar", value, written: String(value), isEmpty: false, stretches: [], span }
}

/** Cuts the letters from `start` to `end` out of a single value, with their place when they stand on one line. */
export function cut(scalar: Scalar, start: number, end: number): Scalar {
  const written = scalar.written.slice(start, end)
  const span = spanOfCut(scalar, start, end)
  const later = scalar.stretches.filter((stretch) => stretch.at > start && stretch.at < end)
  const first = scalar.stretches.length === 0 ? [] : [{ at: 0, line: span.line, column: span.column }]
  const stretches = [...first, ...later.map((stretch) => ({ ...stretch, at: stretch.at - start }))]
  return { ...scalar, value: written, written, stretches, span }
}

function spanOfCut(scalar: Scalar, start: number, end: number): Span {
  const first = scalar.stretches.findLast((stretch) => stretch.at <= start)
  const last = scalar.stretches.findLast((stretch) => stretch.at < Math.max(end, start + 1))
  if (first === undefined || last === undefined) return scalar.span
  return {
    file: scalar.span.file,
    line: first.line,
    column: first.column + start - first.at,
    endLine: last.line,
    endColumn: last.column + end - last.at,
  }
}
