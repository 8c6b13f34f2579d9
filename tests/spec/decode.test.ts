import { expect, test } from "vitest"
import { loadSpecs } from "../../src/spec/index.ts"
import { baseKit, change } from "./base-kit.ts"
import { brief, first, load } from "./kit.ts"

const utf8 = new TextEncoder()

function loadBytes(bytes: Uint8Array) {
  return loadSpecs([{ path: "kit.yaml", bytes }])
}

/** Letters up to U+00FF as one byte each, the other way round than the code under test reads them. */
function latin1(text: string): Uint8Array {
  return Uint8Array.from([...text], (letter) => letter.charCodeAt(0))
}

test("an umlaut of Windows-1252 is read, with a note at its place", () => {
  const { value, findings } = loadBytes(latin1(change("title: Arm", "title: Träger")))
  expect(first(value).title).toBe("Träger")
  expect(brief(findings)).toEqual(["kit.yaml:2:10 file-not-utf8"])
  expect(findings[0]?.severity).toBe("note")
})

test("letters of Windows-1252 that Latin-1 lacks are read", () => {
  const bytes = latin1(change("title: Arm", "title: Arm \u0080\u0096"))
  expect(first(loadBytes(bytes).value).title).toBe("Arm €–")
})

test.each([
  { name: "UTF-8 with umlaut, euro and clef", text: "title: Träger € 𝄞", told: [] },
  { name: "byte order mark", text: "\ufefftitle: Arm", told: [] },
])("$name", ({ text, told }) => {
  const hasMark = text.startsWith("\ufeff")
  const kit = `${hasMark ? "\ufeff" : ""}${change("title: Arm", text.replace("\ufeff", ""))}`
  const { value, findings } = loadBytes(utf8.encode(kit))
  expect(brief(findings)).toEqual(told)
  expect(first(value).title).toBe(text.replace("\ufeff", "").replace("title: ", ""))
})

/** Malformed sequences of the table "Well-Formed UTF-8 Byte Sequences" of the Unicode Standard, 3.9 (D92). */
test.each([
  [0xc0, 0xaf],
  [0xe0, 0x9f, 0x80],
  [0xed, 0xa0, 0x80],
  [0xf0, 0x8f, 0x80, 0x80],
  [0xf4, 0x90, 0x80, 0x80],
  [0xc3],
  [0xff],
])("bytes that are no UTF-8 are told: %s", (...bytes) => {
  const head = utf8.encode("# ")
  const file = Uint8Array.from([...head, ...bytes, 10, ...utf8.encode(baseKit)])
  expect(brief(loadBytes(file).findings)).toEqual(["kit.yaml:1:3 file-not-utf8"])
})

test.each([
  { name: "empty", bytes: new Uint8Array(0), id: "file-empty" },
  { name: "blank", bytes: utf8.encode("\n  \n\n"), id: "file-empty" },
  { name: "comments only", bytes: utf8.encode("# a\n# b\n"), id: "file-empty" },
  { name: "UTF-16", bytes: Uint8Array.from([0xff, 0xfe, 0x6b, 0x00]), id: "file-not-text" },
  { name: "binary", bytes: Uint8Array.from([0x50, 0x4b, 0x03, 0x00, 0x04]), id: "file-not-text" },
  { name: "too large", bytes: new Uint8Array(2_000_001).fill(0x61), id: "file-too-large" },
])("a file that is $name is told once and gives no spec", ({ bytes, id }) => {
  const { value, findings } = loadBytes(bytes)
  expect(brief(findings)).toEqual([`kit.yaml:1:1 ${id}`])
  expect(value).toEqual([])
})

test("a folder without kit.yaml is told", () => {
  expect(brief(loadSpecs([]).findings)).toEqual(["kit.yaml:1:1 kit-file-missing"])
})

test("an empty variant file is told and the other variants stay", () => {
  const { value, findings } = load(baseKit, { a: "", b: "variant: b\n" })
  expect(brief(findings)).toEqual(["variants/a.yaml:1:1 file-empty"])
  expect(value.map((spec) => spec.variant.id)).toEqual(["base", "b"])
})

test("indentation by tabs alone is read, with a note, and places stay", () => {
  const kit =
    "kit: arm\ntitle: Arm\nrevision:\n\tid: A\n\tdate: 2026-01-01\nsteps:\n\tplate:\n\t\ttext: |\n\t\t\tOne [](part:plate).\n"
  const { value, findings } = load(kit)
  expect(brief(findings)).toEqual(["kit.yaml:4:1 tab-in-indentation"])
  expect(findings[0]?.severity).toBe("note")
  expect(first(value).steps[0]?.text).toMatchObject({
    text: "One [](part:plate).\n",
    stretches: [{ at: 0, line: 9, column: 4 }],
  })
})

test("tabs mixed with spaces are an error", () => {
  const { findings } = load(change("    shape: { box", "\tshape: { box"))
  expect(findings.map((one) => [one.id, one.severity, one.where.line])).toContainEqual([
    "tab-in-indentation",
    "error",
    6,
  ])
})

test("aliases that stand for one another a million times are told, quickly", () => {
  const levels = Array.from(
    { length: 12 },
    (_, index) => `a${index + 1}: &a${index + 1} [${Array(9).fill(`*a${index}`).join(", ")}]`,
  )
  const started = performance.now()
  const { findings } = load(`a0: &a0 [x, x]\n${levels.join("\n")}\n${baseKit}`)
  expect(findings.map((one) => one.id)).toContain("too-many-values")
  expect(performance.now() - started).toBeLessThan(5000)
})

test("an alias stands for its value, with the place of the anchor", () => {
  const { value, findings } = load(
    change("parts:\n", "parts:\n  spare: &piece { shape: { box: 5 x 5 x 5 } }\n  other: *piece\n"),
  )
  expect(brief(findings)).toEqual([])
  expect(first(value).parts.find((part) => part.id === "other")?.body).toMatchObject({ kind: "shape" })
})

test.each(["[".repeat(20_000), "{a: ".repeat(5000), "- ".repeat(5000)])("nesting without end is told: %#", (text) => {
  const { value, findings } = load(text)
  expect(findings.length).toBeGreaterThan(0)
  expect(value.length).toBeLessThan(2)
})
