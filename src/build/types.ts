/** What the operations of this folder take and give; the command line and other programs see no more than this. */
import type { Finding } from "../findings/types.ts"

/** What is happening, for a line of progress. `done` and `total` count documents and drawings of this run. */
export type Progress = {
  readonly kit: string
  readonly variant: string | undefined
  readonly task: string
  readonly done: number
  readonly total: number
}

/** Called whenever something begins or ends; never needed for the result. */
export type OnProgress = (progress: Progress) => void

/** A text file of the kit, for showing the lines of a finding. */
export type SourceFile = { readonly path: string; readonly text: string }

/** What checking a kit gives. `files` holds the kit's text files, for the lines of the findings. */
export type CheckResult = {
  readonly kit: string
  readonly folder: string
  readonly findings: readonly Finding[]
  readonly variants: readonly { readonly id: string; readonly title: string; readonly errorCount: number }[]
  readonly files: readonly SourceFile[]
}

/** What became of one variant in a build. */
export type VariantResult = {
  readonly id: string
  readonly title: string
  /** Folder of its documents, relative to the folder of all documents: `rain-gauge-arm/round-32`. */
  readonly folder: string
  /**
   * `built`: all documents are there and new. `pages-missing`: no PDF, for want of a browser.
   * `kept`: not built for its findings; what the last good build made still stands. `none`: nothing stands.
   */
  readonly state: "built" | "pages-missing" | "kept" | "none"
  readonly errorCount: number
  readonly warningCount: number
  /** One line for the maker: what became of it and why. */
  readonly verdict: string
}

/** What building a kit gives. */
export type BuildResult = Omit<CheckResult, "variants"> & {
  readonly results: readonly VariantResult[]
  /** Folders of variants that the kit no longer has; left in place, and told. */
  readonly leftOver: readonly string[]
  /** What to do for PDF files when no browser was found, in sentences. */
  readonly printProblem: string | undefined
}

export type BuildOptions = {
  /** Environment for the search for a browser; nothing else of it is read. */
  readonly env: Readonly<Record<string, string | undefined>>
  readonly onProgress?: OnProgress
}
