/** Builds the folder of one variant, or keeps what stands when the kit does not allow it. */
import { existsSync, readdirSync, statSync } from "node:fs"
import { join } from "node:path"
import type { Proof } from "../document/types.ts"
import { finding, mergeFindings } from "../findings/order.ts"
import type { Finding } from "../findings/types.ts"
import type { Printer } from "../print/types.ts"
import { countFindings, sayBuilt, writeMarker } from "./out-folder.ts"
import { compareRevision, noteRevision } from "./revisions.ts"
import type { Stages } from "./stages.ts"
import { isTarget, replaceFolder } from "./swap.ts"
import { tellFault, toolFaultId } from "./tell-fault.ts"
import type { OnProgress, VariantResult } from "./types.ts"
import { type IndexWords, makeVariantFiles, readReport, type VariantReport } from "./variant-files.ts"

/** What all variants of a run share. `opening` is the browser that is being started. */
export type Run = {
  readonly stages: Stages
  readonly out: string
  readonly opening: Promise<Printer | { readonly problem: string }>
  readonly onProgress: OnProgress
}

/** What became of one variant, and all that was found. */
export type VariantOutcome = { readonly result: VariantResult; readonly findings: readonly Finding[] }

/**
 * Draws, publishes, prints and swaps one variant. With errors among its findings nothing is written but the marker
 * that its last documents are not current. `inputs` are the hashes of the files read. Throws only when `out` cannot
 * be written: a fault of a stage comes back as finding `tool-fault`, one of the printer as `page-not-printed`.
 */
export async function buildVariant(
  run: Run,
  proof: Proof,
  inputs: Readonly<Record<string, string>>,
  say: (task: string) => void,
): Promise<VariantOutcome> {
  const { out, stages } = run
  const { kit } = proof
  const name = `${kit.id}/${kit.variant.id}`
  try {
    say("drawing")
    const drawn = stages.draw(proof)
    const findings = mergeFindings([...proof.findings, ...drawn.findings])
    if (countFindings(findings).errors > 0) return keepVariant(run, proof, findings)
    say("publishing")
    const documents = stages.publish({ ...proof, findings }, drawn.drawings)
    const opened = await run.opening
    const printer = "print" in opened ? opened : undefined
    const standing = readReport(join(out, name))
    say("printing")
    const made = await makeVariantFiles(proof, documents, {
      inputs: selectInputs(proof, inputs),
      findings,
      standing: join(out, name),
      printer,
      onPrinted: (path) => say(`printed ${path}`),
    }).catch((fault: unknown) => tellPrintFault(proof, fault))
    if ("id" in made) return keepVariant(run, proof, mergeFindings([...findings, made]))
    if (standing === undefined && isFilled(join(out, name))) {
      return keepVariant(run, proof, mergeFindings([...findings, tellForeign(proof, out)]))
    }
    const revision = compareRevision(out, kit, standing)
    replaceFolder(out, name, made.files)
    noteRevision(out, kit, standing)
    const all = mergeFindings([...findings, ...revision])
    const counts = countFindings(all)
    return {
      findings: all,
      result: {
        ...identify(proof),
        state: made.hasAllPages ? "built" : "pages-missing",
        errorCount: 0,
        warningCount: counts.warnings,
        verdict: sayBuilt(counts.warnings, made.hasAllPages),
      },
    }
  } catch (fault) {
    // What the disk refuses concerns the whole run, and is no fault of the tool.
    if (fault instanceof Error && "syscall" in fault) throw fault
    return keepVariant(run, proof, mergeFindings([...proof.findings, tellFault(out, fault, name)]))
  }
}

/** Leaves what stands in its place, and marks it. */
function keepVariant({ out, stages }: Run, proof: Proof, findings: readonly Finding[]): VariantOutcome {
  const { kit } = proof
  const isNamed = isTarget(kit.id, kit.variant.id)
  const standing = isNamed ? readReport(join(out, kit.id, kit.variant.id)) : undefined
  const result = keep(out, { ...identify(proof), kit: kit.id, index: stages.describe(proof) }, standing, findings)
  return { findings, result }
}

/** Marks a variant that stands but could not even be read this time. */
export function keepStanding(out: string, standing: VariantReport, findings: readonly Finding[]): VariantResult {
  const { kit, variant, index } = standing
  const names = { id: variant, title: index.variantTitle, folder: `${kit}/${variant}`, kit, index }
  return keep(out, names, standing, findings)
}

function keep(
  out: string,
  { kit, index, ...names }: Pick<VariantResult, "id" | "title" | "folder"> & { kit: string; index: IndexWords },
  standing: VariantReport | undefined,
  findings: readonly Finding[],
): VariantResult {
  const { errors, warnings } = countFindings(findings)
  const cause = findings.some(({ id }) => id === toolFaultId)
    ? "not built: a fault of the tool"
    : `not built: ${errors} error${errors === 1 ? "" : "s"}`
  const verdict =
    standing === undefined ? cause : `${cause}; the documents of revision ${standing.revision.id} still stand`
  writeMarker(out, { kit, variant: names.id, index, errorCount: errors, warningCount: warnings, verdict })
  const state = standing === undefined ? "none" : "kept"
  return { ...names, state, errorCount: errors, warningCount: warnings, verdict }
}

function identify({ kit }: Proof): Pick<VariantResult, "id" | "title" | "folder"> {
  return { id: kit.variant.id, title: kit.variant.title, folder: `${kit.id}/${kit.variant.id}` }
}

/** Of all files read, those of this variant: its text files by the places of its values, all models it names. */
function selectInputs({ kit }: Proof, inputs: Readonly<Record<string, string>>): Readonly<Record<string, string>> {
  const written = new Set(Object.values(kit.places).map(({ file }) => file))
  return Object.fromEntries(
    Object.entries(inputs)
      .filter(([path]) => written.has(path) || !/\.ya?ml$/.test(path))
      .sort(([one], [other]) => (one < other ? -1 : 1)),
  )
}

/** A folder where the documents belong, with files in it and no report of ours. */
function isFilled(folder: string): boolean {
  return existsSync(folder) && (!statSync(folder).isDirectory() || readdirSync(folder).length > 0)
}

function tellForeign({ kit }: Proof, out: string): Finding {
  const report = {
    message: `\`${kit.id}/${kit.variant.id}\` in the folder of documents holds files that Kitleaf did not make`,
    why: `building the variant would replace what stands in ${join(out, kit.id, kit.variant.id)}`,
    fix: "move those files away, or name another folder with `--out`",
    where: { file: "kit.yaml", path: [], line: 1, column: 1, endLine: 1, endColumn: 1 },
  }
  return { ...finding("foreign-folder", "error", report), variants: [kit.variant.id] }
}

function tellPrintFault({ kit }: Proof, fault: unknown): Finding {
  const report = {
    message: `the pages of variant \`${kit.variant.id}\` could not be printed`,
    why: fault instanceof Error ? fault.message : String(fault),
    fix: "build again; if it stays so, try another browser with KITLEAF_BROWSER",
    where: { file: "kit.yaml", path: [], line: 1, column: 1, endLine: 1, endColumn: 1 },
  }
  return { ...finding("page-not-printed", "error", report), variants: [kit.variant.id] }
}
