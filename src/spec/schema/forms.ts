/** What a field accepts beside its long form. One registry beside the schema, read by loading and by the JSON Schemas. */
import { z } from "zod"
import type { Dimension } from "../../units/types.ts"
import type { Tree } from "../read/tree.ts"
import type { Tell } from "../tell.ts"

/** Where a value stands while it is read. */
export type At = { readonly path: readonly string[]; readonly tell: Tell }

/** Brings a short form to the long one; a value that is already long comes back as it is, a faulty one as a hole. */
export type ShortForm = (tree: Tree, at: At) => Tree

export type Form = {
  /** A number with this dimension; the value is brought to the base unit. */
  readonly dimension?: Dimension
  readonly short?: ShortForm
  /** Examples of the short form, shown by editors and by findings. */
  readonly examples?: readonly string[]
  /** The short form is a number, not a text. */
  readonly isShortNumber?: boolean
  /** Further JSON types that the short form takes beside a text. */
  readonly alsoTakes?: readonly ("array" | "object" | "number")[]
  /** A single value stands for a list of one. */
  readonly isListOfOne?: boolean
  /** Keys of which only one may stand; a variant's one pushes out the kit's other. */
  readonly exclusive?: readonly (readonly string[])[]
  /** Entries are things with ids: a variant needs `new: true` for one that the kit lacks. */
  readonly hasIds?: boolean
  /** Pattern of the ids, when it is not the usual one. */
  readonly idPattern?: RegExp
  /** Tells which kind a map is by the keys it has; sets the key `kind`. */
  readonly kindOf?: (keys: readonly string[]) => string | undefined
  /** A key with nothing behind it is a fault, though no key of the map is needed. */
  readonly isNeverEmpty?: boolean
  /** The kind when neither the keys nor the kit tell. */
  readonly defaultKind?: string
}

const registry = new WeakMap<z.core.$ZodType, Form>()

/** Gives the form of a schema, or an empty one; looks through `optional` and `default`. */
export function formOf(schema: z.core.$ZodType): Form {
  return registry.get(schema) ?? {}
}

/** Describes a field and says what it accepts. */
export function field<Schema extends z.ZodType>(schema: Schema, description: string, form: Form = {}): Schema {
  const described = schema.describe(description)
  registry.set(described, form)
  return described
}

/** Takes `optional` and `default` off. */
export function inside(schema: z.core.$ZodType): z.core.$ZodType {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault || schema instanceof z.ZodNullable)
    return inside(schema.def.innerType)
  return schema
}
