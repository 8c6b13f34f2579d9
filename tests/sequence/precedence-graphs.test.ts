import { describe, expect, test } from "vitest"
import { loadKernel } from "../../src/solids/index.ts"
import { checkGraph, findingsOf, type Graph, orderTasks, writeGraphKit } from "./precedence-kits.ts"
import { randomNumbers } from "./random.ts"

const kernel = await loadKernel()

/** Graphs of assembly line balancing: Scholl, A. (1993), Data of Assembly Line Balancing Problems, TH Darmstadt 16/93. */
const published: Readonly<Record<string, Graph>> = {
  mertens: {
    count: 7,
    arcs: [
      [1, 2],
      [1, 4],
      [2, 3],
      [2, 5],
      [4, 7],
      [5, 6],
    ],
  },
  bowman: {
    count: 8,
    arcs: [
      [1, 2],
      [2, 3],
      [2, 4],
      [3, 5],
      [3, 6],
      [4, 6],
      [5, 7],
      [6, 8],
    ],
  },
}

/** A random graph without circles: each pair of a random order is an arc with the given chance. */
function randomGraph(seed: number): Graph {
  const next = randomNumbers(seed)
  const count = 3 + Math.floor(next() * 12)
  const order = Array.from({ length: count }, (_, index) => index + 1)
  for (let index = count - 1; index > 0; index -= 1) {
    const other = Math.floor(next() * (index + 1))
    const [one = 0, two = 0] = [order[index], order[other]]
    order[index] = two
    order[other] = one
  }
  const chance = 0.1 + 0.4 * next()
  const arcs = order.flatMap((one, index) =>
    order
      .slice(index + 1)
      .flatMap((other): readonly (readonly [number, number])[] => (next() < chance ? [[one, other]] : [])),
  )
  return { count, arcs }
}

describe("published precedence graphs as kits", () => {
  test.each(Object.entries(published))("%s: silent when kept, one finding for each arc that is broken", (_, graph) => {
    expect(checkGraph(graph, kernel)).toEqual({ run: graph.arcs.length + 1, wrong: [] })
  })

  test("mertens backwards breaks every arc", () => {
    const graph = published.mertens ?? { count: 0, arcs: [] }
    const findings = findingsOf(writeGraphKit(graph, [7, 6, 5, 4, 3, 2, 1]), kernel)
    expect(findings.every(({ id }) => id === "declared-order-broken")).toBe(true)
    // Each broken arc is told: by a finding of its own or as a further reason of one.
    const told = findings.flatMap(({ message, why }) => `${message} ${why ?? ""}`).join(" ")
    for (const [one, other] of graph.arcs) expect(told).toContain(`arc ${one} to ${other}`)
  })

  test("an added arc that closes a circle is told as a circle", () => {
    const graph = { ...published.mertens, count: 7, arcs: [...(published.mertens?.arcs ?? []), [6, 1] as const] }
    const findings = findingsOf(writeGraphKit(graph, [1, 2, 4, 3, 5, 7, 6]), kernel)
    expect(findings.map(({ id, message }) => `${id}: ${message}`)).toEqual([
      "order-is-circular: steps `task-1`, `task-2`, `task-5` and `task-6` wait for each other",
    ])
  })
})

describe("50 random precedence graphs as kits", () => {
  test.each(Array.from({ length: 50 }, (_, index) => index + 1))("seed %i", (seed) => {
    const graph = randomGraph(seed)
    const { run, wrong } = checkGraph(graph, kernel)
    expect(orderTasks(graph)).toHaveLength(graph.count)
    expect({ seed, wrong }).toEqual({ seed, wrong: [] })
    expect(run).toBeGreaterThan(0)
  })
})
