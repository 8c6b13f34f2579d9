import { expect, test } from "vitest"
import { mergeFindings } from "../../src/findings/order.ts"
import type { Finding } from "../../src/findings/types.ts"
import { proveFiles } from "../faults/prove.ts"
import { readKitFiles } from "../guides/kit-files.ts"

/** Proves the base variant of a kit with this text. */
function prove(folder: string, text: string): readonly Finding[] {
  const { proofs, shared } = proveFiles(folder, [{ path: "kit.yaml", text }], undefined)
  return mergeFindings([...shared, ...proofs.flatMap(({ findings }) => findings)])
}

/** Keys whose values are the maker's own words; steps, hazards and ends that nothing names may be called anything. */
const ownWords =
  /\b(title|name|text|result|caution|until|tried|source|consequence|avoid|earth|cooling|intended-use|not-for|supplier|address|contact|product|revision|also|kit|variant|inspect|wait|guide|needs-after|wipe|[a-z]+-pencil|own|[ABC])\b: /

type Slip = { readonly line: number; readonly at: number; readonly word: string; readonly isKey: boolean }

/** Words of the keys, names and short forms of a kit; not those of its texts and remarks. */
function wordsOf(text: string): readonly Slip[] {
  let blockIndent = -1
  return text.split("\n").flatMap((line, index): readonly Slip[] => {
    const indent = line.search(/\S/)
    if (blockIndent >= 0 && (indent > blockIndent || indent < 0)) return []
    blockIndent = /:\s*[|>]\s*$/.test(line) ? indent : -1
    const code = line.replace(/(^|\s)#.*$/, "")
    const from = code.search(ownWords)
    return [...code.matchAll(/(?<![\w.-])[a-z][a-z0-9.-]{3,}(?![\w.-])/g)].flatMap((match) => {
      const isKey = /^:(\s|$)/.test(code.slice(match.index + match[0].length))
      return from >= 0 && match.index > from && !isKey ? [] : [{ line: index, at: match.index, word: match[0], isKey }]
    })
  })
}

/** The kit's text without the middle letter of one word. */
function slipped(text: string, { line, at, word }: Slip): string {
  const middle = at + Math.floor(word.length / 2)
  return text
    .split("\n")
    .map((one, index) => (index === line ? one.slice(0, middle) + one.slice(middle + 1) : one))
    .join("\n")
}

/** Every so many words are tried, so that each kit takes a few seconds; another remainder tries others. */
const kits = [
  { folder: "guides/pump-cradle", every: 5 },
  { folder: "tests/guides/rain-gauge-arm", every: 3 },
  { folder: "tests/guides/post-lamp", every: 1 },
]

test.each(kits)("a slip of the pen in $folder is told once", ({ folder, every }) => {
  const text = new TextDecoder().decode(readKitFiles(folder)[0]?.bytes)
  const known = new Set(prove(folder, text).map(({ id, message }) => `${id} ${message}`))
  const slips = wordsOf(text).filter((_, index) => index % every === 0)
  const wrong = slips.flatMap((slip) => {
    const found = prove(folder, slipped(text, slip)).filter(({ id, message }) => !known.has(`${id} ${message}`))
    // An id that nothing names may have any letters.
    const isFree =
      found.length === 0 && slip.isKey && /^\s*$/.test((text.split("\n")[slip.line] ?? "").slice(0, slip.at))
    if (found.length === 1 || isFree) return []
    return [`${slip.line + 1} ${slip.word}: ${found.map(({ id, message }) => `${id} ${message}`).join("; ")}`]
  })
  expect(wrong).toEqual([])
  expect(slips.length).toBeGreaterThan(30)
})

test("a kit without steps is told once", () => {
  const text = new TextDecoder().decode(readKitFiles("guides/pump-cradle")[0]?.bytes)
  const found = prove("guides/pump-cradle", text.slice(0, text.indexOf("\nsteps:")))
  expect(found.map(({ id, message }) => `${id} ${message}`)).toEqual(["missing-key the kit has no `steps`"])
})
