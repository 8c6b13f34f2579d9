import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { expect, test } from "vitest"
import { writeOrderGraphs } from "../../src/build/order-graphs.ts"
import type { OrderOfVariants, OrderResult } from "../../src/build/order-types.ts"
import { explainOrder } from "../../src/sequence/index.ts"
import type { Plan } from "../../src/sequence/plan-types.ts"
import { makeTempFolder } from "./temp-folder.ts"

/** Two steps, the second declared to come after the first. */
const plan: Plan = {
  initial: [],
  goals: [],
  steps: ["plate", "hood"].map((id) => ({ id, needs: [], gives: [], takes: [], isPinned: false })),
  declared: [{ before: 0, after: 1, why: "it lies below" }],
}

function orderOf(...variants: readonly string[]): OrderOfVariants {
  const steps = plan.steps.map(({ id }, index) => ({ number: index + 1, id, title: `Fit the ${id}` }))
  return { variants, steps, plan, report: explainOrder(plan) }
}

function result(...orders: readonly OrderOfVariants[]): OrderResult {
  const variants = orders.flatMap((order) => order.variants)
  return { kit: "arm", folder: "arm", variants, orders, findings: [], isFaulty: false, otherErrorCount: 0, files: [] }
}

test("a graph is written over its own file, and over no other", () => {
  const folder = makeTempFolder()
  const [svg, dot] = [join(folder, "order.svg"), join(folder, "order.dot")]
  for (const _ of [1, 2]) {
    expect(writeOrderGraphs(result(orderOf("base")), { svg, dot })).toEqual({ files: [svg, dot] })
    expect(readFileSync(svg, "utf8")).toMatch(/Fit the hood[\s\S]*<\/svg>\n<!-- written by kitleaf order -->\n$/)
    expect(readFileSync(dot, "utf8")).toMatch(/s1 -> s2 [\s\S]*\n\/\/ written by kitleaf order\n$/)
  }
  const mine = join(folder, "mine.svg")
  writeFileSync(mine, "<svg/>")
  expect(writeOrderGraphs(result(orderOf("base")), { svg: mine })).toEqual({
    problem: `\`${mine}\` is there already and was not written by kitleaf; name another file.`,
  })
  expect(readFileSync(mine, "utf8")).toBe("<svg/>")
  mkdirSync(join(folder, "inner"))
  expect(writeOrderGraphs(result(orderOf("base")), { svg: join(folder, "inner") })).toHaveProperty("problem")
})

test("graphs that differ between variants are not mixed, and nothing is written of a faulty order", () => {
  const dot = join(makeTempFolder(), "order.dot")
  expect(writeOrderGraphs(result(orderOf("round-32"), orderOf("square-40")), { dot })).toEqual({
    problem: "The graphs of `round-32` and `square-40` differ; name one with `--variant`.",
  })
  expect(writeOrderGraphs(result(), { dot })).toEqual({ files: [] })
  expect(existsSync(dot)).toBe(false)
})
