/** Issues of the schema package in our own words; its wording never reaches the maker. */
import { z } from "zod"
import { nearNames } from "../findings/near.ts"
import type { Finding } from "../findings/types.ts"
import { baseUnit } from "../units/parse.ts"
import { trimmed } from "../units/print.ts"
import { nameOf, ownerOf } from "./names.ts"
import type { Span, Tree } from "./read/tree.ts"
import { childOf, treeAt } from "./read/tree.ts"
import { formOf, inside } from "./schema/forms.ts"
import { kitFile } from "./schema/kit.ts"
import { fault, oneOfWords, quote } from "./tell.ts"

/** Words one issue, with the place of the value, or of its owner when the value is missing. */
export function wordIssue(issue: z.core.$ZodIssue, path: readonly string[], tree: Tree): readonly Finding[] {
  const value = treeAt(tree, path)
  const at = value?.span ?? ownerSpan(tree, path)
  const schema = schemaAt(kitFile, path, tree)
  const key = path.at(-1) ?? ""
  if (value === undefined) {
    const message = `${ownerOf(path)} has no \`${key}\``
    const why = schema?.description
    const fix = `write \`${key}: ${exampleOf(schema)}\``
    return [fault("missing-key", "error", { message, at, path, fix, ...(why === undefined ? {} : { why }) })]
  }
  const name = nameOf(path)
  const say = (id: string, message: string, fix: string): readonly Finding[] => [
    fault(id, "error", { message: `${name} ${message}`, at, path, fix }),
  ]
  const example = exampleOf(schema)
  switch (issue.code) {
    case "invalid_value": {
      const words = issue.values.map(String)
      const written = value.kind === "scalar" ? value.written : ""
      const [near] = nearNames(written, words)
      return say(
        "unknown-word",
        `is ${quote(written, 24)}; needed is ${oneOfWords(words)}`,
        near === undefined ? `write ${oneOfWords(words)}` : `write \`${near}\``,
      )
    }
    case "too_small":
    case "too_big": {
      const limit = Number(issue.code === "too_small" ? issue.minimum : issue.maximum)
      const unit = unitOf(schema)
      if (value.kind !== "scalar" || typeof value.value !== "number")
        return say("value-missing", "is empty", `write \`${key}: ${example}\``)
      const word = issue.code === "too_small" ? (issue.inclusive === false ? "above" : "at least") : "at most"
      const shown = `${trimmed(value.value, 4)}${unit}`
      return say(
        "out-of-range",
        `is ${shown}; it must be ${word} ${trimmed(limit, 4)}${unit}`,
        `write a value such as \`${example}\``,
      )
    }
    case "invalid_format":
      return say(
        "bad-id",
        `is ${quote(value.kind === "scalar" ? value.written : "")}, which is no id`,
        "write small letters, digits and hyphens, a letter first",
      )
    case "unrecognized_keys":
      return issue.keys.map((unknown) => {
        const span = value.kind === "map" ? (value.entries.find((entry) => entry.key === unknown)?.keySpan ?? at) : at
        return fault("unknown-key", "error", {
          message: `${name} has ${quote(unknown)}, which is no key here`,
          at: span,
          path: [...path, unknown],
          fix: "take it out",
        })
      })
    default:
      return say(
        "wrong-kind-of-value",
        `is ${kindOf(value)}; needed is ${neededOf(schema)}`,
        `write \`${key}: ${example}\``,
      )
  }
}

function ownerSpan(tree: Tree, path: readonly string[]): Span {
  for (let length = path.length - 1; length > 0; length -= 1) {
    const owner = treeAt(tree, path.slice(0, length - 1))
    const key = path[length - 1] ?? ""
    const entry = owner?.kind === "map" ? owner.entries.find((one) => one.key === key) : undefined
    if (entry !== undefined) return entry.value.kind === "map" && entry.value.isShort ? entry.value.span : entry.keySpan
    const item = owner?.kind === "list" ? childOf(owner, key) : undefined
    if (item !== undefined) return item.span
  }
  return rootSpan(tree)
}

/** The kit as a whole is shown at its first line. */
export function rootSpan(tree: Tree): Span {
  const first = tree.kind === "map" ? tree.entries[0] : undefined
  return first?.keySpan ?? { ...tree.span, line: 1, column: 1, endLine: 1, endColumn: 1 }
}

function kindOf(tree: Tree): string {
  if (tree.kind === "map") return "a map"
  if (tree.kind === "list") return "a list"
  return tree.kind === "scalar" && typeof tree.value === "number"
    ? `the number ${tree.written}`
    : `the text ${quote(tree.kind === "scalar" ? tree.written : "")}`
}

function neededOf(schema: z.core.$ZodType | undefined): string {
  const bare = schema === undefined ? undefined : inside(schema)
  if (bare instanceof z.ZodNumber) return "a number"
  if (bare instanceof z.ZodBoolean) return "`yes` or `no`"
  if (bare instanceof z.ZodString || bare instanceof z.ZodEnum || bare instanceof z.ZodLiteral) return "a text"
  if (bare instanceof z.ZodArray || bare instanceof z.ZodTuple) return "a list"
  const [example] = bare === undefined ? [] : (formOf(bare).examples ?? [])
  return example === undefined ? "a map of `key: value` lines" : `a value such as \`${example}\``
}

function exampleOf(schema: z.core.$ZodType | undefined): string {
  if (schema === undefined) return "…"
  const bare = inside(schema)
  const [example] = formOf(bare).examples ?? []
  if (example !== undefined) return example
  if (bare instanceof z.ZodEnum) return bare.options.map(String).join("` or `")
  return "…"
}

function unitOf(schema: z.core.$ZodType | undefined): string {
  const dimension = schema === undefined ? undefined : formOf(inside(schema)).dimension
  return dimension === undefined ? "" : `\u00a0${baseUnit[dimension]}`
}

/** Walks the schema along a path; `tree` tells the kinds of unions. */
function schemaAt(
  schema: z.core.$ZodType,
  path: readonly string[],
  tree: Tree | undefined,
): (z.core.$ZodType & { description?: string | undefined }) | undefined {
  const bare = inside(schema)
  const [key, ...rest] = path
  if (key === undefined) return bare instanceof z.ZodType ? bare : undefined
  const next = (child: z.core.$ZodType | undefined): ReturnType<typeof schemaAt> =>
    child === undefined ? undefined : schemaAt(child, rest, childOf(tree, key))
  if (bare instanceof z.ZodObject) return next(Object.hasOwn(bare.shape, key) ? bare.shape[key] : undefined)
  if (bare instanceof z.ZodRecord) return next(bare.valueType)
  if (bare instanceof z.ZodArray) return next(bare.element)
  if (bare instanceof z.ZodUnion) {
    for (const option of bare.options) {
      const kind = childOf(tree, "kind")
      const optionBare = inside(option)
      if (
        kind?.kind === "scalar" &&
        optionBare instanceof z.ZodObject &&
        optionBare.shape.kind !== undefined &&
        !optionBare.shape.kind.safeParse(kind.value).success
      )
        continue
      const found = schemaAt(option, path, tree)
      if (found !== undefined) return found
    }
  }
  return undefined
}
