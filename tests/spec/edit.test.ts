import { readFileSync } from "node:fs"
import fc from "fast-check"
import { expect, test } from "vitest"
import { parse } from "yaml"
import { reorderSteps } from "../../src/spec/edit/reorder-steps.ts"
import { kitFolders, readKitFiles } from "../guides/kit-files.ts"

/** The new text, or `line:column message`. */
function reorder(text: string, order: readonly string[]): string {
  const edit = reorderSteps(text, order)
  if ("text" in edit) return edit.text
  const { message, where, fix, severity } = edit.refusal
  expect([severity, fix === undefined, where.file]).toEqual(["error", false, "kit.yaml"])
  return `${where.line}:${where.column} ${message}`
}

const kit = `kit: arm # the kit

steps: # in the order of doing

  # Section: on the bench

  # About plate.
  # Two lines of it.
  plate:
    do: [place: plate]
    text: |
      Hold the plate.

      # This is text and no comment.
    # The acts of the lead come later.

  mast:   # the tube
    do:
      - strap: clamp # four of them

  # Section: in the air

  lead: { do: [connect: lead.plug to gauge.power] }
# At the margin, about hood.
  hood:

    do:
      - place: hood
      # - tighten: hood

# What follows is no step.
joints: {}
`

test("a step takes its comments along; blank lines and comments that stand alone keep their place", () => {
  expect(reorder(kit, ["hood", "lead", "plate", "mast"])).toBe(`kit: arm # the kit

steps: # in the order of doing

  # Section: on the bench

# At the margin, about hood.
  hood:

    do:
      - place: hood
      # - tighten: hood

  lead: { do: [connect: lead.plug to gauge.power] }

  # Section: in the air

  # About plate.
  # Two lines of it.
  plate:
    do: [place: plate]
    text: |
      Hold the plate.

      # This is text and no comment.
    # The acts of the lead come later.
  mast:   # the tube
    do:
      - strap: clamp # four of them

# What follows is no step.
joints: {}
`)
})

test("the order that stands already changes nothing", () => {
  expect(reorder(kit, ["plate", "mast", "lead", "hood"])).toBe(kit)
})

test.each([
  ["in one line", "steps: { a: { x: 1 }, b: [2], c }\n", "steps: { c, b: [2], a: { x: 1 } }\n"],
  [
    "on several lines",
    "steps: {\r\n  a: { x: 1 },\r\n\r\n  'b': 2,\r\n  c: {\r\n    do: [] # none\r\n  },\r\n}\r\n",
    "steps: {\r\n  c: {\r\n    do: [] # none\r\n  },\r\n\r\n  'b': 2,\r\n  a: { x: 1 },\r\n}\r\n",
  ],
])("steps in braces %s", (_, before, after) => {
  expect(reorder(before, ["c", "b", "a"])).toBe(after)
  expect(reorder(after, ["a", "b", "c"])).toBe(before)
})

test("line ends, byte order mark, odd indentation and a last line without an end stay", () => {
  const mixed = "\ufeffkit: a\r\nsteps:\r\n     a:\r\n         x: 1\r\n     b:\r\n         x: 2"
  expect(reorder(mixed, ["b", "a"])).toBe(
    "\ufeffkit: a\r\nsteps:\r\n     b:\r\n         x: 2\r\n     a:\r\n         x: 1",
  )
  const tabs = "steps:\n\ta:\n\t\tx: 1\n\tb:\n\t\tx: 2\n"
  expect(reorder(tabs, ["b", "a"])).toBe("steps:\n\tb:\n\t\tx: 2\n\ta:\n\t\tx: 1\n")
  // A line carries its own end along.
  expect(reorder("steps:\n  a: 1\r\n  b: 2\n  c: 3\r", ["c", "a", "b"])).toBe("steps:\n  c: 3\r  a: 1\r\n  b: 2\n")
})

test("an alias may go along as long as its anchor stays before it", () => {
  const text = "steps:\n  a: &x { do: 1 }\n  b: *x\n  c: 3\n"
  expect(reorder(text, ["c", "a", "b"])).toBe("steps:\n  c: 3\n  a: &x { do: 1 }\n  b: *x\n")
})

