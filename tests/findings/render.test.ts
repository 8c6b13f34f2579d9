import { expect, test } from "vitest"
import { finding } from "../../src/findings/order.ts"
import { renderCounts, renderFinding } from "../../src/findings/render.ts"
import type { Place } from "../../src/findings/types.ts"

const place = (line: number, column: number, endColumn: number, file = "kit.yaml"): Place => ({
  file,
  path: ["joints", "foot"],
  line,
  column,
  endLine: line,
  endColumn,
})
const text = "kit: arm\njoints:\n  foot: { screws: 2 x M4x14 }\n"
const findText = (file: string): string | undefined => (file === "kit.yaml" ? text : undefined)

test("a finding shows rule, message, place, marked source, why, fix and related places", () => {
  const one = finding("screw-too-short", "warning", {
    message: "screw `foot` is 14 mm long, this joint needs 16 mm",
    where: place(3, 11, 17),
    why: "parts 10 mm + nut 3.2 mm",
    fix: "use an M4x16",
    related: [{ message: "parts clamped here", where: place(9, 1, 2, "variants/a.yaml") }],
  })
  expect(renderFinding({ ...one, variants: ["a", "b"] }, findText)).toBe(
    [
      "warning screw-too-short  in a, b",
      "  screw `foot` is 14 mm long, this joint needs 16 mm",
      "  kit.yaml:3:11",
      "     3 |   foot: { screws: 2 x M4x14 }",
      "       |           ^^^^^^",
      "  why  parts 10 mm + nut 3.2 mm",
      "  fix  use an M4x16",
      "  see  parts clamped here",
      "  variants/a.yaml:9:1",
    ].join("\n"),
  )
})

test.each([
  ["a tab counts as one column", "\tfoot: x", place(1, 2, 6), "       |  ^^^^"],
  [
    "a span over several lines is marked to the end of its first",
    "ab: [\n1]",
    { ...place(1, 5, 2), endLine: 2 },
    "       |     ^",
  ],
  ["a span without length gets one mark", "abc", place(1, 2, 2), "       |  ^"],
])("%s", (_, source, where, marks) => {
  const lines = renderFinding(finding("x", "error", { message: "m", where }), () => source).split("\n")
  expect(lines.at(-1)).toBe(marks)
})

test("a long line is cut round its marks", () => {
  const source = `${"a".repeat(300)}HERE${"b".repeat(300)}`
  const [line = "", marks = ""] = renderFinding(
    finding("x", "error", { message: "m", where: place(1, 301, 305) }),
    () => source,
  )
    .split("\n")
    .slice(-2)
  expect(line.length).toBeLessThan(125)
  expect(line.slice(marks.indexOf("^"), marks.lastIndexOf("^") + 1)).toBe("HERE")
})

test("a file cannot steer the terminal", () => {
  const where = place(1, 1, 2)
  const shown = renderFinding(
    finding("x", "error", { message: "part \u001b[2J", where }),
    () => "\u001b]0;x\u0007\u202e",
  )
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what must not be there
  expect(shown).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202e]/)
})

test("counts tell accepted findings apart", () => {
  const where = place(1, 1, 2)
  const error = finding("x", "error", { message: "m", where })
  const note = finding("y", "note", { message: "m", where })
  expect(renderCounts([error, error, { ...note, accepted: "tried" }])).toBe("2 errors, 1 accepted")
  expect(renderCounts([])).toBe("nothing found")
})
