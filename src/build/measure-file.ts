/** Measures one STL file for the maker. */
import { readFileSync, statSync } from "node:fs"
import { basename } from "node:path"
import { type MeshFacts, measureMesh, readStl, renderMeasure } from "../solids/index.ts"

/** Length of one unit of the file in mm. */
const mmPerUnit: Readonly<Record<string, number>> = { mm: 1, cm: 10, m: 1000, inch: 25.4 }

const limitBytes = 500_000_000

/** Facts and the same as YAML to paste, or a sentence why the file cannot be measured. */
export type Measured = { readonly facts: MeshFacts; readonly yaml: string } | { readonly problem: string }

/** Reads and measures an STL file whose numbers are in `unit` (mm, cm, m, inch). */
export function measureFile(path: string, unit = "mm"): Measured {
  const scale = mmPerUnit[unit]
  if (scale === undefined) return { problem: `\`${unit}\` is not a unit; it is one of mm, cm, m, inch.` }
  const facts = statSync(path, { throwIfNoEntry: false })
  if (facts === undefined) return { problem: `There is no file \`${path}\`.` }
  if (!facts.isFile()) return { problem: `\`${path}\` is not a file.` }
  if (facts.size > limitBytes) return { problem: `\`${path}\` is larger than ${limitBytes / 1e6} MB.` }
  const read = readStl(readFileSync(path), basename(path), scale)
  if ("mesh" in read) {
    const measured = measureMesh(read.mesh)
    return { facts: measured, yaml: renderMeasure(measured, basename(path)) }
  }
  const { message, why, fix } = read.problem
  const advice = [why, fix].filter((line) => line !== undefined).map((line) => `\n  ${line}`)
  return { problem: [message, ...advice].join("") }
}
