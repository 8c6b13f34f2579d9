import { readFileSync } from "node:fs"
import { describe, expect, test } from "vitest"
import { repairOrder } from "../../src/sequence/index.ts"
import type { MovedSteps, Plan, Repair } from "../../src/sequence/plan-types.ts"
import { judgeOrderRow, readOrderRows } from "../golden/order-rows.ts"
import { precedencePlan } from "./order-plans.ts"
import { countLifts, isOrderValid, planOfOperators, type SmallOperator } from "./plans.ts"

/** Arcs of assembly line balancing: Scholl, A. (1993), Data of Assembly Line Balancing Problems, TH Darmstadt 16/93. */
const mertens = arcs("1-2 1-4 2-3 2-5 4-7 5-6")
const bowman = arcs("1-2 2-3 2-4 3-5 3-6 4-6 5-7 6-8")

function arcs(text: string): readonly (readonly [number, number])[] {
  return text.split(" ").map((arc): readonly [number, number] => {
    const [one = 0, other = 0] = arc.split("-").map(Number)
    return [one, other]
  })
}

/** Tasks of a present order told as "7 6 5"; the same for lists of indexes of the plan. */
function planOf(order: string, graph: readonly (readonly [number, number])[]): Plan {
  const tasks = order.split(" ").map(Number)
  return precedencePlan(tasks.length, graph, tasks)
}

function names(plan: Plan, steps: readonly number[]): string {
  return steps.map((step) => plan.steps[step]?.id.slice(1) ?? "").join(" ")
}

function moved(repair: Repair): MovedSteps {
  if (repair.kind !== "moved") throw new Error(`it is ${JSON.stringify(repair)}`)
  return repair
}

// Every row: fewest moves by trying all orders; the chains are one proof, checked below for what they say.
describe("published graphs in a faulty order", () => {
  test.each([
    ["mertens", mertens, "7 6 5 4 3 2 1", 4],
    ["mertens", mertens, "2 3 5 6 1 4 7", 1],
    ["mertens", mertens, "1 4 7 2 6 3 5", 1],
    ["mertens", mertens, "5 2 7 1 3 6 4", 3],
    ["bowman", bowman, "8 7 6 5 4 3 2 1", 6],
    ["bowman", bowman, "1 2 5 6 3 4 7 8", 2],
    ["bowman", bowman, "2 3 4 5 6 7 8 1", 1],
    ["one before five", arcs("6-1 6-2 6-3 6-4 6-5"), "1 2 3 4 5 6", 1],
    ["three before three", arcs("1-4 1-5 1-6 2-4 2-5 2-6 3-4 3-5 3-6"), "4 5 6 1 2 3", 3],
  ])("%s %#: %s moves", (_, graph, order, moves) => {
    const plan = planOf(order, graph)
    const repair = moved(repairOrder(plan))
    expect(repair).toMatchObject({ isProved: true, atLeast: moves, isLeastFar: true })
    expect(repair.moves).toHaveLength(moves)
    expect(isOrderValid(plan, repair.order)).toBe(true)
    expect(countLifts(repair.order)).toBe(moves)
    expect(repair.chains.reduce((sum, { steps }) => sum + steps.length - 1, 0)).toBe(moves)
  })

  test("mertens: step 6 goes to the end", () => {
    const plan = planOf("1 4 7 2 6 3 5", mertens)
    const { order, moves, chains } = moved(repairOrder(plan))
    expect(names(plan, order)).toBe("1 4 7 2 3 5 6")
    expect(moves.map(({ step, after }) => names(plan, [step, after ?? -1]))).toEqual(["6 5"])
    expect(chains.map(({ steps }) => names(plan, steps))).toEqual(["6 5"])
    expect(chains[0]?.reasons).toEqual(["Step `s6` comes after step `s5`: arc 5 to 6."])
  })

  test("mertens backwards: every link of a chain has its reason, which names both its steps", () => {
    const plan = planOf("7 6 5 4 3 2 1", mertens)
    const { chains } = moved(repairOrder(plan))
    expect(chains.length).toBeGreaterThan(1)
    for (const { steps, reasons } of chains) {
      expect(reasons).toHaveLength(steps.length - 1)
      reasons.forEach((reason, index) => {
        expect(reason).toContain(`\`s${names(plan, steps.slice(index, index + 1))}\``)
        expect(reason).toContain(`\`s${names(plan, steps.slice(index + 1, index + 2))}\``)
      })
    }
  })

  // Kendall distance 3, one of the published examples of distances of orders; as lifts it is 2.
  test("0 3 2 1 4 is two lifts from 0 1 2 3 4", () => {
    expect(countLifts([0, 3, 2, 1, 4])).toBe(2)
    const chain = arcs("1-2 2-3 3-4 4-5")
    expect(moved(repairOrder(planOf("1 4 3 2 5", chain))).moves).toHaveLength(2)
  })
})