test.each([
  ["no steps", "kit: a\n", ["a"], "1:1 `kit.yaml` has no `steps`"],
  ["a list of steps", "kit: a\nsteps: [a]\n", ["a"], "2:1 `steps` holds no map of steps"],
  [
    "an alias for all steps",
    "x: &s { a: 1 }\nsteps: *s\n",
    ["a"],
    "2:1 `steps` holds only `*s`, which stands for another place",
  ],
  [
    "broken YAML",
    "steps:\n  a: [1\nb: 2\n",
    ["a"],
    /^[23]:\d+ `kit.yaml` cannot be read from here on, so its steps stay as they are$/,
  ],
  ["two documents", "steps:\n  a: 1\n---\nsteps:\n  b: 1\n", ["a"], /cannot be read from here on/],
  ["an id twice", "steps:\n  a: 1\n  b: 1\n  a: 2\n", ["b", "a"], "4:3 step `a` is written twice, first in line 2"],
  ["an unknown id", "steps:\n  a: 1\n", ["b"], "1:1 the new order names step `b`, which is not in `kit.yaml`"],
  ["an id left out", "steps:\n  a: 1\n  b: 1\n", ["b"], "2:3 the new order leaves step `a` out"],
  ["an id named twice", "steps:\n  a: 1\n  b: 1\n", ["b", "a", "b"], "1:1 the new order names step `b` twice"],
  [
    "steps brought in by `<<`",
    "x: &s { a: 1 }\nsteps:\n  <<: *s\n  b: 1\n",
    ["b", "<<"],
    "3:3 `<<` brings in steps from another place; their order is not written here",
  ],
  ["a list as id", "steps:\n  [a]: 1\n  b: 1\n", ["b", "a"], "2:3 a step without a plain id stands here"],
  [
    "an alias before its anchor",
    "steps:\n  a: &x 1\n  b: *x\n",
    ["b", "a"],
    "3:6 `*x` would come to stand before `&x`, or behind another one",
  ],
  [
    "an alias for another anchor",
    "steps:\n  a: &x 1\n  b: &x 2\n  c: *x\n",
    ["b", "a", "c"],
    "4:6 `*x` would come to stand before `&x`, or behind another one",
  ],
  [
    "`<<` inside a step before its anchor",
    "steps:\n  a: &x { do: 1 }\n  b: { <<: *x, text: t }\n",
    ["b", "a"],
    /^3:12 `\*x` would come/,
  ],
  [
    "a comment of nobody",
    "steps:\n  a:\n    do: 1\n\n    # whose?\n  b: 1\n",
    ["b", "a"],
    "5:5 it is not clear to which step this comment belongs",
  ],
  [
    "a text that keeps its blank lines",
    "steps:\n  a: |+\n    text\n\n  b: 1\n",
    ["b", "a"],
    "2:3 step `a` ends with a text that keeps its blank lines (`|+`)",
  ],
  [
    "a blank line that reads otherwise elsewhere",
    "steps:\n  a:\n  b: 1\n\t\n  c: 2\n",
    ["b", "a", "c"],
    "1:1 the lines of these steps cannot be told apart safely",
  ],
  [
    "a comment in braces",
    "steps: {\n  a: 1, # one\n  b: 2\n}\n",
    ["b", "a"],
    "2:9 a comment stands between the steps in braces, before `b`",
  ],
])("%s is refused with its place", (_, text, order, expected) => {
  if (typeof expected === "string") expect(reorder(text, order)).toBe(expected)
  else expect(reorder(text, order)).toMatch(expected)
})

const seed = 20261125

