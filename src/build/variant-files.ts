/** Puts the folder of one variant together: HTML, drawings, PDF files, and the report that names and hashes them all. */
import { readFileSync, statSync } from "node:fs"
import { join } from "node:path"
import type { Proof } from "../document/types.ts"
import type { Finding } from "../findings/types.ts"
import type { Printer, PrintJob } from "../print/types.ts"
import { readPackageVersion } from "./assets.ts"
import { hashBytes, hashKit, hashThings } from "./content.ts"
import type { NewFile } from "./swap.ts"

/** The documents of one variant before any page is printed. Paths are relative to the variant's folder. */
export type Documents = {
  readonly pages: readonly { readonly path: string; readonly html: string }[]
  readonly prints: readonly { readonly path: string; readonly job: PrintJob }[]
  readonly drawings: readonly { readonly path: string; readonly svg: string }[]
  /** What the kit's index says about the variant. */
  readonly index: IndexWords
}

/** Words of the index that come from the documents' languages and the kit. */
export type IndexWords = {
  readonly kitTitle: string
  readonly variantTitle: string
  readonly fitsWords: string
  readonly revision: string
}

/** `report.json` of a variant's folder. A function of the kit, this program and the browser alone. */
export type VariantReport = {
  readonly tool: { readonly name: "kitleaf"; readonly version: string }
  /** Undefined when no page was printed. */
  readonly browser: string | undefined
  readonly kit: string
  readonly variant: string
  readonly revision: { readonly id: string; readonly date: string; readonly guide: string }
  readonly index: IndexWords
  /** SHA-256 of all the maker wrote for this variant, wherever it stands. */
  readonly content: string
  /** SHA-256 of the bytes of every file read. */
  readonly inputs: Readonly<Record<string, string>>
  /** SHA-256 of each part, joint, text and so on: tells what differs between two reports. */
  readonly things: Readonly<Record<string, string>>
  /** `madeFrom` of a PDF is the hash of its HTML, paper and date. */
  readonly documents: readonly {
    readonly path: string
    readonly sha256: string
    readonly byteCount: number
    readonly madeFrom?: string
  }[]
  readonly findings: readonly Finding[]
}

/** Name of the report in a variant's folder. */
const reportName = "report.json"

/**
 * Prints the PDF files and gives all files of the folder. A PDF of the folder `standing` whose HTML, paper, date and
 * browser are the same is taken over instead of printed again. Without a printer, PDF files are left out, but for
 * those that can be taken over. `onPrinted` is called after each.
 */
export async function makeVariantFiles(
  proof: Proof,
  documents: Documents,
  context: {
    readonly inputs: Readonly<Record<string, string>>
    readonly findings: readonly Finding[]
    readonly standing: string
    readonly printer: Printer | undefined
    readonly onPrinted: (path: string) => void
  },
): Promise<{ readonly files: readonly NewFile[]; readonly hasAllPages: boolean }> {
  const { printer, standing } = context
  const earlier = readReport(standing)
  const printed = await Promise.all(
    documents.prints.map(async ({ path, job }) => {
      const madeFrom = hashBytes(JSON.stringify([job.html, job.widthMm, job.heightMm, job.date]))
      const isSameBrowser = printer === undefined || earlier?.browser === printer.browser
      const kept = isSameBrowser ? readStanding(standing, earlier, path, madeFrom) : undefined
      const bytes = kept ?? (await printer?.print(job))
      if (bytes !== undefined) context.onPrinted(path)
      return { path, bytes, madeFrom }
    }),
  )
  const pdfs = printed.flatMap(({ path, bytes, madeFrom }) => (bytes === undefined ? [] : [{ path, bytes, madeFrom }]))
  const texts = [
    ...documents.pages.map(({ path, html }) => ({ path, bytes: html })),
    ...documents.drawings.map(({ path, svg }) => ({ path, bytes: svg })),
  ]
  const files = [...texts, ...pdfs]
  const { kit } = proof
  const report: VariantReport = {
    tool: { name: "kitleaf", version: readPackageVersion() },
    browser: pdfs.length === 0 ? undefined : (printer?.browser ?? earlier?.browser),
    kit: kit.id,
    variant: kit.variant.id,
    revision: kit.identity.revision,
    index: documents.index,
    content: hashKit(kit),
    inputs: context.inputs,
    things: hashThings(kit),
    documents: files
      .map((file) => ({
        path: file.path,
        sha256: hashBytes(file.bytes),
        byteCount: Buffer.byteLength(file.bytes),
        ...("madeFrom" in file ? { madeFrom: file.madeFrom } : {}),
      }))
      .sort((one, other) => (one.path < other.path ? -1 : 1)),
    findings: context.findings,
  }
  return {
    files: [...files, { path: reportName, bytes: `${JSON.stringify(report, null, 2)}\n` }],
    hasAllPages: pdfs.length === documents.prints.length,
  }
}

/** Reads the report of a variant's folder; undefined when the folder is not one that Kitleaf made. */
export function readReport(folder: string): VariantReport | undefined {
  const path = join(folder, reportName)
  if (!(statSync(path, { throwIfNoEntry: false })?.isFile() ?? false)) return undefined
  try {
    // What a file of this name holds is checked only as far as telling our own report from another's.
    const report = JSON.parse(readFileSync(path, "utf8")) as Partial<VariantReport>
    return report.tool?.name === "kitleaf" && report.documents !== undefined ? (report as VariantReport) : undefined
  } catch {
    return undefined
  }
}

/** A PDF that stands already, when its report says that it was made from the same and its bytes are what they were. */
function readStanding(
  folder: string,
  report: VariantReport | undefined,
  path: string,
  madeFrom: string,
): Uint8Array | undefined {
  const entry = report?.documents.find((one) => one.path === path)
  if (entry === undefined || entry.madeFrom !== madeFrom) return undefined
  const isThere = statSync(join(folder, path), { throwIfNoEntry: false })?.isFile() ?? false
  const bytes = isThere ? readFileSync(join(folder, path)) : undefined
  return bytes !== undefined && hashBytes(bytes) === entry.sha256 ? bytes : undefined
}
