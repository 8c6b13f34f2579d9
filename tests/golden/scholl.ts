/**
 * Precedence graphs of assembly lines from a folder, as kits. The files are `NAME_prec.csv` with the columns
 * `task,predecessor`; they are kept outside of the project.
 */
import { readdirSync, readFileSync } from "node:fs"
import { join } from "node:path"
import { loadKernel } from "../../src/solids/index.ts"
import { checkGraph, type Graph } from "../sequence/precedence-kits.ts"

/** Reads one graph; tasks without any arc are counted up to the highest number that occurs. */
function readGraph(csv: string): Graph {
  const arcs = csv
    .trim()
    .split(/\r?\n/)
    .slice(1)
    .map((line): readonly [number, number] => {
      const [task = Number.NaN, predecessor = Number.NaN] = line.split(",").map(Number)
      return [predecessor, task]
    })
  return { count: Math.max(...arcs.flat()), arcs }
}

/** Runs every graph of the folder and prints one line for each; true when nothing differs and there was a graph. */
export async function checkScholl(folder: string): Promise<boolean> {
  const kernel = await loadKernel()
  const files = readdirSync(folder)
    .filter((file) => file.endsWith("_prec.csv"))
    .sort()
  let passed = 0
  let failed = 0
  for (const file of files) {
    const graph = readGraph(readFileSync(join(folder, file), "utf8"))
    const { run, wrong } = checkGraph(graph, kernel)
    passed += run - wrong.length
    failed += wrong.length
    console.log(
      `${file}: ${graph.count} tasks, ${graph.arcs.length} arcs, ${run - wrong.length} passed, ${wrong.length} failed`,
    )
    for (const one of wrong) console.log(`  ${one}`)
  }
  console.log(`${passed} passed, ${failed} failed`)
  return files.length > 0 && failed === 0
}
