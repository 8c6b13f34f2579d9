import fc from "fast-check"
import { expect, test } from "vitest"
import type { Finding } from "../../src/findings/types.ts"
import { loadSpecs } from "../../src/spec/index.ts"
import { parseText } from "../../src/text/parse.ts"
import { baseKit } from "./base-kit.ts"

const encoder = new TextEncoder()
const seed = 20260102

/** What a slip of the hand leaves behind, and what a stranger might try. */
const scraps = fc.constantFrom(
  ...[
    "",
    " ",
    "\n",
    "\t",
    ":",
    ": ",
    "- ",
    "#",
    " # ",
    "'",
    '"',
    "[",
    "]",
    "{",
    "}",
    ",",
    "|\n",
    ">\n",
    "&a ",
    "*a ",
    "!!x ",
    "? ",
    "---\n",
    "%",
    "@",
    "`",
  ],
  ...[
    "null",
    "~",
    "yes",
    "1e999",
    "-0",
    ".nan",
    "0x",
    "1,5",
    "12 x",
    "x 9",
    " to ",
    " along ",
    "\u0000",
    "\u2028",
    "\ufeff",
    "é",
    "𝄞",
    "__proto__: {}\n",
    "constructor: 1\n",
    "<<: *a\n",
    "new: true\n",
  ],
)

const edits = fc.array(fc.record({ at: fc.nat(), cut: fc.nat({ max: 12 }), put: scraps }), {
  minLength: 1,
  maxLength: 4,
})

function apply(
  text: string,
  changes: readonly { readonly at: number; readonly cut: number; readonly put: string }[],
): string {
  return changes.reduce((kit, { at, cut, put }) => {
    const from = at % (kit.length + 1)
    return kit.slice(0, from) + put + kit.slice(from + cut)
  }, text)
}

function expectPlain(findings: readonly Finding[], files: ReadonlyMap<string, string>): void {
  for (const one of findings) {
    const lines = (files.get(one.where.file) ?? "").replace(/\r\n?/g, "\n").split("\n")
    expect(one.where.line).toBeGreaterThanOrEqual(1)
    expect(one.where.line).toBeLessThanOrEqual(lines.length)
    expect(one.where.column).toBeGreaterThanOrEqual(1)
    expect(one.where.column).toBeLessThanOrEqual((lines[one.where.line - 1] ?? "").length + 1)
    expect([one.where.endLine, one.where.endLine >= one.where.line]).toEqual([one.where.endLine, true])
    expect(one.message.length).toBeLessThanOrEqual(100)
    expect(one.message).not.toMatch(/undefined|\[object|NaN|Invalid|expected/)
  }
}

test("a kit with slips of the hand is read, with findings in it, and never stops the tool", () => {
  fc.assert(
    fc.property(edits, (changes) => {
      const kit = apply(baseKit, changes)
      const { value, findings } = loadSpecs([{ path: "kit.yaml", bytes: encoder.encode(kit) }])
      expectPlain(findings, new Map([["kit.yaml", kit]]))
      for (const spec of value) {
        expect(structuredClone(spec)).toEqual(spec)
        for (const step of spec.steps) if (step.text !== undefined) parseText(step.text)
      }
    }),
    { seed, numRuns: 300 },
  )
})

const variant = `kit: arm
variant: mast-48
host: { mast: { tube: round 48 } }
parts:
  shim: { new: true, shape: { plate: 40 x 20 x 2 } }
  hood: null
joints: { foot: { screws: 3 x ISO 4762 M4x16, torque: null } }
steps:
  shim: { new: true, place-after: plate, do: [place: shim] }
`

const [untouched] = loadSpecs([{ path: "kit.yaml", bytes: encoder.encode(baseKit) }]).value

test("a variant file with slips of the hand is read the same way", () => {
  fc.assert(
    fc.property(edits, (changes) => {
      const text = apply(variant, changes)
      const files = new Map([
        ["kit.yaml", baseKit],
        ["variants/mast-48.yaml", text],
      ])
      const { value, findings } = loadSpecs(
        [...files].map(([path, content]) => ({ path, bytes: encoder.encode(content) })),
      )
      expectPlain(findings, files)
      expect(value[0]).toEqual(untouched)
    }),
    { seed, numRuns: 120 },
  )
})

test("bytes of any kind never stop the tool", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
      const { findings } = loadSpecs([{ path: "kit.yaml", bytes }])
      expect(findings.length).toBeGreaterThan(0)
    }),
    { seed, numRuns: 200 },
  )
})
