/** One run over kits: prove, then each variant, then the index over all kits that stand in the folder of documents. */
import { mkdirSync } from "node:fs"
import { join } from "node:path"
import { finding, mergeFindings } from "../findings/order.ts"
import type { Finding, Places } from "../findings/types.ts"
import { buildVariant, keepStanding, type Run, type VariantOutcome } from "./build-variant.ts"
import { hashBytes } from "./content.ts"
import { takeLock } from "./lock.ts"
import { dropStaleMarkers, listIndexEntries, listStanding, writeMarker } from "./out-folder.ts"
import type { ProofOfKit } from "./prove.ts"
import { decodeFiles, guessKitId, type KitFolder, readKitFolder } from "./read-kit.ts"
import type { Stages } from "./stages.ts"
import { finishSwaps, workPlace, writeInPlace } from "./swap.ts"
import { tellFault } from "./tell-fault.ts"
import type { BuildResult, OnProgress } from "./types.ts"

/** Variants whose pages are printed at the same time; more would only hold their HTML in memory. */
const variantsInWork = 3

/** Builds with the stages given; see `buildKits` of `build-kit.ts`. */
export async function buildWith(
  stages: Stages,
  folders: readonly string[],
  out: string,
  onProgress: OnProgress,
): Promise<readonly BuildResult[]> {
  mkdirSync(out, { recursive: true })
  const release = await takeLock(workPlace(out), (holder) => {
    onProgress({ kit: "", variant: undefined, task: `waiting for another build (${holder})`, done: 0, total: 0 })
  })
  // The browser takes longest to start, so it starts before there is anything to print.
  const opening = stages.openPrinter(workPlace(out, "browser"))
  opening.catch(() => undefined)
  try {
    finishSwaps(out)
    const results: BuildResult[] = []
    for (const folder of folders) results.push(await buildOne({ stages, out, opening, onProgress }, folder, results))
    writeInPlace(out, join(out, "index.html"), stages.index(listIndexEntries(out)))
    return results
  } finally {
    const printer = await opening.catch(() => undefined)
    if (printer !== undefined && "print" in printer) await printer.close()
    release()
  }
}

async function buildOne(run: Run, path: string, earlier: readonly BuildResult[]): Promise<BuildResult> {
  const { out, onProgress } = run
  const folder = readKitFolder(path)
  const guessed = guessKitId(path, folder.files)
  onProgress({ kit: guessed, variant: undefined, task: "proving", done: 0, total: 1 })
  const { proofs, findings: proved, inputs } = proveFolder(run.stages, folder, guessed, out)
  const kit = proofs[0]?.kit.id ?? guessed
  const files = decodeFiles(folder.files)
  const taken = earlier.find((one) => one.kit === kit)
  if (taken !== undefined) {
    const findings = [tellTaken(kit, taken.folder, proofs[0]?.kit.places ?? {})]
    return { kit, folder: path, findings, files, results: [], leftOver: [], printProblem: taken.printProblem }
  }
  const outcomes: VariantOutcome[] = []
  const inWork = new Set<Promise<void>>()
  let doneCount = 0
  for (const [index, proof] of proofs.entries()) {
    const variant = proof.kit.variant.id
    const say = (task: string): void => onProgress({ kit, variant, task, done: doneCount, total: proofs.length })
    const work = buildVariant(
      run,
      { ...proof, findings: mergeFindings([...folder.findings, ...proof.findings]) },
      inputs,
      say,
    )
      .then((outcome) => {
        outcomes[index] = outcome
        doneCount += 1
        say(outcome.result.verdict)
      })
      .finally(() => inWork.delete(work))
    inWork.add(work)
    if (inWork.size >= variantsInWork) await Promise.race(inWork)
  }
  await Promise.all(inWork)
  const shared = mergeFindings([...folder.findings, ...proved])
  const rest = settleRest(out, kit, outcomes, shared)
  const opened = await run.opening
  return {
    kit,
    folder: path,
    findings: mergeFindings([...shared, ...outcomes.flatMap(({ findings }) => findings)]),
    files,
    results: [...outcomes.map(({ result }) => result), ...rest.kept],
    leftOver: rest.leftOver,
    printProblem: "problem" in opened ? opened.problem : undefined,
  }
}

/** A kit as proved, with the hashes of every file that was read for it. */
type ProvedFolder = ProofOfKit & { readonly inputs: Readonly<Record<string, string>> }

/** Proves the kit of a folder. A fault of a stage comes back as finding `tool-fault`, written down in `out`. */
export function proveFolder(stages: Stages, folder: KitFolder, kit: string, out: string | undefined): ProvedFolder {
  const inputs = new Map(folder.files.map(({ path, bytes }) => [path, hashBytes(bytes)]))
  // A `kit.yaml` that is there but could not be read has its finding already.
  const isProvable = folder.files.some(({ path }) => path === "kit.yaml") || folder.findings.length === 0
  const nothing: ProofOfKit = { proofs: [], findings: [] }
  try {
    const onModel = (file: string, bytes: Uint8Array): void => {
      inputs.set(file, hashBytes(bytes))
    }
    const proved = isProvable ? stages.prove(folder, onModel) : nothing
    return { ...proved, inputs: Object.fromEntries(inputs) }
  } catch (fault) {
    return { ...nothing, findings: [tellFault(out, fault, kit)], inputs: Object.fromEntries(inputs) }
  }
}

/**
 * Folders of the kit that this run did not come to: of variants that are gone, or, when the spec could not be read
 * in full, of variants that may still be there. Both are marked as not current; neither is touched.
 */
function settleRest(
  out: string,
  kit: string,
  outcomes: readonly VariantOutcome[],
  shared: readonly Finding[],
): Pick<BuildResult, "leftOver"> & { readonly kept: BuildResult["results"] } {
  const built = outcomes.map(({ result }) => result.id)
  const others = listStanding(out, kit).filter(({ variant }) => !built.includes(variant))
  dropStaleMarkers(out, kit, built)
  const isReadInFull = !shared.some(({ severity, variants }) => severity === "error" && variants.length === 0)
  if (!isReadInFull) return { leftOver: [], kept: others.map((report) => keepStanding(out, report, shared)) }
  for (const { variant, index } of others) {
    const verdict = "no longer a variant of the kit; its folder can be deleted"
    writeMarker(out, { kit, variant, index, errorCount: 0, warningCount: 0, verdict })
  }
  return { leftOver: others.map(({ variant }) => `${kit}/${variant}`), kept: [] }
}

/** Two kits of one id would replace each other's documents. */
function tellTaken(kit: string, folder: string, places: Places): Finding {
  return finding("kit-id-twice", "error", {
    message: `kit \`${kit.slice(0, 40)}\` was already built in this run, from another folder`,
    why: `documents stand under the kit's id, and those of ${folder} stand there`,
    fix: "give one of the two another id after `kit:`",
    where: places.kit ?? { file: "kit.yaml", path: ["kit"], line: 1, column: 1, endLine: 1, endColumn: 1 },
  })
}
