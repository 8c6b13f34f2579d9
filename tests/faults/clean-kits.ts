/** The kits that faults are planted in, as they stand: their files, the proof of each variant, and what is noted about them. */

import { existsSync, readdirSync } from "node:fs"
import type { Proof } from "../../src/document/types.ts"
import type { Finding } from "../../src/findings/types.ts"
import { kitFolders, readKitFiles } from "../guides/kit-files.ts"
import type { TextFile } from "./draft.ts"
import { proveVariants } from "./prove.ts"

export type CleanKit = {
  readonly folder: string
  readonly files: readonly TextFile[]
  readonly variants: readonly CleanVariant[]
}

export type CleanVariant = {
  readonly id: string
  readonly proof: Proof
  readonly files: readonly TextFile[]
  /** Findings on the clean kit: notes only, by rule and place. */
  readonly known: ReadonlySet<string>
}

const own = "tests/faults/kits"
const root = new URL("../../", import.meta.url).pathname

/** Kits that users see, kits of other tests, and kits that hold what those lack. */
export const faultKitFolders: readonly string[] = [
  ...kitFolders,
  ...(existsSync(root + own) ? readdirSync(root + own).sort() : []).map((name) => `${own}/${name}`),
]

/** Reads and proves a kit as it stands. */
export function readCleanKit(folder: string): CleanKit {
  const files = readKitFiles(folder).map(
    ({ path, bytes }): TextFile => ({ path, text: Buffer.from(bytes).toString("utf8") }),
  )
  const variants = proveVariants(folder, files, undefined).map(
    (proof): CleanVariant => ({
      id: proof.kit.variant.id,
      proof,
      files,
      known: new Set(proof.findings.map(nameFinding)),
    }),
  )
  return { folder, files, variants }
}

/** Rule and place of a finding, as `rule path`. */
export function nameFinding({ id, where }: Finding): string {
  return `${id} ${where.path.join("/")}`
}
