/** Fewest moves by solvers that share no code with ours: HiGHS for plain precedence, clingo where facts come and go. */
import { run } from "clingo-wasm"
import { describe, expect, test } from "vitest"
import { repairOrder } from "../../src/sequence/index.ts"
import type { Plan, PlanStep } from "../../src/sequence/plan-types.ts"
import { loadLiftSolver } from "./lifts-by-highs.ts"
import { isFullRun, planStep, precedencePlan } from "./order-plans.ts"
import { countLifts, isOrderValid, orderOfRepair } from "./plans.ts"
import { randomNumbers } from "./random.ts"

const liftsByHighs = await loadLiftSolver()

function shuffled(count: number, next: () => number): readonly number[] {
  const list = Array.from({ length: count }, (_, index) => index)
  for (let index = count - 1; index > 0; index -= 1) {
    const other = Math.floor(next() * (index + 1))
    const [one = 0, two = 0] = [list[index], list[other]]
    list[index] = two
    list[other] = one
  }
  return list
}

/** A random graph whose arcs go from lower to higher numbers, in a random present order. */
function randomPrecedence(seed: number, count: number): Plan {
  const next = randomNumbers(seed)
  const arcs = Array.from({ length: Math.floor(count * (0.8 + 1.4 * next())) }, (): readonly [number, number] => {
    const [one, other] = [Math.floor(next() * count), Math.floor(next() * count)]
    return [Math.min(one, other), Math.max(one, other)]
  }).filter(([one, other]) => one !== other)
  return precedencePlan(count, arcs, shuffled(count, next))
}

describe("plain precedence against HiGHS", () => {
  const sizes = [10, 20, 40, 60, 120, 300]
  const cases = sizes.flatMap((count) =>
    Array.from({ length: isFullRun ? 20 : count < 40 ? 3 : 1 }, (_, index) => ({ count, seed: count * 100 + index })),
  )
  test.each(cases)("$count steps, seed $seed", ({ count, seed }) => {
    const plan = randomPrecedence(seed, count)
    const repair = repairOrder(plan)
    const order = orderOfRepair(plan, repair)
    if (order === undefined) throw new Error(`it is ${repair.kind}`)
    expect(isOrderValid(plan, order)).toBe(true)
    expect(countLifts(order)).toBe(liftsByHighs(plan))
  })
})

/** Random operators over few facts; by chance no order is valid. */
function randomOperators(seed: number, count: number): Plan {
  const next = randomNumbers(seed)
  const facts = ["a", "b", "c", "d", "e"]
  const some = (chance: number): string => facts.filter(() => next() < chance).join(" ")
  const steps = Array.from({ length: count }, (_, index): PlanStep => {
    const step = planStep(`s${index}`, some(0.25), some(0.2), some(0.15))
    return { ...step, isPinned: next() < 0.1 }
  })
  const declared = next() < 0.5 ? [{ before: 0, after: count - 1, why: "declared" }] : []
  return { initial: some(0.5).split(" "), goals: steps[0]?.needs ?? [], steps, declared }
}

/** The plan as an answer-set program: a place for each step, facts by place, and steps that stay in their order. */
function writeProgram({ initial, goals, steps, declared }: Plan): string {
  const lines = [
    `place(1..${steps.length}). step(0..${steps.length - 1}).`,
    "1 { at(S, P) : place(P) } 1 :- step(S).",
    "1 { at(S, P) : step(S) } 1 :- place(P).",
    "holds(F, 0) :- initial(F).",
    "holds(F, P) :- at(S, P), gives(S, F).",
    "ends(F, P) :- at(S, P), takes(S, F), not gives(S, F).",
    "holds(F, P) :- holds(F, P - 1), place(P), not ends(F, P).",
    ":- at(S, P), needs(S, F), not holds(F, P - 1).",
    `:- goal(F), not holds(F, ${steps.length}).`,
    ":- declared(A, B), at(A, P), at(B, Q), P > Q.",
    "{ stays(S) } :- step(S).",
    ":- stays(A), stays(B), A < B, at(A, P), at(B, Q), P > Q.",
    ":- pinned(S), not stays(S).",
    "#minimize { 1, S : step(S), not stays(S) }.",
    "#defined initial/1. #defined goal/1. #defined needs/2. #defined gives/2. #defined takes/2.",
    "#defined declared/2. #defined pinned/1.",
    "#show.",
  ]
  for (const fact of initial) if (fact !== "") lines.push(`initial(${fact}).`)
  for (const { fact } of goals) lines.push(`goal(${fact}).`)
  for (const { before, after } of declared) lines.push(`declared(${before}, ${after}).`)
  for (const [index, { needs, gives, takes, isPinned }] of steps.entries()) {
    for (const { fact } of needs) lines.push(`needs(${index}, ${fact}).`)
    for (const fact of gives) lines.push(`gives(${index}, ${fact}).`)
    for (const fact of takes) lines.push(`takes(${index}, ${fact}).`)
    if (isPinned) lines.push(`pinned(${index}).`)
  }
  return lines.join("\n")
}

/** Fewest moves by clingo; null when no order is valid. */
async function movesByClingo(plan: Plan): Promise<number | null> {
  const result = await run(writeProgram(plan), 0)
  if (result.Result === "ERROR") throw new Error(result.Error)
  if (result.Result === "UNSATISFIABLE") return null
  const costs = result.Call[0]?.Witnesses.at(-1)?.Costs
  if (result.Result !== "OPTIMUM FOUND" || costs === undefined) throw new Error(`clingo says ${result.Result}`)
  return costs[0] ?? 0
}

describe("facts that come and go against clingo", () => {
  const cases = Array.from({ length: isFullRun ? 200 : 12 }, (_, index) => ({
    seed: index + 1,
    count: 6 + (index % 5),
  }))

  test.each(cases)("$count steps, seed $seed", async ({ seed, count }) => {
    const plan = randomOperators(seed, count)
    const repair = repairOrder(plan)
    const moves = repair.kind === "moved" ? repair.moves.length : repair.kind === "valid" ? 0 : null
    expect(moves).toBe(await movesByClingo(plan))
    if (repair.kind === "moved") {
      expect(repair.isProved).toBe(true)
      expect(isOrderValid(plan, repair.order)).toBe(true)
    } else expect(repair.kind).not.toBe("not-found")
  })

  test("some cases can be repaired and some cannot", () => {
    const kinds = new Set(cases.map(({ seed, count }) => repairOrder(randomOperators(seed, count)).kind))
    expect([...kinds].sort()).toEqual(expect.arrayContaining(["impossible", "moved"]))
  })
})
