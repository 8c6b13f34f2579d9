/**
 * Rule fixtures: a small kit in which each expected finding stands above its line as `#! rule-id: message`.
 * A line `--- variants/NAME.yaml` begins another file. Keys that every kit needs are added at the end when absent.
 */
import { readFileSync } from "node:fs"
import { type KitFile, proveKit } from "../../src/build/prove.ts"
import type { Finding } from "../../src/findings/types.ts"
import type { Kernel } from "../../src/solids/types.ts"

const defaults: Readonly<Record<string, string>> = {
  kit: "kit: fixture",
  title: "title: Fixture",
  invented: "invented: yes",
  supplier: "supplier: { name: Test bench, address: Nowhere 1, contact: bench@example.invalid }",
  revision: "revision: { id: A, date: 2026-01-31, guide: https://example.invalid/fixture }",
  "intended-use": "intended-use: A kit for a test.",
  fits: "fits: { tube: round, diameter: 31.5 to 32.5 }",
}

/** Splits a fixture into its files; `kit.yaml` comes first. */
export function splitFixture(text: string): readonly { readonly path: string; readonly text: string }[] {
  const [first = "", ...rest] = text.split(/^--- (?=variants\/)/m)
  const missing = Object.entries(defaults).filter(([key]) => !new RegExp(`^${key}:`, "m").test(first))
  const kit = { path: "kit.yaml", text: `${first.trimEnd()}\n${missing.map(([, line]) => line).join("\n")}\n` }
  const others = rest.map((part) => {
    const end = part.indexOf("\n")
    return { path: part.slice(0, end).trim(), text: part.slice(end + 1) }
  })
  return [kit, ...others]
}

/** The marks of a fixture as `file:line rule-id: message`, sorted. */
export function readMarks(text: string): readonly string[] {
  return splitFixture(text)
    .flatMap(({ path, text: content }) => {
      const lines = content.split("\n")
      return lines.flatMap((line, index) => {
        const mark = /^\s*#! (.+)$/.exec(line)?.[1]
        if (mark === undefined) return []
        const offset = lines.slice(index).findIndex((later) => !/^\s*#!/.test(later))
        return [`${path}:${index + offset + 1} ${mark}`]
      })
    })
    .sort()
}

/** Proves a fixture; models are read from `tests/checks/models`. */
export function proveFixture(text: string, kernel: Kernel): readonly Finding[] {
  const encoder = new TextEncoder()
  const files = splitFixture(text).map(({ path, text: content }): KitFile => ({ path, bytes: encoder.encode(content) }))
  const readModel = (file: string) => ({
    bytes: new Uint8Array(readFileSync(new URL(`./models/${file}`, import.meta.url))),
  })
  return proveKit(files, { kernel, readModel }).findings
}

/** A finding in the form of a mark. */
export function asMark({ where, id, message }: Finding): string {
  return `${where.file}:${where.line} ${id}: ${message.replaceAll("\u00a0", " ")}`
}
