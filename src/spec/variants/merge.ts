/** Merging a variant file into the kit, both in the long form: maps by id, the rest replaces, `null` removes (as RFC 7396). */
import { z } from "zod"
import { nearNames } from "../../findings/near.ts"
import { nameOf } from "../names.ts"
import type { Entry, Span, Tree, TreeMap } from "../read/tree.ts"
import { formOf, inside } from "../schema/forms.ts"
import { fault, oneOfWords, type Tell } from "../tell.ts"

/** What variant files wrote as a whole, by path; kept to find two axes that write the same value. */
export type Written = Map<string, { readonly axis: string; readonly span: Span }>

export type Merging = {
  readonly tell: Tell
  readonly axis: string
  readonly written: Written
  /** Inside a short form, which counts as one value. */
  readonly isInShort?: boolean
}

/** Gives `base` changed by `change`. `schema` tells which maps hold ids. */
export function merge(
  base: TreeMap,
  change: TreeMap,
  schema: z.core.$ZodType,
  path: readonly string[],
  merging: Merging,
): TreeMap {
  const bare = inside(schema)
  const pushed = pushOut(base, change, bare, path, merging)
  let entries: readonly Entry[] = pushed.entries
  for (const entry of change.entries) entries = mergeEntry(entries, entry, bare, [...path, entry.key], merging)
  return { ...pushed, entries, span: base.span }
}

/** A variant's `shape` pushes out the kit's `model`; one that another axis wrote collides. */
function pushOut(
  base: TreeMap,
  change: TreeMap,
  schema: z.core.$ZodType,
  path: readonly string[],
  merging: Merging,
): TreeMap {
  const groups = formOf(schema).exclusive ?? []
  const isGiven = (entry: Entry): boolean => !(entry.value.kind === "scalar" && entry.value.value === null)
  const given = change.entries.filter(isGiven)
  const out = groups.flatMap((group) => {
    const cause = given.find((entry) => group.includes(entry.key))
    return cause === undefined ? [] : group.filter((key) => key !== cause.key).map((key) => ({ key, cause }))
  })
  for (const { key, cause } of out) collides({ ...cause, key }, [...path, key], merging)
  return { ...base, entries: base.entries.filter((entry) => !out.some(({ key }) => key === entry.key)) }
}

function mergeEntry(
  entries: readonly Entry[],
  entry: Entry,
  schema: z.core.$ZodType,
  path: readonly string[],
  merging: Merging,
): readonly Entry[] {
  const earlier = entries.find((one) => one.key === entry.key)
  const ids = schema instanceof z.ZodRecord && formOf(schema).hasIds === true
  const removes = entry.value.kind === "scalar" && entry.value.value === null
  if (collides(entry, path, merging)) return entries
  if (ids && earlier === undefined && !entry.isNew) {
    tellUnknown(entry, path, entries, removes, merging)
    return entries
  }
  if (ids && earlier !== undefined && entry.isNew) {
    const message = `${nameOf(path)} says \`new: true\`, but the kit has it already`
    merging.tell(
      fault("id-not-new", "error", {
        message,
        at: entry.keySpan,
        path,
        fix: "take `new: true` out, or choose another id",
        related: [{ message: "written here", at: earlier.keySpan }],
      }),
    )
  }
  if (removes) {
    note(merging, path, entry)
    return entries.filter((one) => one !== earlier)
  }
  const child = schemaOf(schema, entry.key, entry.value)
  const isSameKind = kindOf(earlier?.value) === kindOf(entry.value)
  if (earlier?.value.kind === "map" && entry.value.kind === "map" && child !== undefined && isSameKind) {
    if (entry.value.isShort) note(merging, path, entry)
    const value = merge(
      earlier.value,
      entry.value,
      child,
      path,
      entry.value.isShort ? { ...merging, isInShort: true } : merging,
    )
    // A short form replaces what is written; a map of single changes leaves the kit's line the place of the whole.
    const merged = entry.value.isShort
      ? { ...earlier, keySpan: entry.keySpan, value: { ...value, span: entry.value.span, isShort: true } }
      : { ...earlier, value }
    return entries.map((one) => (one === earlier ? merged : one))
  }
  note(merging, path, entry)
  const value = dropNulls(entry.value)
  return earlier === undefined
    ? [...entries, { ...entry, value }]
    : entries.map((one) => (one === earlier ? { ...entry, value } : one))
}

