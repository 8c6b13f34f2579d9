/** JSON Schemas for editors, made from the same source that loads and validates. */
import { z } from "zod"
import { type Form, formOf, inside } from "./forms.ts"
import { changeableShape, kitFile, variantHeader } from "./kit.ts"
import { shareParts } from "./share.ts"

type Json = Readonly<Record<string, unknown>>
type Node = z.core.JSONSchema.BaseSchema

/** JSON Schema (draft 2020-12) of `kit.yaml`. Short forms are texts beside the long form; every field is described. */
export function kitSchema(): Json {
  return shareParts({ title: "Kit", ...toJson(kitFile, false) })
}

/** JSON Schema of a file in `variants/`: everything optional, `null` removes, `new: true` brings a new id. */
export function variantSchema(): Json {
  const variantFile = z
    .strictObject({ ...variantHeader, ...changeableShape })
    .describe("What differs from the kit, for one value of one axis.")
  return shareParts({ title: "Variant", ...toJson(variantFile, true) })
}

/** Both schemas, as `build` writes them beside a kit. */
export function makeSchemas(): { readonly kit: Json; readonly variant: Json } {
  return { kit: kitSchema(), variant: variantSchema() }
}

function toJson(schema: z.ZodType, isVariant: boolean): Json {
  return z.toJSONSchema(schema, {
    io: "input",
    reused: "inline",
    override: ({ zodSchema, jsonSchema, path }) => {
      relaxRequired(jsonSchema, isVariant)
      const bare = inside(zodSchema)
      // Wrappers such as `optional` repeat what is inside them.
      if (zodSchema !== bare || path.length === 0) return
      const form = formOf(bare)
      if (form.examples !== undefined && form.examples.length > 0) jsonSchema.examples = [...form.examples]
      // Names of maps come as plain texts; the pattern of ids says more.
      if (jsonSchema.propertyNames !== undefined) delete jsonSchema.propertyNames
      if (form.hasIds === true) jsonSchema.propertyNames = { pattern: form.idPattern?.source ?? "" }
      if (isVariant && form.hasIds === true) addNew(jsonSchema.additionalProperties)
      widen(jsonSchema, extraTypes(bare, form, isVariant))
    },
  })
}

/** `kind` is told by the other keys; in a variant file nothing is needed. */
function relaxRequired(json: Node, isVariant: boolean): void {
  if (json.required === undefined) return
  const needed = isVariant ? [] : json.required.filter((key) => key !== "kind")
  if (needed.length > 0) json.required = needed
  else delete json.required
}

/** Types that are taken beside that of the long form. */
function extraTypes(schema: z.core.$ZodType, form: Form, isVariant: boolean): readonly string[] {
  const isMap =
    schema instanceof z.ZodObject || schema instanceof z.ZodRecord || schema instanceof z.ZodDiscriminatedUnion
  const hasShort = form.short !== undefined && (form.examples ?? []).length > 0
  return [
    ...(hasShort || schema instanceof z.ZodBoolean || form.isListOfOne === true ? ["string"] : []),
    ...(form.dimension !== undefined || form.isShortNumber === true || schema instanceof z.ZodString ? ["number"] : []),
    ...(form.alsoTakes ?? []),
    ...(isVariant || isMap ? ["null"] : []),
  ]
}

/** Lets more types stand; words such as `properties` and `minimum` bind only the type they are for. */
function widen(json: Node, types: readonly string[]): void {
  if (types.length === 0) return
  if (json.oneOf !== undefined || json.anyOf !== undefined) {
    // Kinds are told by keys here, so several alternatives may fit: `anyOf`, not `oneOf`.
    const options = [...(json.oneOf ?? json.anyOf ?? [])]
    delete json.oneOf
    json.anyOf = [...options, ...[...new Set(types)].map((type) => ({ type: asType(type) }))]
    return
  }
  // Typed as one word or several; here it is always the one word that the package wrote.
  const own = json.type === "integer" ? "number" : (json.type as string | undefined)
  if (json.enum !== undefined || json.const !== undefined || own === undefined) {
    if (!types.includes("null")) return
    const words = json.enum ?? [json.const ?? null]
    delete json.const
    delete json.type
    json.enum = [...words, null]
    return
  }
  // The package types `type` as one word; JSON Schema takes a list of them (validation, section 6.1.1).
  Object.assign(json, { type: oneOrMore([...new Set([own, ...types])]) })
}

function oneOrMore(types: readonly string[]): string | readonly string[] {
  const [first = "string"] = types
  return types.length === 1 ? first : types
}

function asType(type: string): "string" | "number" | "null" | "array" | "object" {
  return type === "number" || type === "null" || type === "array" || type === "object" ? type : "string"
}

/** Lets an entry of a variant file say `new: true`, also when it is one of several kinds. */
function addNew(entry: Node["additionalProperties"]): void {
  if (typeof entry !== "object") return
  const description = "The kit lacks this id."
  for (const one of [entry, ...(entry.anyOf ?? []), ...(entry.oneOf ?? [])]) {
    if (typeof one === "object" && one.properties !== undefined) {
      one.properties = { new: { const: true, description }, ...one.properties }
    }
  }
}
