/** The pure stages tied to this machine: kernel, assets and browser are got once and shared by all kits of a run. */
import type { Assets, IndexEntry, Proof } from "../document/types.ts"
import type { Drawings } from "../drawing/types.ts"
import type { Finding } from "../findings/types.ts"
import { findBrowser, openPrinter } from "../print/index.ts"
import type { Printer } from "../print/types.ts"
import { loadKernel } from "../solids/index.ts"
import { readAssets } from "./assets.ts"
import { drawProof, makeDocuments, makeIndex, reviewProof, sayIndexWords } from "./documents.ts"
import { type ProofOfKit, proveKit } from "./prove.ts"
import { type KitFolder, readModelFile } from "./read-kit.ts"
import type { Documents, IndexWords } from "./variant-files.ts"

/** What a build needs done between reading and writing. Tests put quick ones in place of the real. */
export type Stages = {
  readonly prove: (folder: KitFolder, onModel: (file: string, bytes: Uint8Array) => void) => ProofOfKit
  readonly draw: (proof: Proof) => { readonly drawings: Drawings; readonly findings: readonly Finding[] }
  /** What drawing would find. */
  readonly review: (proof: Proof) => readonly Finding[]
  readonly publish: (proof: Proof, drawings: Drawings) => Documents
  /** What the index says about a variant, also of one that is not built. */
  readonly describe: (proof: Proof) => IndexWords
  /** HTML of the index over all kits. */
  readonly index: (entries: readonly IndexEntry[]) => string
  /** Starts the browser; `problem` says what to do when there is none. */
  readonly openPrinter: (runFolder: string) => Promise<Printer | { readonly problem: string }>
}

/** Loads the mesh kernel; assets are read when the first document is made. */
export async function loadStages(env: Readonly<Record<string, string | undefined>>): Promise<Stages> {
  const kernel = await loadKernel()
  let assets: Assets | undefined
  const getAssets = (): Assets => {
    assets ??= readAssets()
    return assets
  }
  return {
    prove: ({ root, files }, onModel) =>
      proveKit(files, {
        kernel,
        readModel: (file) => {
          const read = readModelFile(root, file)
          if ("bytes" in read) onModel(read.path, read.bytes)
          return read
        },
      }),
    draw: (proof) => drawProof(proof, kernel),
    review: reviewProof,
    publish: (proof, drawings) => makeDocuments(proof, drawings, getAssets()),
    describe: ({ kit }) => sayIndexWords(kit),
    index: (entries) => makeIndex(entries, getAssets()),
    openPrinter: async (runFolder) => {
      const { path, problem } = findBrowser(env)
      if (path === undefined) return { problem }
      try {
        return await openPrinter({ browserPath: path, runFolder })
      } catch (fault) {
        const words = fault instanceof Error ? fault.message.split("\n")[0] : String(fault)
        return { problem: `The browser ${path} does not start: ${words}. Set KITLEAF_BROWSER to another one.` }
      }
    },
  }
}
