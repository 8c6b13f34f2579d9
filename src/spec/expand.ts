/** Brings a raw tree to the long form, guided by the schema: short forms, units, yes and no, near names of keys. */
import { z } from "zod"
import { joinCommas, keepExclusive, keepKnown } from "./keys.ts"
import { nameOf } from "./names.ts"
import { childOf, type Entry, hole, type Tree, type TreeMap, valueAt } from "./read/tree.ts"
import { type At, formOf, inside } from "./schema/forms.ts"
import { fault, oneOfWords, quote, type Tell } from "./tell.ts"

export type Expansion = At & {
  /** `null` removes and `new: true` is a word of variant files. */
  readonly isVariant: boolean
  /** The same value in `kit.yaml`, which tells the kind that a variant file leaves out. */
  readonly base: Tree | undefined
}

/** Gives the long form; faulty values become holes and are told once. */
export function expand(tree: Tree, schema: z.core.$ZodType, at: Expansion): Tree {
  const bare = inside(schema)
  const form = formOf(bare)
  if (tree.kind === "hole") return tree
  if (tree.kind === "scalar" && tree.value === null) return expandNull(tree, bare, at)
  const listed: Tree =
    form.isListOfOne === true && form.short === undefined && tree.kind !== "list"
      ? { kind: "list", items: [tree], span: tree.span }
      : tree
  const long = form.short === undefined ? listed : form.short(listed, at)
  if (bare instanceof z.ZodDiscriminatedUnion) return expandKind(long, bare, at)
  const chosen = bare instanceof z.ZodUnion ? chooseByShape(long, bare) : bare
  // An option of a union has short forms of its own.
  if (chosen !== bare) return expand(long, chosen, at)
  if (long.kind === "map" && chosen instanceof z.ZodObject) return expandObject(long, chosen, at)
  if (long.kind === "map" && chosen instanceof z.ZodRecord) return expandRecord(long, chosen, at)
  if (long.kind === "list" && chosen instanceof z.ZodArray) {
    const items = long.items.map((item, index) =>
      expand(item, chosen.element, { ...below(at, String(index)), isVariant: false }),
    )
    return { ...long, items: items.filter((item) => item.kind !== "hole") }
  }
  return long
}

function below(at: Expansion, key: string): Expansion {
  return { ...at, path: [...at.path, key], base: childOf(at.base, key) }
}

function expandNull(tree: Extract<Tree, { kind: "scalar" }>, schema: z.core.$ZodType, at: Expansion): Tree {
  if (at.isVariant && !tree.isEmpty) return tree
  const isMap =
    schema instanceof z.ZodObject || schema instanceof z.ZodRecord || schema instanceof z.ZodDiscriminatedUnion
  if (isMap && formOf(schema).isNeverEmpty !== true)
    return expand({ kind: "map", entries: [], span: tree.span, isShort: false }, schema, at)
  const fix = at.isVariant ? "write a value, or `null` to remove it" : "write a value, or take the line out"
  const message = `${nameOf(at.path)} has no value`
  at.tell(fault("value-missing", "error", { message, at: tree.span, path: at.path, fix }))
  return hole(tree.span)
}

/** Unions are told apart by what is written: a map, a list or a single value. */
function chooseByShape(tree: Tree, union: z.ZodUnion): z.core.$ZodType {
  const options = union.options.map((option) => option)
  const fits = (option: z.core.$ZodType): boolean => {
    const bare = inside(option)
    if (tree.kind === "map")
      return bare instanceof z.ZodObject || bare instanceof z.ZodRecord || bare instanceof z.ZodDiscriminatedUnion
    if (tree.kind === "list") return bare instanceof z.ZodArray || bare instanceof z.ZodTuple
    return bare instanceof z.ZodString || bare instanceof z.ZodNumber
  }
  return options.find(fits) ?? union
}

