/** JSON Schemas for editors, made from the same source that loads and validates. */
import { z } from "zod"
import { formOf, inside } from "./forms.ts"
import { changeableShape, kitFile, variantHeader } from "./kit.ts"

type Json = Readonly<Record<string, unknown>>

/** JSON Schema (draft 2020-12) of `kit.yaml`. Short forms are texts beside the long form; every field is described. */
export function kitSchema(): Json {
  return { title: "Kit", ...toJson(kitFile, false) }
}

/** JSON Schema of a file in `variants/`: everything optional, `null` removes, `new: true` brings a new id. */
export function variantSchema(): Json {
  const variantFile = z
    .strictObject({ ...variantHeader, ...changeableShape })
    .describe("What differs from the kit, for one value of one axis.")
  return { title: "Variant", ...toJson(variantFile, true) }
}

/** Both schemas, as `build` writes them beside a kit. */
export function makeSchemas(): { readonly kit: Json; readonly variant: Json } {
  return { kit: kitSchema(), variant: variantSchema() }
}

function toJson(schema: z.ZodType, isVariant: boolean): Json {
  return z.toJSONSchema(schema, {
    io: "input",
    reused: "inline",
    override: ({ zodSchema, jsonSchema }) => {
      const bare = inside(zodSchema)
      if (isVariant) delete jsonSchema.required
      // `kind` is told by the other keys.
      if (jsonSchema.required !== undefined) jsonSchema.required = jsonSchema.required.filter((key) => key !== "kind")
      if (zodSchema !== bare) return
      addShortForms(bare, jsonSchema, isVariant)
    },
  })
}

function addShortForms(schema: z.core.$ZodType, json: z.core.JSONSchema.BaseSchema, isVariant: boolean): void {
  const form = formOf(schema)
  if (isVariant && form.hasIds === true && typeof json.additionalProperties === "object")
    addNew(json.additionalProperties)
  const examples = form.examples ?? []
  const accepts = new Set<string>()
  if (form.short !== undefined && examples.length > 0) accepts.add("string")
  if (form.isShortNumber === true || form.dimension !== undefined) accepts.add("number")
  if (schema instanceof z.ZodString && form.short !== undefined) accepts.add("number")
  if (schema instanceof z.ZodBoolean) accepts.add("string")
  if (json.type === "string" || json.type === "number" || json.type === "integer" || json.type === "boolean") {
    const own = json.type === "integer" ? "number" : json.type
    const types = [...new Set([own, ...accepts, ...(isVariant ? ["null"] : [])])]
    if (types.length > 1) widen(json, types)
    if (examples.length > 0) json.examples = [...examples]
    return
  }
  const isEnum = json.enum !== undefined || json.const !== undefined
  if (isEnum) return
  const alternatives = [
    ...(accepts.size > 0 ? [{ type: [...accepts] }] : []),
    ...(form.isListOfOne === true && accepts.size === 0 ? [{ type: ["string", "object"] }] : []),
    { type: "null" },
  ]
  const { description, default: standard, $schema, ...own } = json
  for (const key of Object.keys(json)) delete json[key]
  Object.assign(json, {
    ...($schema === undefined ? {} : { $schema }),
    ...(description === undefined ? {} : { description }),
    ...(standard === undefined ? {} : { default: standard }),
    ...(examples.length > 0 ? { examples: [...examples] } : {}),
    anyOf: [own, ...alternatives],
  })
}

/** Several types at once; limits of numbers stand for the number only, which is how JSON Schema reads them. */
function widen(json: z.core.JSONSchema.BaseSchema, types: readonly string[]): void {
  Object.assign(json, { type: [...types] })
}

function addNew(json: z.core.JSONSchema.BaseSchema): void {
  const target = [json, ...(json.anyOf ?? [])].find((one) => typeof one === "object" && one.properties !== undefined)
  if (target !== undefined && typeof target === "object")
    target.properties = { new: { const: true, description: "The kit lacks this id." }, ...target.properties }
}
