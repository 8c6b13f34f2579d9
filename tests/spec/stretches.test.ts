import fc from "fast-check"
import { expect, test } from "vitest"
import type { Finding } from "../../src/findings/types.ts"
import { parseYaml } from "../../src/spec/read/parse-yaml.ts"
import { childOf, type Scalar } from "../../src/spec/read/tree.ts"
import { placeOfSpan } from "../../src/text/places.ts"

/** Words that occur once each, so that a wrong place cannot hold the right letters by chance. */
const words = fc
  .array(fc.constantFrom("", "", "ä", "É", "x", "-", "#", "'", '"', "\\", ":", "€", "𝄞"), {
    minLength: 1,
    maxLength: 14,
  })
  .map((marks) => marks.map((mark, index) => `w${index}${mark}q`))

const gaps = fc.array(fc.constantFrom(" ", " ", "  ", "\n", "\n\n", "\n\n\n", " \n", "\n  "), {
  minLength: 14,
  maxLength: 14,
})
const indents = fc.integer({ min: 1, max: 6 })

function readValue(source: string): { readonly scalar: Scalar; readonly lines: readonly string[] } {
  const findings: Finding[] = []
  const { tree } = parseYaml("kit.yaml", source, (one) => findings.push(one))
  const value = childOf(childOf(tree, "outer"), "t")
  if (value?.kind !== "scalar" || findings.length > 0)
    throw new Error(`${JSON.stringify(source)} gives ${JSON.stringify(findings)}`)
  return { scalar: value, lines: source.split("\n") }
}

/** Every word of the value must stand at the place that the stretches give. `typed` is how a word looks in the file. */
function expectPlaces(source: string, typed: (word: string) => string): void {
  const { scalar, lines } = readValue(source)
  const text = { text: scalar.written, where: { ...scalar.span, path: [] }, stretches: scalar.stretches }
  const found = [...scalar.written.matchAll(/\S+/g)]
  expect(found.length).toBeGreaterThan(0)
  for (const match of found) {
    const place = placeOfSpan(text, match.index, match.index + match[0].length)
    const line = lines[place.line - 1] ?? ""
    const shown = typed(match[0])
    expect([line.slice(place.column - 1, place.column - 1 + shown.length), place.endLine]).toEqual([shown, place.line])
  }
}

/** Joins words by gaps; each line gets the indentation. */
function lay(parts: readonly string[], joints: readonly string[], indent: number): string {
  const joined = parts.map((part, index) => (index === 0 ? part : (joints[index] ?? " ") + part)).join("")
  return joined.replace(/\n(?=[^\n])/g, `\n${" ".repeat(indent)}`)
}

const seed = 20260102
const head = "before: 1\nouter:\n  "

test.each(["|", ">", "|-", ">+"])("a block of kind %s maps every word to its letters", (mark) => {
  fc.assert(
    fc.property(words, gaps, indents, (parts, joints, indent) => {
      const pad = " ".repeat(indent + 2)
      expectPlaces(`${head}t: ${mark}\n${pad}${lay(parts, joints, indent + 2)}\nafter: 2\n`, (word) => word)
    }),
    { seed, numRuns: 300 },
  )
})

test("a block with a typed indent maps every word to its letters", () => {
  fc.assert(
    fc.property(words, gaps, (parts, joints) => {
      expectPlaces(`${head}t: |2\n     ${lay(parts, joints, 4)}\nafter: 2\n`, (word) => word)
    }),
    { seed, numRuns: 200 },
  )
})

test("a plain text over several lines maps every word to its letters", () => {
  const plain = words.map((parts) => parts.map((part) => part.replace(/[:#'"\\-]/g, "")))
  fc.assert(
    fc.property(plain, gaps, indents, (parts, joints, indent) => {
      expectPlaces(`${head}t: ${lay(parts, joints, indent + 2)}\nafter: 2\n`, (word) => word)
    }),
    { seed, numRuns: 300 },
  )
})

test("a text in single quotes maps every word to its letters", () => {
  const typed = (word: string): string => word.replaceAll("'", "''")
  fc.assert(
    fc.property(words, gaps, indents, (parts, joints, indent) => {
      expectPlaces(`${head}t: '${lay(parts.map(typed), joints, indent + 2)}'\nafter: 2\n`, typed)
    }),
    { seed, numRuns: 300 },
  )
})

test("a text in double quotes with escapes maps every word to its letters", () => {
  const typed = (word: string): string =>
    word
      .replaceAll("\\", "\\\\")
      .replaceAll('"', '\\"')
      .replaceAll("ä", "\\u00e4")
      .replaceAll("É", "\\xC9")
      .replaceAll("𝄞", "\\U0001D11E")
  fc.assert(
    fc.property(words, gaps, indents, (parts, joints, indent) => {
      expectPlaces(`${head}t: "${lay(parts.map(typed), joints, indent + 2)}"\nafter: 2\n`, typed)
    }),
    { seed, numRuns: 300 },
  )
})

test("an escaped line end joins two lines and keeps their places", () => {
  expectPlaces(`${head}t: "one \\\n     two\\\n     \\ three"\nafter: 2\n`, (word) => word)
})

test("places do not move with a byte order mark or with line ends of two letters", async () => {
  const { loadSpecs } = await import("../../src/spec/index.ts")
  const { baseKit } = await import("./base-kit.ts")
  const encode = (text: string) => [{ path: "kit.yaml", bytes: new TextEncoder().encode(text) }]
  const plain = loadSpecs(encode(baseKit))
  expect(loadSpecs(encode(`\ufeff${baseKit}`))).toEqual(plain)
  expect(loadSpecs(encode(baseKit.replaceAll("\n", "\r\n")))).toEqual(plain)
})
