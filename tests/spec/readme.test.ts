import { readFileSync } from "node:fs"
import { beforeAll, expect, test } from "vitest"
import { parse, stringify } from "yaml"
import { proveKit } from "../../src/build/prove.ts"
import { loadKernel } from "../../src/solids/index.ts"
import type { Kernel } from "../../src/solids/types.ts"
import { kitSchema, variantSchema } from "../../src/spec/index.ts"
import { verbs } from "../../src/spec/short/acts.ts"
import { referenceKinds } from "../../src/text/references.ts"
import { baseKit, change } from "./base-kit.ts"
import { findSchemaFaults } from "./json-schema.ts"
import { file, load, told } from "./kit.ts"

const readme = readFileSync(new URL("../../guides/README.md", import.meta.url), "utf8")

type Block = { readonly kind: string; readonly text: string; readonly line: number }

const blocks: readonly Block[] = [...readme.matchAll(/^```yaml(.*)\n([\s\S]*?)^```$/gm)].map((match) => ({
  kind: (match[1] ?? "").trim(),
  text: match[2] ?? "",
  line: readme.slice(0, match.index).split("\n").length,
}))

/** Maps merge, all else replaces. */
function mergeInto(base: unknown, over: unknown): unknown {
  const isMap = (value: unknown): value is Record<string, unknown> =>
    typeof value === "object" && value !== null && !Array.isArray(value)
  if (!isMap(base) || !isMap(over)) return over
  const merged: Record<string, unknown> = { ...base }
  for (const [key, value] of Object.entries(over)) {
    // One of two keys of which only one may stand.
    for (const pair of [
      ["model", "shape"],
      ["ties", "bands"],
      ["plastic", "material"],
    ]) {
      if (pair.includes(key)) for (const other of pair) if (other !== key && !("joints" in over)) delete merged[other]
    }
    merged[key] = key in base ? mergeInto(base[key], value) : value
  }
  return merged
}

const withAxes = change("title: Arm\n", "title: Arm\naxes: { tube: round-32, hand: right }\n")

test("every block is a kit, a fragment or a variant", () => {
  expect(blocks.length).toBeGreaterThan(20)
  expect(new Set(blocks.map((block) => block.kind))).toEqual(new Set(["kit", "fragment", "variant", "variant of axes"]))
})

test.each(blocks)("block of kind $kind in line $line loads without a finding", ({ kind, text }) => {
  const loaded =
    kind === "kit"
      ? load(text)
      : kind === "fragment"
        ? load(stringify(mergeInto(parse(baseKit), parse(text))))
        : load(kind === "variant" ? baseKit : withAxes, { "mast-48": text })
  expect(told(loaded.findings)).toEqual([])
  expect(loaded.value.length).toBe(kind.startsWith("variant") ? 2 : 1)
})

test.each(blocks)("block of kind $kind in line $line is taken by the JSON Schema", ({ kind, text }) => {
  const isVariant = kind.startsWith("variant")
  const value = kind === "fragment" ? mergeInto(parse(baseKit), parse(text)) : parse(text)
  expect(findSchemaFaults(isVariant ? variantSchema() : kitSchema(), value)).toEqual([])
})

let kernel: Kernel
beforeAll(async () => {
  kernel = await loadKernel()
})

test.each(blocks.filter((block) => block.kind === "kit"))(
  "the whole kit in line $line proves without error or warning",
  ({ text }) => {
    const proof = proveKit([file("kit.yaml", text)], {
      kernel,
      readModel: () => ({ problem: { message: "there is none" } }),
    })
    expect(told(proof.findings.filter((one) => one.severity !== "note"))).toEqual([])
  },
)

/** Keys of the schema at any depth; names of verbs and kinds are told apart below. */
function keysOf(schema: unknown): readonly string[] {
  if (typeof schema !== "object" || schema === null) return []
  return Object.entries(schema).flatMap(([key, value]) =>
    key === "properties" && typeof value === "object" && value !== null
      ? Object.entries(value).flatMap(([name, inner]) => [name, ...keysOf(inner)])
      : keysOf(value),
  )
}

test("every key, verb and kind of link is described", () => {
  const words = [...new Set([...keysOf(kitSchema()), ...keysOf(variantSchema()), ...Object.keys(verbs)])].filter(
    (key) => key !== "kind",
  )
  const prose = readme.replace(/^```yaml[\s\S]*?^```$/gm, "")
  const missing = words.filter((word) => !new RegExp(`\`[^\`]*(?<![\\w-])${word}(?![\\w-])[^\`]*\``).test(prose))
  expect(missing).toEqual([])
  expect(referenceKinds.filter((kind) => !prose.includes(`(${kind}:`))).toEqual([])
})
