/** The fewest moves under plain precedence by HiGHS, an integer programming solver: shares no code with ours. */
import highsModule from "highs"
import type { Plan } from "../../src/sequence/plan-types.ts"

/** The types describe the CommonJS build; the module that Node loads exports the loader itself. */
const loadHighs = highsModule as unknown as typeof highsModule.default

/** Loads the solver; gives the fewest steps to lift so that of each pair in the wrong order one is lifted. */
export async function loadLiftSolver(): Promise<(plan: Plan) => number> {
  const highs = await loadHighs()
  return (plan) => {
    const pairs = wrongPairs(plan)
    if (pairs.length === 0) return 0
    const names = [...new Set(pairs.flat())].map((step) => `x${step}`)
    const rows = pairs.map(([one, other], index) => ` c${index}: x${one} + x${other} >= 1`)
    const head = ["Minimize", ` lifts: ${names.join(" + ")}`, "Subject To"]
    const { Status, ObjectiveValue } = highs.solve(
      [...head, ...rows, "Binary", ` ${names.join(" ")}`, "End"].join("\n"),
    )
    if (Status !== "Optimal") throw new Error(`HiGHS says ${Status}`)
    return Math.round(ObjectiveValue)
  }
}

/** Pairs of steps that stand in the wrong order, by depth-first search from each step. Looks at declared orders only. */
function wrongPairs({ steps, declared }: Plan): readonly (readonly [number, number])[] {
  const next: number[][] = steps.map(() => [])
  for (const { before, after } of declared) next[before]?.push(after)
  return steps.flatMap((_, start) => {
    const reached = new Set<number>()
    const open = [start]
    for (let step = open.pop(); step !== undefined; step = open.pop())
      for (const after of next[step] ?? [])
        if (!reached.has(after)) {
          reached.add(after)
          open.push(after)
        }
    return [...reached].filter((later) => later < start).map((later): readonly [number, number] => [later, start])
  })
}
