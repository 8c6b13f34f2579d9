/** Checks a value against the words of JSON Schema that our schemas use; any other word is a fault of the test. */

const known = new Set([
  "$schema",
  "$defs",
  "title",
  "description",
  "default",
  "examples",
  "type",
  "properties",
  "required",
  "additionalProperties",
  "propertyNames",
  "anyOf",
  "oneOf",
  "enum",
  "const",
  "items",
  "prefixItems",
  "minItems",
  "maxItems",
  "pattern",
  "minLength",
  "minimum",
  "maximum",
  "exclusiveMinimum",
  "exclusiveMaximum",
])

type Json = Readonly<Record<string, unknown>>

function isJson(value: unknown): value is Json {
  return typeof value === "object" && value !== null && !Array.isArray(value)
}

function typeOf(value: unknown): string {
  if (value === null) return "null"
  if (Array.isArray(value)) return "array"
  return typeof value
}

/** Gives the paths at which a value breaks a schema; empty when it is taken. */
export function findSchemaFaults(schema: Json, value: unknown): readonly string[] {
  return faultsOf(schema, value, schema, "")
}

function faultsOf(root: Json, value: unknown, schema: unknown, path: string): readonly string[] {
  if (isJson(schema) && typeof schema.$ref === "string") {
    const name = schema.$ref.replace("#/$defs/", "")
    const part = isJson(root.$defs) ? root.$defs[name] : undefined
    if (part === undefined) throw new Error(`${schema.$ref} points at nothing`)
    return faultsOf(root, value, part, path)
  }
  if (!isJson(schema)) return schema === false ? [`${path}: nothing may stand here`] : []
  const unknown = Object.keys(schema).filter((word) => !known.has(word))
  if (unknown.length > 0) throw new Error(`the checker does not know ${unknown.join(", ")} at ${path}`)
  const alternatives = schema.anyOf ?? schema.oneOf
  if (Array.isArray(alternatives)) {
    const tried = alternatives.map((one) => faultsOf(root, value, one, path))
    if (!tried.some((faults) => faults.length === 0))
      return [`${path}: no alternative takes it: ${tried.map((faults) => faults[0]).join(" / ")}`]
  }
  const types = Array.isArray(schema.type) ? schema.type : schema.type === undefined ? undefined : [schema.type]
  const type = typeOf(value)
  const isTyped = types === undefined || types.includes(type) || (types.includes("integer") && Number.isInteger(value))
  if (!isTyped) return [`${path}: is ${type}, needed is ${types?.join(" or ")}`]
  if ("const" in schema && schema.const !== value) return [`${path}: is not ${String(schema.const)}`]
  if (Array.isArray(schema.enum) && !schema.enum.includes(value))
    return [`${path}: is none of ${schema.enum.join(", ")}`]
  if (typeof value === "string" && typeof schema.pattern === "string" && !new RegExp(schema.pattern).test(value))
    return [`${path}: does not fit ${schema.pattern}`]
  if (typeof value === "number") {
    if (typeof schema.minimum === "number" && value < schema.minimum) return [`${path}: is below ${schema.minimum}`]
    if (typeof schema.exclusiveMinimum === "number" && value <= schema.exclusiveMinimum)
      return [`${path}: is not above ${schema.exclusiveMinimum}`]
    if (typeof schema.maximum === "number" && value > schema.maximum) return [`${path}: is above ${schema.maximum}`]
  }
  if (Array.isArray(value)) return arrayFaults(root, schema, value, path)
  return isJson(value) ? mapFaults(root, schema, value, path) : []
}

function arrayFaults(root: Json, schema: Json, value: readonly unknown[], path: string): readonly string[] {
  const first = Array.isArray(schema.prefixItems) ? schema.prefixItems : []
  const tooFew = value.length < Math.max(first.length, typeof schema.minItems === "number" ? schema.minItems : 0)
  if (tooFew) return [`${path}: has ${value.length} items`]
  return value.flatMap((item, index) => faultsOf(root, item, first[index] ?? schema.items, `${path}/${index}`))
}

function mapFaults(root: Json, schema: Json, value: Json, path: string): readonly string[] {
  const properties = isJson(schema.properties) ? schema.properties : {}
  const missing = Array.isArray(schema.required)
    ? schema.required.filter((key) => !Object.hasOwn(value, String(key)))
    : []
  return [
    ...missing.map((key) => `${path}: has no ${String(key)}`),
    ...Object.entries(value).flatMap(([key, child]) =>
      faultsOf(
        root,
        child,
        Object.hasOwn(properties, key) ? properties[key] : schema.additionalProperties,
        `${path}/${key}`,
      ),
    ),
  ]
}
