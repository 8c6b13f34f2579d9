/** Looks for the smallest change that makes the order of a kit's steps valid in all variants, and writes it when asked to. */
import type { Proof } from "../document/types.ts"
import { mergeFindings } from "../findings/order.ts"
import type { Finding } from "../findings/types.ts"
import { buildPlan, joinPlans, repairOrder, tellRepair } from "../sequence/index.ts"
import type { MovedSteps, Plan, Repair } from "../sequence/plan-types.ts"
import { type KitEdit, reorderKit, reorderKitFile } from "../spec/edit/reorder-kit.ts"
import { isOfOrder, type ProvedKit, proveOrderOf, titleStep } from "./order-kit.ts"
import type { NumberedStep, RepairResult } from "./order-types.ts"
import { decodeFiles } from "./read-kit.ts"
import { type Replacement, replaceFiles } from "./replace-files.ts"
import { proveFolder } from "./run-build.ts"
import type { OnProgress } from "./types.ts"

export type RepairSettings = {
  /** Write the new order into the files of the kit, when it is complete. */
  readonly isWritten: boolean
  readonly onProgress?: OnProgress
  /** Called when all is ready to be written and nothing is yet; for tests of what happens meanwhile. */
  readonly onReady?: () => void
}

/**
 * Finds one repair for all variants together, puts the texts into the new order in memory, and proves them again. Nothing is
 * written unless asked for, and only when every variant's steps then stand in a valid order, no text had to be refused and no file
 * changed meanwhile.
 */
export async function repairKit(folder: string, settings: RepairSettings): Promise<RepairResult> {
  const onProgress = settings.onProgress ?? (() => undefined)
  const proved = await proveOrderOf(folder, onProgress)
  const { proofs, findings, blocking, kit, read } = proved
  const none: RepairResult = {
    kit,
    folder,
    variants: proofs.map((proof) => proof.kit.variant.id),
    findings: blocking.length > 0 ? blocking : findings.filter(isOfOrder),
    repair: undefined,
    words: [],
    before: [],
    after: [],
    stillOpen: [],
    refusals: [],
    problem: undefined,
    changed: [],
    isWritten: false,
    files: decodeFiles(read.files),
  }
  if (blocking.length > 0) return none
  const plans = proofs.map((proof) => buildPlan(proof.kit, proof.sequence))
  const joined = joinPlans(plans, proofs[0]?.kit.steps.map(({ id }) => id) ?? [])
  const repair = repairAll(plans, joined)
  const before = joined.steps.map((step, index) => numberStep(proofs, step.id, index))
  const told = { ...none, repair, words: tellRepair(joined, repair), before, stillOpen: none.findings }
  if (repair.kind !== "moved") return told
  onProgress({ kit, variant: undefined, task: "proving the new order", done: 0, total: 1 })
  const order = orderOf(joined, repair)
  const answer = tryEdit(proved, reorderKit(decodeTexts(proved), order))
  // A variant's step that goes along with the neighbour it names needs no other line, where that is as good.
  const isPlain = "changed" in answer && answer.changed.every(({ path }) => !path.startsWith("variants/"))
  const plain = isPlain ? undefined : tryEdit(proved, reorderKitFile(decodeTexts(proved), order))
  const along = plain !== undefined && "changed" in plain ? followNeighbours(joined, repair, plain) : undefined
  const final = along?.edit ?? answer
  const shown = along === undefined ? told : { ...told, repair: along.repair, words: tellRepair(joined, along.repair) }
  const after = orderOf(joined, along?.repair ?? repair).map((id, index) => numberStep(proofs, id, index))
  if ("refusal" in final) return { ...shown, after, refusals: [final.refusal] }
  const stillOpen = mergeFindings([...final.findings]).filter(isOfOrder)
  const done = { ...shown, after, stillOpen, changed: final.changed.map(({ path }) => path) }
  const problem = sayWhyNot(proved, final)
  if (!settings.isWritten || problem !== undefined) return { ...done, problem }
  const refused = replaceFiles(read.root, final.changed, settings.onReady)
  return { ...done, problem: refused, isWritten: refused === undefined }
}

/** Changed files, and what the proof says of the kit with them. */
type Tried = {
  readonly changed: readonly Replacement[]
  readonly proofs: readonly Proof[]
  readonly findings: readonly Finding[]
}

function orderOf(joined: Plan, repair: MovedSteps): readonly string[] {
  return repair.order.flatMap((step) => joined.steps[step]?.id ?? [])
}

