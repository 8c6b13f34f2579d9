/**
 * Precedence graphs of assembly lines from a folder, as kits and as plans. The files are `NAME_prec.csv` with the columns
 * `task,predecessor`; they are kept outside of the project. Two tables beside them are used when they are there:
 * `LINEAR_EXTENSIONS.csv` with the numbers of valid orders, `STRUCTURE.csv` with widths and moves of the reversed order.
 */
import { existsSync, readdirSync, readFileSync } from "node:fs"
import { join } from "node:path"
import { explainOrder, repairOrder } from "../../src/sequence/index.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { precedencePlan } from "../sequence/order-plans.ts"
import { countLifts, isOrderValid, orderOfRepair } from "../sequence/plans.ts"
import { checkGraph, type Graph, orderTasks } from "../sequence/precedence-kits.ts"

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

/** A table by the names in its first column; empty when there is no such file. */
function readTable(path: string): ReadonlyMap<string, Readonly<Record<string, string>>> {
  if (!existsSync(path)) return new Map()
  const [head = "", ...lines] = readFileSync(path, "utf8").trim().split(/\r?\n/)
  const keys = head.split(",")
  return new Map(
    lines.map((line) => {
      const cells = line.split(",")
      return [cells[0] ?? "", Object.fromEntries(keys.map((key, index) => [key, cells[index] ?? ""]))]
    }),
  )
}

/** What the tables say about one graph; undefined where they say nothing, or only that a count is beyond a limit. */
type Known = {
  readonly validOrders: string | undefined
  readonly width: string | undefined
  readonly moves: string | undefined
}

/**
 * Checks the graph as a plan: number of valid orders and width as known, and the reversed order needs as many moves as there
 * are tasks less the width (Dilworth 1950), with an order that is valid and that many lifts away.
 */
function checkPlan({ count, arcs }: Graph, known: Known): { readonly run: number; readonly wrong: readonly string[] } {
  const order = orderTasks({ count, arcs })
  if (order === undefined) return { run: 0, wrong: [] }
  const wrong: string[] = []
  let run = 0
  const compare = (what: string, ours: string, theirs: string | undefined): void => {
    if (theirs === undefined) return
    run += 1
    if (ours !== theirs) wrong.push(`${what}: ${ours}, known is ${theirs}`)
  }
  const { validOrders, width } = explainOrder(precedencePlan(order.length, arcs, order))
  compare("valid orders", validOrders.kind === "exact" ? validOrders.count : "beyond the limit", known.validOrders)
  compare("width", String(width), known.width)
  const reversed = precedencePlan(count, arcs, [...order].reverse())
  const repair = repairOrder(reversed)
  const moves = repair.kind === "moved" && repair.isProved ? repair.moves.length : 0
  compare("moves of the reversed order", String(moves), String(count - width))
  compare("moves of the reversed order", String(moves), known.moves)
  const repaired = orderOfRepair(reversed, repair) ?? []
  compare("repaired order", `${isOrderValid(reversed, repaired)} ${countLifts(repaired)}`, `true ${moves}`)
  return { run, wrong }
}

/** Runs every graph of the folder and prints one line for each; true when nothing differs and there was a graph. */
export async function checkScholl(folder: string): Promise<boolean> {
  const kernel = await loadKernel()
  const files = readdirSync(folder)
    .filter((file) => file.endsWith("_prec.csv"))
    .sort()
  const counts = readTable(join(folder, "LINEAR_EXTENSIONS.csv"))
  const structures = readTable(join(folder, "STRUCTURE.csv"))
  let passed = 0
  let failed = 0
  for (const file of files) {
    const graph = readGraph(readFileSync(join(folder, file), "utf8"))
    const name = file.replace("_prec.csv", "")
    const validOrders = counts.get(name)?.linear_extensions
    const kits = checkGraph(graph, kernel)
    const plans = checkPlan(graph, {
      validOrders: validOrders?.startsWith(">") === true ? undefined : validOrders,
      width: structures.get(name)?.width,
      moves: structures.get(name)?.min_moves_of_reversed_canonical_order,
    })
    const run = kits.run + plans.run
    const wrong = [...kits.wrong, ...plans.wrong]
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
