/** Writes parts of a JSON Schema that occur several times only once, under `$defs`. */

type Json = Readonly<Record<string, unknown>>

/** Shorter parts cost less than the reference to them. */
const leastLetters = 120

/** Words that tell about a use of a part and stay where it is used (JSON Schema core, 8.2.3.1: `$ref` may have neighbours). */
const remarks: ReadonlySet<string> = new Set(["description", "examples", "default"])

/** Gives an equal schema in which equal parts are shared, remarks aside. */
export function shareParts(schema: Json): Json {
  const counts = new Map<string, number>()
  countParts(schema, counts)
  const names = new Map<string, string>()
  const parts: Record<string, unknown> = {}

  const share = (node: unknown): unknown => {
    if (Array.isArray(node)) return node.map(share)
    if (!isJson(node)) return node
    const bare = withoutRemarks(node)
    const key = JSON.stringify(bare)
    const isShared = isPart(node) && key.length >= leastLetters && (counts.get(key) ?? 0) > 1
    if (!isShared) return mapValues(node, share)
    const name = names.get(key) ?? freeName(bare, new Set(names.values()))
    if (!names.has(key)) {
      names.set(key, name)
      parts[name] = mapValues(bare, share)
    }
    return { ...onlyRemarks(node), $ref: `#/$defs/${name}` }
  }

  const shared = mapValues(schema, share)
  const sorted = Object.fromEntries(Object.entries(parts).sort(([one], [other]) => (one < other ? -1 : 1)))
  return { ...shared, $defs: sorted }
}

function withoutRemarks(node: Json): Json {
  return Object.fromEntries(Object.entries(node).filter(([key]) => !remarks.has(key)))
}

function onlyRemarks(node: Json): Json {
  return Object.fromEntries(Object.entries(node).filter(([key]) => remarks.has(key)))
}

function mapValues(node: Json, change: (value: unknown) => unknown): Json {
  return Object.fromEntries(Object.entries(node).map(([key, value]) => [key, change(value)]))
}

function isJson(value: unknown): value is Json {
  return typeof value === "object" && value !== null && !Array.isArray(value)
}

/** A map is a schema, and no map of properties, when it says a type or alternatives. */
function isPart(node: Json): boolean {
  return typeof node.type === "string" || Array.isArray(node.type) || Array.isArray(node.anyOf)
}

function countParts(node: unknown, counts: Map<string, number>): void {
  if (Array.isArray(node)) for (const item of node) countParts(item, counts)
  if (!isJson(node)) return
  const key = isPart(node) ? JSON.stringify(withoutRemarks(node)) : ""
  if (key.length >= leastLetters) counts.set(key, (counts.get(key) ?? 0) + 1)
  for (const value of Object.values(node)) countParts(value, counts)
}

/** The first keys of a map, else the types, with a number when that name is taken. */
function freeName(node: Json, taken: ReadonlySet<string>): string {
  const keys = isJson(node.properties) ? Object.keys(node.properties).filter((key) => key !== "kind") : []
  const types = Array.isArray(node.type) ? node.type.filter((type) => type !== "null") : [node.type ?? "kinds"]
  const base = (keys.length > 0 ? keys.slice(0, 3) : types).join("-")
  for (let number = 1; ; number += 1) {
    const name = number === 1 ? base : `${base}-${number}`
    if (!taken.has(name)) return name
  }
}