function expandKind(tree: Tree, union: z.ZodDiscriminatedUnion, at: Expansion): Tree {
  if (tree.kind !== "map") return tree
  const form = formOf(union)
  const keys = tree.entries.map((entry) => entry.key)
  const typed = childOf(tree, "kind")
  const base = childOf(at.base, "kind")
  const typedKind = typed?.kind === "scalar" ? typed.written : undefined
  const baseKind = base?.kind === "scalar" ? base.written : undefined
  const kind = typedKind ?? form.kindOf?.(keys) ?? baseKind ?? form.defaultKind
  const options = union.options.filter((option) => option instanceof z.ZodObject)
  const kinds = options.map((option) => kindOfOption(option))
  const option = options[kinds.indexOf(kind ?? "")]
  if (option === undefined || kind === undefined) {
    const message =
      typedKind === undefined
        ? `${nameOf(at.path)} does not say what it is; needed is ${oneOfWords(kinds)}`
        : `\`kind\` of ${nameOf(at.path)} is ${quote(typedKind)}; needed is ${oneOfWords(kinds)}`
    const [first] = kinds
    at.tell(
      fault("unknown-kind", "error", {
        message,
        at: typed?.span ?? tree.span,
        path: at.path,
        fix: `write one of them, such as \`${first}: …\``,
      }),
    )
    return hole(tree.span)
  }
  const others = tree.entries.filter((entry) => entry.key !== "kind")
  const map = expandObject({ ...tree, entries: others }, option, at)
  return {
    ...map,
    entries: [
      { key: "kind", keySpan: tree.span, value: valueAt(typed?.span ?? tree.span, kind), isNew: false },
      ...map.entries,
    ],
  }
}

/** The one word that the key `kind` of an option holds. */
function kindOfOption(option: z.ZodObject): string {
  const { kind } = option.shape
  return kind instanceof z.ZodLiteral ? String([...kind.values][0]) : ""
}

function expandObject(tree: TreeMap, schema: z.ZodObject, at: Expansion): TreeMap {
  const exclusive = formOf(schema).exclusive ?? []
  const keys = Object.keys(schema.shape)
  const known = keepKnown(joinCommas(tree.entries, at), keys, tree, at)
  const single = keepExclusive(known, exclusive, at)
  const entries = single.map((entry) => {
    const child = schema.shape[entry.key]
    return child === undefined ? entry : { ...entry, value: expand(entry.value, child, below(at, entry.key)) }
  })
  return { ...tree, entries }
}

function expandRecord(tree: TreeMap, schema: z.ZodRecord, at: Expansion): TreeMap {
  const { hasIds = false, idPattern } = formOf(schema)
  const entries = tree.entries.flatMap((entry): readonly Entry[] => {
    if (hasIds && idPattern !== undefined && !checkId(entry, idPattern, at)) return []
    const { value, isNew } =
      hasIds && at.isVariant ? takeNew(entry.value, at.tell) : { value: entry.value, isNew: false }
    return [{ ...entry, isNew, value: expand(value, schema.valueType, below(at, entry.key)) }]
  })
  return { ...tree, entries }
}

/** Tells about an id that is none; one that can do no harm is kept, so that what names it is not told as well. */
function checkId(entry: Entry, pattern: RegExp, at: Expansion): boolean {
  if (pattern.test(entry.key)) return true
  const suggestion = entry.key
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^[-\d]+|-+$/g, "")
  const kind = nameOf([...at.path, "x"]).split(" ")[0] ?? "item"
  const fix = /^[\d.e+-]+$/i.test(entry.key)
    ? `write \`${kind}-${entry.key.replace(/[^\d]/g, "")}\``
    : suggestion === ""
      ? `write a word such as \`${kind}-a\``
      : `write \`${suggestion}\``
  const why = "an id begins with a small letter; letters, digits and hyphens follow"
  at.tell(
    fault("bad-id", "error", {
      message: `${quote(entry.key)} is no id for ${aOrAn(kind)}`,
      at: entry.keySpan,
      path: [...at.path, entry.key],
      why,
      fix,
    }),
  )
  return /^[A-Za-z][\w-]*$/.test(entry.key) && entry.key !== "__proto__"
}

function aOrAn(noun: string): string {
  return /^[aeiou]/.test(noun) ? `an ${noun}` : `a ${noun}`
}

/** Takes `new: true` off an entry of a variant file. */
function takeNew(tree: Tree, tell: Tell): { readonly value: Tree; readonly isNew: boolean } {
  if (tree.kind !== "map") return { value: tree, isNew: false }
  const mark = tree.entries.find((entry) => entry.key === "new")
  if (mark === undefined) return { value: tree, isNew: false }
  const isYes = mark.value.kind === "scalar" && /^(true|yes|on)$/i.test(mark.value.written)
  if (!isYes)
    tell(
      fault("unreadable-value", "error", {
        message: "`new` says whether an id is new; needed is `true`",
        at: mark.value.span,
        fix: "write `new: true`, or take the line out",
      }),
    )
  return { value: { ...tree, entries: tree.entries.filter((entry) => entry !== mark) }, isNew: true }
}
