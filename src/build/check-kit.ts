/** Checks a kit without writing anything. */
import { mergeFindings } from "../findings/order.ts"
import type { Finding } from "../findings/types.ts"
import { countFindings } from "./out-folder.ts"
import { decodeFiles, guessKitId, readKitFolder } from "./read-kit.ts"
import { proveFolder } from "./run-build.ts"
import { loadStages } from "./stages.ts"
import { tellFault } from "./tell-fault.ts"
import type { CheckResult, OnProgress } from "./types.ts"

/**
 * Proves all variants of the kit in `folder`, and draws those without errors, since a part that no drawing can show
 * is a finding too. Throws only when the folder cannot be read.
 */
export async function checkKit(folder: string, onProgress: OnProgress = () => undefined): Promise<CheckResult> {
  const stages = await loadStages({})
  const read = readKitFolder(folder)
  const kit = guessKitId(folder, read.files)
  onProgress({ kit, variant: undefined, task: "proving", done: 0, total: 1 })
  const { proofs, findings } = proveFolder(stages, read, kit, undefined)
  const shared = mergeFindings([...read.findings, ...findings])
  const variants = proofs.map((proof, index) => {
    const { id, title } = proof.kit.variant
    onProgress({ kit, variant: id, task: "drawing", done: index, total: proofs.length })
    const own = mergeFindings([...read.findings, ...proof.findings])
    const drawn = countFindings(own).errors > 0 ? [] : drawFindings(() => stages.review(proof), `${kit}/${id}`)
    const all = mergeFindings([...own, ...drawn])
    return { id, title, errorCount: countFindings(all).errors, findings: all }
  })
  return {
    kit: proofs[0]?.kit.id ?? kit,
    folder,
    findings: mergeFindings([...shared, ...variants.flatMap((variant) => variant.findings)]),
    variants: variants.map(({ id, title, errorCount }) => ({ id, title, errorCount })),
    files: decodeFiles(read.files),
  }
}

function drawFindings(draw: () => readonly Finding[], name: string): readonly Finding[] {
  try {
    return draw()
  } catch (fault) {
    return [tellFault(undefined, fault, name)]
  }
}
