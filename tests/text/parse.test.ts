import type { Nodes } from "mdast"
import { expect, test } from "vitest"
import { parseText } from "../../src/text/parse.ts"
import { blockOf, lettersAt } from "./source.ts"

function typesIn(node: Nodes): readonly string[] {
  return [node.type, ...("children" in node ? node.children.flatMap(typesIn) : [])]
}

test("references with their kind, target, words and place", () => {
  const source = blockOf(
    "Start the [long ones](joint:foot) by hand,\nthen tighten to [](torque:foot). See [the *plate*](Part:saddle.front).",
  )
  const { value, findings } = parseText(source)
  expect(findings).toEqual([])
  expect(
    value.references.map(({ kind, target, label, where }) => [kind, target, label, lettersAt(source, where)]),
  ).toEqual([
    ["joint", "foot", "long ones", "[long ones](joint:foot)"],
    ["torque", "foot", "", "[](torque:foot)"],
    ["part", "saddle.front", "the plate", "[the *plate*](Part:saddle.front)"],
  ])
})

test("numbers with a unit, in base units, with their place", () => {
  const source = blockOf(
    "Turn to 0.5 N·m, leave 1/2 in\nof air (12 mm), load 900 g; 45 min at -10 °C, 30° up, 2,5 mm, 4.4 lbf in.",
  )
  const { value } = parseText(source)
  expect(
    value.numbers.map(({ value: number, unit, written, where }) => [number, unit, written, lettersAt(source, where)]),
  ).toEqual([
    [0.5, "N·m", "0.5 N·m", "0.5 N·m"],
    [12.7, "mm", "1/2 in", "1/2 in"],
    [12, "mm", "12 mm", "12 mm"],
    [0.9, "kg", "900 g", "900 g"],
    [45, "min", "45 min", "45 min"],
    [-10, "°C", "-10 °C", "-10 °C"],
    [30, "°", "30°", "30°"],
    [2.5, "mm", "2,5 mm", "2,5 mm"],
    [0.497133, "N·m", "4.4 lbf in", "4.4 lbf in"].map((one) =>
      typeof one === "number" ? expect.closeTo(one, 6) : one,
    ),
  ])
})

test.each([
  "Step 3 of 4, M4 x 16, ISO 4762, at 10:30, 2026-03-02",
  "2 x 4.8x300, item 12, bag 3, 5 screws",
  "Put 3 in the bag and 2 in front",
  "3 m/s is wind, 1,500 mm means two things",
  "the code `12 mm` is no number of the text",
])("no number with a unit in: %s", (text) => {
  expect(parseText(blockOf(text)).value.numbers).toEqual([])
})

test.each([
  { text: "A <b>bold</b> word", ids: ["html-in-text", "html-in-text"], at: "<b>" },
  { text: "<script>alert(1)</script>", ids: ["html-in-text"], at: "<script>alert(1)</script>" },
  { text: "See ![plate](plate.png) here", ids: ["picture-in-text"], at: "![plate](plate.png)" },
  { text: "See ![plate][x] here\n\n[x]: plate.png", ids: ["picture-in-text"], at: "![plate][x]" },
  { text: "[run](javascript:alert(1))", ids: ["link-not-allowed"], at: "[run](javascript:alert(1))" },
  { text: "[run](JavaScript:x)", ids: ["link-not-allowed"], at: "[run](JavaScript:x)" },
  { text: "[run](&#106;avascript:x)", ids: ["link-not-allowed"], at: "[run](&#106;avascript:x)" },
  { text: "[run](data:text/html,x)", ids: ["link-not-allowed"], at: "[run](data:text/html,x)" },
  { text: "[run](file:///etc/passwd)", ids: ["link-not-allowed"], at: "[run](file:///etc/passwd)" },
  { text: "[page](other.html)", ids: ["link-not-allowed"], at: "[page](other.html)" },
  { text: "[]()", ids: ["link-without-target"], at: "[]()" },
  { text: "[](part:)", ids: ["link-without-target"], at: "[](part:)" },
  { text: "[](tourque:foot)", ids: ["unknown-reference-kind"], at: "[](tourque:foot)" },
  { text: "[run][x]\n\n[x]: javascript:alert(1)", ids: ["link-not-allowed"], at: "[run][x]" },
  { text: "<javascript:alert(1)>", ids: ["link-not-allowed"], at: "<javascript:alert(1)>" },
])("told and taken out: $text", ({ text, ids, at }) => {
  const source = blockOf(`Before.\n\n${text}\n\nAfter 5 mm.`)
  const { value, findings } = parseText(source)
  expect(findings.map((one) => one.id)).toEqual(ids)
  expect(lettersAt(source, findings[0]?.where ?? source.where)).toBe(at)
  const types = typesIn(value.root)
  expect(
    types.filter((type) => ["html", "image", "imageReference", "definition", "link", "linkReference"].includes(type)),
  ).toEqual([])
  expect(value.numbers.length).toBe(1)
})

test("a mistyped kind names the near one", () => {
  expect(parseText(blockOf("[](tourque:foot)")).findings[0]?.fix).toContain("torque:")
})

test.each(["https://example.invalid/x", "mailto:a@example.invalid", "tel:+4912345"])(
  "an address outside stays: %s",
  (url) => {
    const { value, findings } = parseText(blockOf(`See [this](${url}).`))
    expect(findings).toEqual([])
    expect(value.references).toEqual([])
    expect(typesIn(value.root)).toContain("link")
  },
)

test("links by reference become links", () => {
  const { value, findings } = parseText(blockOf("See [the plate][p].\n\n[p]: part:plate"))
  expect(findings).toEqual([])
  expect(value.references.map(({ kind, target, label }) => [kind, target, label])).toEqual([
    ["part", "plate", "the plate"],
  ])
  expect(typesIn(value.root)).toEqual(["root", "paragraph", "text", "link", "text", "text"])
})

test.each([
  { name: "quotes", text: ">".repeat(3000) + "x" },
  { name: "lists", text: Array.from({ length: 500 }, (_, index) => `${"  ".repeat(index)}- x`).join("\n") },
  { name: "brackets", text: "[".repeat(20_000) },
  { name: "emphasis", text: `${"*a **b ".repeat(200)}c${"** *".repeat(200)}` },
  { name: "length", text: "word ".repeat(20_000) },
])("hostile text is told or read, never a crash: $name", ({ text }) => {
  const started = performance.now()
  const { value, findings } = parseText(blockOf(text))
  expect(structuredClone(value)).toEqual(value)
  for (const one of findings) expect(["text-too-deep", "text-too-long"]).toContain(one.id)
  // Generous: the slowest of these took 0.3 s on a loaded machine of two cores.
  expect(performance.now() - started).toBeLessThan(5000)
})

test("a line of stars is a rule, not depth", () => {
  expect(parseText(blockOf(`a\n\n${"* ".repeat(40)}\n\n${"-".repeat(60)}`)).findings).toEqual([])
})
