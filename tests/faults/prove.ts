/** Proves mutants of a kit; what does not change between them is computed once. */
import { runChecks } from "../../src/checks/registry.ts"
import type { Proof } from "../../src/document/types.ts"
import { mergeFindings } from "../../src/findings/order.ts"
import type { Finding } from "../../src/findings/types.ts"
import { computeFit, type Keep } from "../../src/fit/index.ts"
import { resolveKit } from "../../src/kit/index.ts"
import type { Kit } from "../../src/kit/types.ts"
import { proveSequence } from "../../src/sequence/index.ts"
import { loadKernel } from "../../src/solids/index.ts"
import type { Kernel, RoundHole } from "../../src/solids/types.ts"
import { loadSpecs } from "../../src/spec/index.ts"
import { readKitModel } from "../guides/kit-files.ts"
import type { TextFile } from "./draft.ts"

const kernel = keepShapes(await loadKernel())
const found = new Map<string, readonly RoundHole[]>()
const models = new Map<string, Uint8Array | undefined>()

/** Proves the variants with these ids, or all; the stages are those of `src/build/prove.ts`. */
export function proveVariants(
  folder: string,
  files: readonly TextFile[],
  variants: readonly string[] | undefined,
): readonly Proof[] {
  return proveFiles(folder, files, variants).proofs
}

/** The same, with the findings that concern no variant: a kit whose text cannot be read has no other. */
export function proveFiles(
  folder: string,
  files: readonly TextFile[],
  variants: readonly string[] | undefined,
): { readonly proofs: readonly Proof[]; readonly shared: readonly Finding[] } {
  const bytes = files.map(({ path, text }) => ({ path, bytes: new TextEncoder().encode(text) }))
  const loaded = loadSpecs(bytes)
  const shared = loaded.findings.filter((one) => one.variants.length === 0)
  const wanted = loaded.value.filter(({ variant }) => variants === undefined || variants.includes(variant.id))
  if (wanted.length === 0 && variants !== undefined)
    throw new Error(
      `${folder} has no variant ${variants.join(", ")}: ${shared.map(({ message }) => message).join("; ")}`,
    )
  const proofs = wanted.map((spec): Proof => {
    const own = loaded.findings.filter((one) => one.variants.includes(spec.variant.id))
    const resolved = resolveKit(spec, { kernel, found, readModel: (file) => readModel(folder, file) })
    const kit = resolved.value
    const fit = computeFit(kit, keepEqual)
    const sequence = proveSequence(kit, fit)
    const judged = runChecks({ kit, fit, sequence })
    return { kit, fit, sequence, findings: mergeFindings([...shared, ...own, ...resolved.findings, ...judged]) }
  })
  return { proofs, shared }
}

function readModel(folder: string, file: string) {
  const key = `${folder} ${file}`
  if (!models.has(key)) models.set(key, readKitModel(folder, file))
  const bytes = models.get(key)
  return bytes === undefined ? { problem: { message: `there is no model \`${file}\`` } } : { bytes }
}

/** A kernel that makes each shape once: meshes are plain data that nobody changes. */
function keepShapes(inner: Kernel): Kernel {
  const made = new Map<string, ReturnType<Kernel["make"]>>()
  return {
    ...inner,
    make: (shape) => {
      const key = JSON.stringify(shape)
      const mesh = made.get(key) ?? inner.make(shape)
      made.set(key, mesh)
      return mesh
    },
  }
}

type Kept = { readonly keys: readonly (keyof Kit)[]; readonly values: string; readonly result: unknown }
const kept = new Map<string, Kept[]>()

/** Watches what is read of a kit; from a kit that is equal in all of that comes the same result. */
const keepEqual: Keep = <Result>(kit: Kit, name: string, compute: (kit: Kit) => Result): Result => {
  const valuesOf = (keys: readonly (keyof Kit)[]): string => keys.map((key) => textOf(kit, key)).join("\n")
  const known = kept.get(name)?.find(({ keys, values }) => valuesOf(keys) === values)
  // What was kept under a name came from the same function.
  if (known !== undefined) return known.result as Result
  const read = new Set<keyof Kit>()
  const watched = new Proxy(kit, {
    get: (target, key) => {
      // Only keys of a kit are asked for: the types of the stage see to that.
      read.add(key as keyof Kit)
      return Reflect.get(target, key)
    },
  })
  const result = compute(watched)
  const keys = [...read].sort()
  kept.set(name, [...(kept.get(name) ?? []), { keys, values: valuesOf(keys), result }])
  return result
}

const texts = new WeakMap<Kit, Map<keyof Kit, string>>()

/** A value of the kit as text. Meshes have their content as keys; of places only the names matter, and of those not the steps'. */
function textOf(kit: Kit, key: keyof Kit): string {
  const known = texts.get(kit) ?? new Map<keyof Kit, string>()
  texts.set(kit, known)
  const text = known.get(key)
  if (text !== undefined) return text
  const names = (record: object): string =>
    Object.keys(record)
      .filter((name) => !name.startsWith("steps/"))
      .join(" ")
  const written = key === "meshes" || key === "places" ? names(kit[key]) : (JSON.stringify(kit[key]) ?? "")
  known.set(key, written)
  return written
}