/** Proves the kit with the edited texts. */
function tryEdit({ read, stages, kit }: ProvedKit, edit: KitEdit): Tried | { readonly refusal: Finding } {
  if ("refusal" in edit) return edit
  const changed = edit.changed.flatMap(({ path, text }): readonly Replacement[] => {
    const file = read.files.find((one) => one.path === path)
    return file === undefined ? [] : [{ path, before: file.bytes, after: encode(text, file.bytes) }]
  })
  const files = read.files.map((file) => {
    const replacement = changed.find(({ path }) => path === file.path)
    return replacement === undefined ? file : { ...file, bytes: replacement.after }
  })
  const { proofs, findings } = proveFolder(stages, { ...read, files }, kit, undefined)
  return { changed, proofs, findings }
}

/**
 * The repair as it comes out when no variant file changes: valid in every variant, and no other steps moved than before.
 * Undefined when it does not come out so.
 */
function followNeighbours(
  joined: Plan,
  repair: MovedSteps,
  edit: Tried,
): { readonly repair: MovedSteps; readonly edit: Tried } | undefined {
  if (edit.proofs.some(isBroken)) return undefined
  const plans = edit.proofs.map((proof) => buildPlan(proof.kit, proof.sequence))
  const now = joinPlans(plans, edit.proofs[0]?.kit.steps.map(({ id }) => id) ?? []).steps.map(({ id }) => id)
  const indexes = new Map(joined.steps.map(({ id }, index) => [id, index]))
  const order = now.flatMap((id) => indexes.get(id) ?? [])
  const moved = new Set(repair.moves.map(({ step }) => step))
  const kept = order.filter((step) => !moved.has(step))
  if (order.length !== joined.steps.length || kept.some((step, place) => step < (kept[place - 1] ?? 0)))
    return undefined
  const distance = (steps: readonly number[]): number =>
    steps.reduce((sum, step, place) => sum + Math.abs(step - place), 0)
  const isLeastFar = repair.isLeastFar && distance(order) <= distance(repair.order)
  const moves = order.flatMap((step, place) => (moved.has(step) ? [{ step, after: order[place - 1] }] : []))
  return { repair: { ...repair, order, moves, others: isLeastFar ? repair.others : "some", isLeastFar }, edit }
}

function isBroken({ kit, sequence }: Proof): boolean {
  return repairOrder(buildPlan(kit, sequence), { compareLimit: 0 }).kind !== "valid"
}

/** A joined plan is repaired only when a variant needs it: its order is put together from theirs. */
function repairAll(plans: readonly Plan[], joined: Plan): Repair {
  return plans.every((plan) => repairOrder(plan, { compareLimit: 0 }).kind === "valid")
    ? { kind: "valid" }
    : repairOrder(joined)
}

function numberStep(proofs: readonly Proof[], id: string, index: number): NumberedStep {
  const step = proofs.flatMap(({ kit }) => kit.steps).find((one) => one.id === id)
  return { number: index + 1, id, title: step === undefined ? "" : titleStep(step) }
}

function decodeTexts({ read }: ProvedKit): readonly { readonly path: string; readonly text: string }[] {
  return read.files.map(({ path, bytes }) => ({ path, text: decode(bytes) }))
}

/** A file that is no UTF-8 goes through letter by letter, one for each byte, so that it comes out as it was. */
function decode(bytes: Uint8Array): string {
  return isUtf8(bytes)
    ? new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes)
    : Buffer.from(bytes).toString("latin1")
}

function encode(text: string, like: Uint8Array): Uint8Array {
  return Buffer.from(text, isUtf8(like) ? "utf8" : "latin1")
}

function isUtf8(bytes: Uint8Array): boolean {
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(bytes)
    return true
  } catch {
    return false
  }
}

/** Why the new order is not good enough to be written; undefined when it is. */
function sayWhyNot(before: ProvedKit, { proofs, findings }: Tried): string | undefined {
  const faulty = proofs.find(isBroken)
  if (faulty !== undefined) {
    return `In variant \`${faulty.kit.variant.id}\` the new order would still break something that a move can mend; nothing was written.`
  }
  const known = new Set(before.findings.map(({ id, message }) => `${id} ${message}`))
  const fresh = findings.find(
    (one) => one.severity === "error" && !isOfOrder(one) && !known.has(`${one.id} ${one.message}`),
  )
  return fresh === undefined
    ? undefined
    : `In the new order there would be something new: ${fresh.message}. Nothing was written.`
}