/** A map that replaces or is new keeps no `null` (RFC 7396, section 2). */
function dropNulls(tree: Tree): Tree {
  if (tree.kind !== "map") return tree
  const kept = tree.entries.filter((entry) => !(entry.value.kind === "scalar" && entry.value.value === null))
  return { ...tree, entries: kept.map((entry) => ({ ...entry, value: dropNulls(entry.value) })) }
}

/** True when another axis has written this value, the whole it belongs to, or a part that this one replaces. */
function collides(entry: Entry, path: readonly string[], { written, axis, tell, isInShort }: Merging): boolean {
  if (isInShort === true) return false
  const key = path.join("/")
  const replaces = entry.value.kind !== "map" || entry.value.isShort
  const found = [...written].find(([other, mark]) => {
    if (mark.axis === axis) return false
    return other === key || key.startsWith(`${other}/`) || (replaces && other.startsWith(`${key}/`))
  })
  if (found === undefined) return false
  const [, mark] = found
  tell(
    fault("axes-collide", "error", {
      message: `${nameOf(path)} is changed by axis \`${mark.axis}\` and by axis \`${axis}\``,
      at: entry.keySpan,
      path,
      why: "the result would depend on which file comes last",
      fix: "change it in the files of one axis only",
      related: [{ message: `axis \`${mark.axis}\` changes it here`, at: mark.span }],
    }),
  )
  return true
}

function note({ written, axis, isInShort }: Merging, path: readonly string[], entry: Entry): void {
  if (isInShort !== true) written.set(path.join("/"), { axis, span: entry.keySpan })
}

function tellUnknown(
  entry: Entry,
  path: readonly string[],
  entries: readonly Entry[],
  removes: boolean,
  { tell }: Merging,
): void {
  const near = nearNames(
    entry.key,
    entries.map((one) => one.key),
  )
  const message = removes
    ? `${nameOf(path)} is to be removed, but the kit has none of this id`
    : `${nameOf(path)} is unknown to the kit and does not say \`new: true\``
  const fix =
    near.length > 0
      ? `write ${oneOfWords(near)}${removes ? "" : ", or add `new: true`"}`
      : removes
        ? "take the line out"
        : "add `new: true` when it is meant to be new"
  tell(fault("unknown-id", "error", { message, at: entry.keySpan, path, fix }))
}

function kindOf(tree: Tree | undefined): unknown {
  const kind = tree?.kind === "map" ? tree.entries.find((entry) => entry.key === "kind")?.value : undefined
  return kind?.kind === "scalar" ? kind.value : undefined
}

function schemaOf(schema: z.core.$ZodType, key: string, value: Tree): z.core.$ZodType | undefined {
  if (schema instanceof z.ZodRecord) return pick(schema.valueType, value)
  if (schema instanceof z.ZodObject && Object.hasOwn(schema.shape, key)) return pick(schema.shape[key], value)
  return undefined
}

/** The option of a union that a map belongs to. */
function pick(schema: z.core.$ZodType | undefined, value: Tree): z.core.$ZodType | undefined {
  if (schema === undefined) return undefined
  const bare = inside(schema)
  if (!(bare instanceof z.ZodUnion)) return bare
  const kind = kindOf(value)
  return bare.options.map(inside).find((option) => {
    if (option instanceof z.ZodRecord) return kind === undefined
    return option instanceof z.ZodObject && (kind === undefined || option.shape.kind?.safeParse(kind).success)
  })
}