const blank = fc.constantFrom("", "", "  ")
const words = fc.stringMatching(/^[a-z#:' -]{0,12}$/)

/** One step of a text: comment above, key, content, comment below. Lines without indentation of the list. */
const stepLines = (id: string) =>
  fc
    .record({
      above: fc.array(words, { maxLength: 2 }),
      form: fc.constantFrom("acts", "text", "braces", "folded", "empty", "quoted", "list"),
      inner: fc.array(words, { minLength: 1, maxLength: 3 }),
      below: fc.array(words, { maxLength: 1 }),
      tail: fc.constantFrom("", " # told"),
    })
    .map(({ above, form, inner, below, tail }) => {
      const text = inner.map((one) => `      x ${one.trim()}`)
      const quoted = inner.map((one) => one.replaceAll("'", "").replace(/\s+$/, ""))
      const content: Readonly<Record<typeof form, readonly string[]>> = {
        acts: [`  ${id}:${tail}`, "    do:", ...inner.map((_, index) => `      - place: p${index}${tail}`)],
        text: [`  ${id}:`, "    text: |", ...text.flatMap((line) => [line, ""]), ...text],
        braces: [`  ${id}: { do: [place: p],`, `    time: ${inner.length} }${tail}`],
        folded: [`  ${id}: >-${tail}`, ...text],
        empty: [`  ${id}:${tail}`],
        quoted: [`  ${id}: 'a ${quoted.join("\n      b ")}'`].flatMap((one) => one.split("\n")),
        list: [`  ${id}:`, `  - one`, "  - do:", `      text: two${tail}`],
      }
      return [...above.map((one) => `  # ${one}`), ...content[form], ...below.map((one) => `    # ${one}`)]
    })

const texts = fc
  .record({
    count: fc.integer({ min: 1, max: 6 }),
    end: fc.constantFrom("\n", "\r\n", "\r"),
    mark: fc.constantFrom("", "\ufeff"),
    isOpen: fc.boolean(),
    after: fc.constantFrom([], [""], ["", "joints: {}"], ["...", ""], ["# the end"]),
  })
  .chain((shape) =>
    fc.record({
      shape: fc.constant(shape),
      steps: fc.tuple(...Array.from({ length: shape.count }, (_, index) => stepLines(`step-${index}`))),
      gaps: fc.array(
        fc.oneof(fc.constant([]), fc.array(blank, { maxLength: 2 }), fc.constant(["", "  # section", ""])),
        { minLength: shape.count, maxLength: shape.count },
      ),
      order: fc.shuffledSubarray(
        Array.from({ length: shape.count }, (_, index) => index),
        { minLength: shape.count },
      ),
    }),
  )

/** The text with its steps in an order; gaps stay where they are. */
function lay({ steps, gaps, shape }: Parameters<Parameters<typeof texts.map>[0]>[0], order: readonly number[]): string {
  const lines = ["kit: arm", "steps:"]
  for (const [position, index] of order.entries()) {
    lines.push(...(gaps[position] ?? []), ...(steps[index] ?? []))
  }
  lines.push(...shape.after)
  const body = lines.join(shape.end)
  return `${shape.mark}${body}${shape.isOpen ? "" : shape.end}`
}

const plain = (text: string): string => text.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n")
const sorted = (text: string): readonly string[] => text.split(/\r\n|\r|\n/).sort()

test(`reordered texts hold the same steps and lines, and the way back is exact (seed ${seed})`, () => {
  let refusedCount = 0
  let runCount = 0
  fc.assert(
    fc.property(texts, (sample) => {
      const present = sample.order.map((_, index) => index)
      const ids = sample.order.map((index) => `step-${index}`)
      const before = lay(sample, present)
      const edit = reorderSteps(before, ids)
      runCount += 1
      if ("refusal" in edit) {
        refusedCount += 1
        return
      }
      expect(edit.text).toBe(lay(sample, sample.order))
      expect(sorted(edit.text)).toEqual(sorted(before))
      const [old, now] = [before, edit.text].map((text) => parse(plain(text)) as { steps: Record<string, unknown> })
      expect(Object.keys(now?.steps ?? {})).toEqual(ids)
      const trimmed = (steps: unknown): unknown => JSON.parse(JSON.stringify(steps).replaceAll(/(\\n|\s)+"/g, '"'))
      expect(trimmed(now?.steps)).toEqual(trimmed(old?.steps))
      expect(
        reorderSteps(
          edit.text,
          present.map((index) => `step-${index}`),
        ),
      ).toEqual({ text: before })
    }),
    { seed, numRuns: 600 },
  )
  // Comments of nobody are rare in these texts; a refusal of most of them would make the test empty.
  expect(refusedCount).toBeLessThan(runCount / 10)
})

test(`any text gives a text of the same lines or a refusal (seed ${seed})`, () => {
  const pieces = [
    "steps:",
    "\n",
    "\n  ",
    " a: ",
    "b:",
    "c: 1",
    "# x",
    "{",
    "}",
    ",",
    "[",
    "]",
    "|+",
    ">",
    "&n ",
    "*n",
    "<<: ",
    "'",
    "- ",
    "? ",
    "\t",
    "\r",
    "---\n",
    "%",
    "\ufeff",
  ]
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...pieces), { maxLength: 24 }), (parts) => {
      const text = `steps:\n  a: 1\n  b: 2\n${parts.join("")}`
      const edit = reorderSteps(text, ["b", "a"])
      if ("text" in edit) expect(sorted(edit.text)).toEqual(sorted(text))
      const wild = parts.join("")
      expect(() => reorderSteps(wild, ["b", "a"])).not.toThrow()
    }),
    { seed, numRuns: 800 },
  )
})

test.each(kitFolders)("%s reversed and put back is the same file, byte for byte", (folder) => {
  const kitFile = readKitFiles(folder).find(({ path }) => path === "kit.yaml")
  const text = Buffer.from(kitFile?.bytes ?? []).toString("utf8")
  const ids = Object.keys((parse(text) as { steps: object }).steps)
  const reversed = reorderSteps(text, [...ids].reverse())
  if (!("text" in reversed)) throw new Error(reversed.refusal.message)
  expect(Object.keys((parse(reversed.text) as { steps: object }).steps)).toEqual([...ids].reverse())
  expect(reorderSteps(reversed.text, ids)).toEqual({
    text: readFileSync(`${new URL("../../", import.meta.url).pathname}${folder}/kit.yaml`, "utf8"),
  })
})
