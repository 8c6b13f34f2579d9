/** How long the order proof and what is told about an order take, for kits that no test uses. */
import { DirectedGraph } from "graphology"
import { topologicalSort } from "graphology-dag"
import { runChecks } from "../../src/checks/registry.ts"
import type { Kit } from "../../src/kit/types.ts"
import { buildPlan, explainOrder, proveSequence } from "../../src/sequence/index.ts"
import { buildDigraph, sortTopologically } from "../../src/sequence/order/digraph.ts"
import { makeLargeKit } from "../sequence/large-kit.ts"
import { precedencePlan } from "../sequence/order-plans.ts"
import { randomNumbers } from "../sequence/random.ts"
import { emptyFit, smallKit } from "../sequence/small-kit.ts"
import { type Timing, timeMiddle } from "./measure.ts"

/** A timing and the one that its ratio is told to. */
export type Compared = { readonly timing: Timing; readonly base: Timing | undefined }

const nodeCount = 100_000
const arcCount = 500_000
const chainSteps = 30_000

/** Times in order: proof and rules of kits of 60 and 10,000 steps, a chain of 30,000, and sorting a large graph by us and by graphology. */
export async function benchOrder(): Promise<readonly Compared[]> {
  return [...(await benchKits()), ...(await benchChain()), ...(await benchSorting())]
}

async function benchKits(): Promise<readonly Compared[]> {
  const [small, large] = [60, 10_000].map((count) => smallKit(makeLargeKit(count)))
  if (small === undefined || large === undefined) throw new Error("there is no kit to measure")
  const [few, many] = [small, large].map(({ steps }) => steps.length)
  const proof = await timeMiddle(`order proof, ${few} steps`, 11, () => proveSequence(small, emptyFit))
  const perStep = ((many ?? 0) / (few ?? 1)).toFixed(0)
  const note = `${perStep} x the steps`
  const largeProof = await timeMiddle(`order proof, ${many} steps`, 1, () => proveSequence(large, emptyFit), note)
  const check = await timeMiddle(`order proof and rules, ${few} steps`, 11, () => checkKit(small))
  const largeCheck = await timeMiddle(`order proof and rules, ${many} steps`, 1, () => checkKit(large), note)
  const reversed = { ...large, steps: large.steps.toReversed() }
  const reversedCheck = await timeMiddle(`the same in reversed order`, 1, () => checkKit(reversed))
  const [plan, largePlan] = [small, large].map((kit) => buildPlan(kit, proveSequence(kit, emptyFit)))
  if (plan === undefined || largePlan === undefined) throw new Error("there is no plan to measure")
  const explanation = await timeMiddle(`order explained, ${few} steps`, 5, () => explainOrder(plan))
  const largeExplanation = await timeMiddle(`order explained, ${many} steps`, 1, () => explainOrder(largePlan), note)
  return [
    { timing: proof, base: undefined },
    { timing: largeProof, base: proof },
    { timing: check, base: proof },
    { timing: largeCheck, base: check },
    { timing: reversedCheck, base: largeCheck },
    { timing: explanation, base: proof },
    { timing: largeExplanation, base: explanation },
  ]
}

/** What checking a kit takes once its sizes are known. */
function checkKit(kit: Kit): unknown {
  return runChecks({ kit, fit: emptyFit, sequence: proveSequence(kit, emptyFit) })
}

async function benchChain(): Promise<readonly Compared[]> {
  const arcs = Array.from({ length: chainSteps - 1 }, (_, index): readonly [number, number] => [index, index + 1])
  const plan = precedencePlan(chainSteps, arcs)
  return [
    {
      timing: await timeMiddle(`chain of ${chainSteps} steps explained`, 1, () => explainOrder(plan)),
      base: undefined,
    },
  ]
}

/** The same random graph without circles for both; graphology is given its graph ready made. */
async function benchSorting(): Promise<readonly Compared[]> {
  const next = randomNumbers(7)
  const from = new Int32Array(arcCount)
  const to = new Int32Array(arcCount)
  const arcs = new Set<number>()
  while (arcs.size < arcCount) {
    const [one, other] = [Math.floor(next() * nodeCount), Math.floor(next() * nodeCount)]
    if (one !== other) arcs.add(Math.min(one, other) * nodeCount + Math.max(one, other))
  }
  for (const [index, arc] of [...arcs].entries()) {
    from[index] = Math.floor(arc / nodeCount)
    to[index] = arc % nodeCount
  }
  const graph = new DirectedGraph()
  for (let node = 0; node < nodeCount; node += 1) graph.addNode(node)
  for (const [index, node] of from.entries()) graph.addDirectedEdge(node, to[index])
  const built = buildDigraph(nodeCount, from, to)
  const ours = await timeMiddle("100,000 nodes, 500,000 links sorted", 5, () => sortTopologically(built))
  const building = await timeMiddle("the same built from its links and sorted", 5, () =>
    sortTopologically(buildDigraph(nodeCount, from, to)),
  )
  const theirs = await timeMiddle("the same sorted by graphology-dag", 3, () => topologicalSort(graph))
  return [
    { timing: ours, base: undefined },
    { timing: building, base: ours },
    { timing: theirs, base: ours },
  ]
}