describe("files of orders, each row solved by trying all orders", () => {
  test.each(["precedence-repair.json", "state-repair.json"])("%s", (file) => {
    const rows = readOrderRows(readFileSync(new URL(`../reference/sequence/${file}`, import.meta.url), "utf8"))
    if ("problem" in rows) throw new Error(rows.problem)
    expect(rows).toHaveLength(200)
    expect(rows.flatMap((row, index) => judgeOrderRow(row).map((wrong) => `row ${index + 1}: ${wrong}`))).toEqual([])
  })

  test("a row that is not so is told", () => {
    const row = { n: 3, arcs: [[0, 1]], order: [1, 0, 2], minMoves: 0, optimalOrders: 1, validOrders: 4 }
    const rows = readOrderRows(JSON.stringify([row]))
    expect("problem" in rows ? rows : rows.map(judgeOrderRow)).toEqual([
      ["moves 1, the row has 0", "other answers: some, the row has 1 in all", "valid orders exact 3, the row has 4"],
    ])
  })

  test.each([
    ["x", "it is not JSON"],
    ["{}", "it is not a list of rows"],
    ["[]", "it is not a list of rows"],
    ["[1]", "row 1 is not an object"],
    ['[{"n":3}]', "row 1 has neither `arcs` nor `steps`"],
    ['[{"n":1,"arcs":[],"order":[0],"minMoves":0}]', "row 1 lacks `validOrders`"],
    [
      '[{"n":2,"arcs":[],"order":[0,0],"minMoves":0,"validOrders":2}]',
      "row 1 has an `order` that is not each of 0 to 1 once",
    ],
    [
      '[{"n":1,"arcs":[[0,4]],"order":[0],"minMoves":0,"validOrders":1}]',
      "row 1 has an arc to a task that is not one of 0 to 0",
    ],
    ['[{"init":3,"goal":[],"steps":[],"minMoves":0,"validOrders":1}]', "row 1 has a `init` of another kind"],
  ])("%s: %s", (text, problem) => expect(readOrderRows(text)).toEqual({ problem }))
})

/** A step as `id: needs / gives / takes`. */
function operator(text: string): SmallOperator {
  const [id = "", facts = ""] = text.split(": ")
  const [pre = [], add = [], del = []] = facts.split("/").map((part) => part.split(" ").filter((fact) => fact !== ""))
  return { id: id.replace("*", ""), pre, add, del, isPinned: id.endsWith("*") }
}

function stateful(initial: string, goal: string, ...steps: readonly string[]): Plan {
  const list = (text: string): readonly string[] => text.split(" ").filter((fact) => fact !== "")
  return planOfOperators(list(initial), list(goal), steps.map(operator))
}

