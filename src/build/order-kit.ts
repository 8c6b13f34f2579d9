/** Explains the order of a kit's steps, variant by variant. Writes nothing. */
import type { Proof } from "../document/types.ts"
import { mergeFindings } from "../findings/order.ts"
import type { Finding } from "../findings/types.ts"
import type { Step } from "../kit/types.ts"
import { buildPlan, describeAct, explainOrder } from "../sequence/index.ts"
import type { NumberedStep, OrderOfVariants, OrderResult } from "./order-types.ts"
import { decodeFiles, guessKitId, type KitFolder, readKitFolder } from "./read-kit.ts"
import { proveFolder } from "./run-build.ts"
import { loadStages, type Stages } from "./stages.ts"
import { toolFaultId } from "./tell-fault.ts"
import type { OnProgress } from "./types.ts"

/** A kit as proved, with its findings told apart. */
export type ProvedKit = {
  readonly stages: Stages
  readonly read: KitFolder
  readonly kit: string
  readonly proofs: readonly Proof[]
  readonly findings: readonly Finding[]
  /** Findings without which nothing can be said about the order; empty when the kit could be read. */
  readonly blocking: readonly Finding[]
}

/** Reads and proves the kit in `folder`; throws only when the folder cannot be read. */
export async function proveOrderOf(folder: string, onProgress: OnProgress): Promise<ProvedKit> {
  const stages = await loadStages({})
  const read = readKitFolder(folder)
  const guessed = guessKitId(folder, read.files)
  onProgress({ kit: guessed, variant: undefined, task: "proving", done: 0, total: 1 })
  const { proofs, findings: proved } = proveFolder(stages, read, guessed, undefined)
  const findings = mergeFindings([...read.findings, ...proved])
  const isBlocked = proofs.length === 0 || findings.some(stopsReading)
  const kit = proofs[0]?.kit.id ?? guessed
  return { stages, read, kit, proofs, findings, blocking: isBlocked ? findings : [] }
}

/**
 * Gives for each variant what each step needs from where, how far it could move, and how many orders are valid. `variant` picks
 * one; the caller makes sure that the kit has it. Variants with equal answers are told once.
 */
export async function orderKit(
  folder: string,
  variant?: string,
  onProgress: OnProgress = () => undefined,
): Promise<OrderResult> {
  const { read, kit, proofs, findings, blocking } = await proveOrderOf(folder, onProgress)
  const chosen = proofs.filter((proof) => variant === undefined || proof.kit.variant.id === variant)
  const faulty = chosen.filter(({ sequence }) => sequence.faults.length > 0)
  const concerned = new Set(chosen.map((proof) => proof.kit.variant.id))
  const isConcerned = (one: Finding): boolean =>
    one.variants.length === 0 || one.variants.some((id) => concerned.has(id))
  const isOther = (one: Finding): boolean => one.severity === "error" && !isOfOrder(one) && isConcerned(one)
  const sound = blocking.length > 0 ? [] : chosen.filter((proof) => !faulty.includes(proof))
  return {
    kit,
    folder,
    variants: proofs.map((proof) => proof.kit.variant.id),
    orders: sound.reduce(foldEqual, []),
    findings: blocking.length > 0 ? blocking : findings.filter((one) => isOfOrder(one) && isConcerned(one)),
    isFaulty: blocking.length === 0 && faulty.length > 0,
    otherErrorCount: blocking.length > 0 ? 0 : findings.filter(isOther).length,
    files: decodeFiles(read.files),
  }
}

/** True for what the order proof found wrong. */
export function isOfOrder({ severity, source }: Finding): boolean {
  return severity === "error" && source === "the order proof"
}

/** Title of a step as a person reads it. */
export function titleStep({ title, acts }: Step): string {
  return title ?? acts.map(describeAct).slice(0, 2).join(", ")
}

/** Errors of reading: with an act or a part left out, nothing certain can be said about the order. A missing model changes no order. */
function stopsReading({ severity, source, id }: Finding): boolean {
  return severity === "error" && (id === toolFaultId || (source === undefined && !id.startsWith("model-")))
}

function foldEqual(orders: readonly OrderOfVariants[], { kit, sequence }: Proof): readonly OrderOfVariants[] {
  const plan = buildPlan(kit, sequence)
  const steps = kit.steps.map(
    (step, index): NumberedStep => ({ number: index + 1, id: step.id, title: titleStep(step) }),
  )
  const key = JSON.stringify([plan, steps])
  const known = orders.find((one) => JSON.stringify([one.plan, one.steps]) === key)
  if (known === undefined) return [...orders, { variants: [kit.variant.id], steps, plan, report: explainOrder(plan) }]
  return orders.map((one) => (one === known ? { ...one, variants: [...one.variants, kit.variant.id] } : one))
}
