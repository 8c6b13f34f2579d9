/** Runs the pure stages on one kit whose files are in memory: text in, one proof per variant out. */
import { runChecks } from "../checks/registry.ts"
import type { Proof } from "../document/types.ts"
import { mergeFindings } from "../findings/order.ts"
import type { Finding } from "../findings/types.ts"
import { computeFit } from "../fit/index.ts"
import { type ReadModel, resolveKit } from "../kit/index.ts"
import { proveSequence } from "../sequence/index.ts"
import type { Kernel, RoundHole } from "../solids/types.ts"
import { loadSpecs } from "../spec/index.ts"

export type KitFile = { readonly path: string; readonly bytes: Uint8Array }

export type ProofOfKit = {
  /** One per variant, in the order of the axes; each holds the findings that concern it. */
  readonly proofs: readonly Proof[]
  /** Findings of all variants, equal ones merged, sorted. */
  readonly findings: readonly Finding[]
}

/**
 * Proves all variants of the kit whose text files are given (`kit.yaml`, `variants/*.yaml`).
 * Models are asked for by name. Never throws on bad input: it comes back as findings.
 */
export function proveKit(
  files: readonly KitFile[],
  tools: { readonly kernel: Kernel; readonly readModel: ReadModel },
): ProofOfKit {
  const loaded = loadSpecs(files)
  const shared = loaded.findings.filter(({ variants }) => variants.length === 0)
  // Variants have most meshes in common.
  const found = new Map<string, readonly RoundHole[]>()
  const proofs = loaded.value.map((spec): Proof => {
    const own = loaded.findings.filter(({ variants }) => variants.includes(spec.variant.id))
    const resolved = resolveKit(spec, { ...tools, found })
    const kit = resolved.value
    const fit = computeFit(kit)
    const sequence = proveSequence(kit, fit)
    const judged = runChecks({ kit, fit, sequence })
    const inVariant = [...resolved.findings, ...judged].map((one) => ({ ...one, variants: [kit.variant.id] }))
    return { kit, fit, sequence, findings: mergeFindings([...shared, ...own, ...inVariant]) }
  })
  return { proofs, findings: mergeFindings([...shared, ...proofs.flatMap(({ findings }) => findings)]) }
}