describe("facts that come and go", () => {
  test("work on a live part moves between off and on", () => {
    const plan = stateful(
      "live",
      "live",
      "work: off / done",
      "switch-off: live / off / live",
      "switch-on: off / live / off",
    )
    const repair = moved(repairOrder(plan))
    expect(repair.order).toEqual([1, 0, 2])
    expect(repair).toMatchObject({ isProved: true, others: "none", isLeastFar: true })
  })

  test("the nearest of several answers is taken, and said to be one of several", () => {
    // The step that needs `a` may go anywhere behind its giver.
    const plan = stateful("", "", "user: a", "one:", "giver: / a", "two:", "three:", "four:")
    const repair = moved(repairOrder(plan))
    expect(repair).toMatchObject({ others: "some", isLeastFar: true, atLeast: 1 })
    // Giver to the front or user behind it: both move three steps by four places in all.
    const farness = repair.order.reduce((sum, step, place) => sum + Math.abs(step - place), 0)
    expect(farness).toBe(4)
  })

  test("a pinned step stays although moving it alone would do", () => {
    const free = stateful("", "", "a: x", "b: x", "c: x", "giver: / x")
    expect(moved(repairOrder(free)).moves).toEqual([{ step: 3, after: undefined }])
    const pinned = stateful("", "", "a: x", "b: x", "c: x", "giver*: / x")
    const repair = moved(repairOrder(pinned))
    expect(repair.moves.map(({ step }) => step)).toEqual([0, 1, 2])
    expect(repair.chains.map(({ steps }) => steps)).toEqual([
      [0, 3],
      [1, 3],
      [2, 3],
    ])
  })

  test("two pinned steps in the wrong order contradict each other", () => {
    const plan = stateful("", "", "user*: x", "other:", "giver*: / x")
    expect(repairOrder(plan)).toMatchObject({
      kind: "impossible",
      isMinimal: true,
      core: [
        { kind: "need", step: 0 },
        { kind: "pinned", step: 0 },
        { kind: "pinned", step: 2 },
      ],
    })
  })

  test("a need that nobody gives, or a goal ended by all orders, is the whole contradiction", () => {
    expect(repairOrder(stateful("", "", "a: x", "b: / y"))).toMatchObject({
      core: [{ kind: "need", step: 0, need: { fact: "x" } }],
    })
    expect(repairOrder(stateful("x y", "y x", "a: x / / x", "b: y"))).toMatchObject({
      core: [{ kind: "goal", need: { fact: "x" } }],
    })
  })

  test("an empty plan, and one of a single step, are valid or not", () => {
    expect(repairOrder(stateful("", ""))).toEqual({ kind: "valid" })
    expect(repairOrder(stateful("", "", "a: / x"))).toEqual({ kind: "valid" })
    expect(repairOrder(stateful("", "x", "a: "))).toMatchObject({ kind: "impossible", isMinimal: true })
  })
})

describe("the limit of the search", () => {
  const plan = stateful(
    "live",
    "live",
    "work-1: off",
    "work-2: off",
    "on-1: off / live / off",
    "off-1: live / off / live",
    "on-2: off / live / off",
    "test: live",
    "off-2: live / off / live",
  )

  test("without a limit the fewest moves are proved", () => {
    const repair = moved(repairOrder(plan))
    expect(repair.isProved).toBe(true)
    expect(isOrderValid(plan, repair.order)).toBe(true)
  })

  test("with one it is told what was proved", () => {
    const limits = [1, 2, 3, 4, 6, 8, 12, 20].map((nodeLimit) => repairOrder(plan, { nodeLimit }))
    const best = moved(repairOrder(plan)).moves.length
    for (const repair of limits) {
      if (repair.kind !== "moved" && repair.kind !== "not-found") throw new Error(`it is ${repair.kind}`)
      expect(repair.atLeast).toBeLessThanOrEqual(best)
      if (repair.kind === "not-found") continue
      expect(isOrderValid(plan, repair.order)).toBe(true)
      expect(countLifts(repair.order)).toBe(repair.moves.length)
      expect(repair.moves.length).toBeGreaterThanOrEqual(best)
      if (repair.isProved) expect(repair.moves).toHaveLength(best)
    }
    expect(limits[0]?.kind).toBe("not-found")
    expect(limits.some((repair) => repair.kind === "moved")).toBe(true)
  })

  test("without comparing it says so", () => {
    const repair = moved(repairOrder(plan, { compareLimit: 0 }))
    expect(repair.isLeastFar).toBe(false)
    expect(repair.others).not.toBe("none")
  })
})
