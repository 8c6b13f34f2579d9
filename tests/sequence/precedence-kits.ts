/** Precedence graphs as kits: tasks are steps, arcs are `needs-after`; everything goes through kit text. */
import { proveKit } from "../../src/build/prove.ts"
import type { Finding } from "../../src/findings/types.ts"
import type { Kernel } from "../../src/solids/types.ts"

/** Tasks 1 to `count`; an arc `[1, 2]` says that task 1 comes before task 2. */
export type Graph = { readonly count: number; readonly arcs: readonly (readonly [number, number])[] }

/** Writes a kit whose steps stand in `order`. Each arc has a line of its own, so that a finding can be told by its line. */
export function writeGraphKit({ arcs }: Graph, order: readonly number[]): string {
  const before = new Map<number, number[]>()
  for (const [one, other] of arcs) before.set(other, [...(before.get(other) ?? []), one])
  const steps = order.flatMap((task) => {
    const needs = before.get(task) ?? []
    return [
      `  task-${task}:`,
      "    do: [wait: 1 min]",
      ...(needs.length === 0
        ? []
        : ["    needs-after:", ...needs.map((one) => `      task-${one}: arc ${one} to ${task}`)]),
    ]
  })
  return [
    "kit: precedence",
    "title: A precedence graph",
    "invented: yes",
    "supplier: { name: Test bench, address: Nowhere 1, contact: bench@example.invalid }",
    "revision: { id: A, date: 2026-01-31, guide: https://example.invalid/precedence }",
    "intended-use: A kit for a test.",
    "fits: { tube: round, diameter: 31.5 to 32.5 }",
    "steps:",
    ...steps,
    "",
  ].join("\n")
}

/** Findings of a kit text that has no models. */
export function findingsOf(text: string, kernel: Kernel): readonly Finding[] {
  const readModel = () => ({ problem: { message: "this kit has no models" } })
  return proveKit([{ path: "kit.yaml", bytes: new TextEncoder().encode(text) }], { kernel, readModel }).findings
}

/** Gives an order that keeps every arc, always the smallest task that may come next; undefined when arcs are circular. */
export function orderTasks({ count, arcs }: Graph): readonly number[] | undefined {
  const waits = new Map<number, number>()
  const after = new Map<number, number[]>()
  for (const [one, other] of arcs) {
    waits.set(other, (waits.get(other) ?? 0) + 1)
    after.set(one, [...(after.get(one) ?? []), other])
  }
  const order: number[] = []
  const ready = Array.from({ length: count }, (_, index) => index + 1).filter((task) => (waits.get(task) ?? 0) === 0)
  for (let task = ready.shift(); task !== undefined; task = ready.shift()) {
    order.push(task)
    for (const next of after.get(task) ?? []) {
      const left = (waits.get(next) ?? 0) - 1
      waits.set(next, left)
      if (left === 0) ready.push(next)
    }
    ready.sort((one, other) => one - other)
  }
  return order.length === count ? order : undefined
}

/** Gives an order that breaks this arc and no other; undefined when another way through the graph says the same. */
function orderBreaking({ count, arcs }: Graph, arc: readonly [number, number]): readonly number[] | undefined {
  const [one, other] = arc
  const rest = arcs.filter(([from, to]) => from !== one || to !== other)
  return orderTasks({ count, arcs: [...rest, [other, one]] })
}

/**
 * Runs one graph: a valid order must be silent, and for every arc an order that breaks only it must give exactly one
 * error, which names both steps at the line of the arc. Gives what went wrong, and how many orders were run.
 */
export function checkGraph(graph: Graph, kernel: Kernel): { readonly run: number; readonly wrong: readonly string[] } {
  const wrong: string[] = []
  let run = 0
  const valid = orderTasks(graph)
  if (valid === undefined) return { run: 1, wrong: ["the graph has a circle"] }
  run += 1
  const silent = findingsOf(writeGraphKit(graph, valid), kernel)
  if (silent.length > 0) wrong.push(`valid order: ${silent.map(({ message }) => message).join("; ")}`)
  for (const arc of graph.arcs) {
    const order = orderBreaking(graph, arc)
    if (order === undefined) continue
    run += 1
    const text = writeGraphKit(graph, order)
    const problem = judgeBrokenArc(findingsOf(text, kernel), text, arc)
    if (problem !== undefined) wrong.push(`arc ${arc.join(" to ")}: ${problem}`)
  }
  return { run, wrong }
}

function judgeBrokenArc(
  findings: readonly Finding[],
  text: string,
  [one, other]: readonly [number, number],
): string | undefined {
  const [found, ...more] = findings
  if (found === undefined) return "no finding"
  if (more.length > 0) return `${findings.length} findings: ${findings.map(({ message }) => message).join("; ")}`
  const line = text.split("\n").indexOf(`      task-${one}: arc ${one} to ${other}`) + 1
  if (found.id !== "declared-order-broken" || found.severity !== "error") return `it is ${found.severity} ${found.id}`
  if (found.where.line !== line) return `it stands at line ${found.where.line}, not ${line}`
  for (const task of [one, other]) if (!found.message.includes(`\`task-${task}\``)) return `task ${task} is not named`
  if (!found.why?.includes(`arc ${one} to ${other}`)) return "the reason of the arc is not told"
  return undefined
}
