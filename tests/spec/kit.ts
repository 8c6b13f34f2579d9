/** Kits for the tests of `spec`: texts to files, and findings as short lines. */
import type { Finding } from "../../src/findings/types.ts"
import { loadSpecs, type SpecFile } from "../../src/spec/index.ts"
import type { Spec } from "../../src/spec/types.ts"

const encoder = new TextEncoder()

export function file(path: string, text: string): SpecFile {
  return { path, bytes: encoder.encode(text) }
}

/** Loads kit.yaml and variant files given by name. */
export function load(kit: string, variants: Readonly<Record<string, string>> = {}) {
  const files = Object.entries(variants).map(([name, text]) => file(`variants/${name}.yaml`, text))
  return loadSpecs([file("kit.yaml", kit), ...files])
}

/** `kit.yaml:3:5 unknown-key`, in the order of the result. */
export function brief(findings: readonly Finding[]): readonly string[] {
  return findings.map((one) => `${one.where.file}:${one.where.line}:${one.where.column} ${one.id}`)
}

export function told(findings: readonly Finding[]): readonly string[] {
  return findings.map(
    (one) => `${one.where.file}:${one.where.line}:${one.where.column} ${one.id}: ${one.message} | ${one.fix ?? ""}`,
  )
}

export function first(specs: readonly Spec[]): Spec {
  const [spec] = specs
  if (spec === undefined) throw new Error("the kit gives no spec")
  return spec
}
