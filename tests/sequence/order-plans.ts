/** Small plans for tests of the order: random ones, and plain simulation told apart from the code under test. */
import fc from "fast-check"
import type { DeclaredOrder, Plan, PlanStep } from "../../src/sequence/plan-types.ts"

/** Longer runs in the full test. */
export const isFullRun = process.env.KITLEAF_ALL === "1"

/** A step with what it needs, gives and takes; facts are written in one string, apart by blanks. */
export function planStep(id: string, needs: string, gives: string, takes: string): PlanStep {
  const list = (text: string): readonly string[] => (text === "" ? [] : text.split(" "))
  return {
    id,
    needs: list(needs).map((fact) => ({ fact, why: `the test says so of ${fact}`, act: "acts" })),
    gives: list(gives),
    takes: list(takes),
    isPinned: false,
  }
}

/** A plan of steps without facts, tied by declared orders; `order` tells which step stands where. */
export function precedencePlan(
  count: number,
  arcs: readonly (readonly [number, number])[],
  order: readonly number[] = Array.from({ length: count }, (_, index) => index),
): Plan {
  const place = new Map(order.map((step, index) => [step, index]))
  return {
    initial: [],
    goals: [],
    steps: order.map((step) => planStep(`s${step}`, "", "", "")),
    declared: arcs.map(([from, to]): DeclaredOrder => {
      return { before: place.get(from) ?? 0, after: place.get(to) ?? 0, why: `arc ${from} to ${to}` }
    }),
  }
}

/** Random plans over few facts, so that facts come and go several times; the present order is often faulty. */
export function anyPlan(mostSteps: number): fc.Arbitrary<Plan> {
  const facts = fc.subarray(["a", "b", "c", "d"], { maxLength: 2 })
  const step = fc.record({ needs: facts, gives: facts, takes: facts })
  return fc
    .record({
      initial: fc.subarray(["a", "b", "c", "d"]),
      goals: facts,
      steps: fc.array(step, { minLength: 1, maxLength: mostSteps }),
      pairs: fc.array(fc.tuple(fc.nat(mostSteps - 1), fc.nat(mostSteps - 1)), { maxLength: 2 }),
    })
    .map(({ initial, goals, steps, pairs }) => ({
      initial,
      goals: goals.map((fact) => ({ fact, why: `the goal says so of ${fact}` })),
      steps: steps.map(({ needs, gives, takes }, index) =>
        planStep(`s${index}`, needs.join(" "), gives.join(" "), takes.join(" ")),
      ),
      declared: pairs
        .filter(([one, other]) => one < other && other < steps.length)
        .map(([before, after]) => ({ before, after, why: "the test declares it" })),
    }))
}

/** A random graph without circles, as arcs from lower to higher numbers. */
export function anyArcs(mostNodes: number): fc.Arbitrary<{ count: number; arcs: (readonly [number, number])[] }> {
  return fc.integer({ min: 1, max: mostNodes }).chain((count) =>
    fc.record({
      count: fc.constant(count),
      arcs: fc
        .array(fc.tuple(fc.nat(count - 1), fc.nat(count - 1)), { maxLength: 2 * count })
        .map((pairs) => pairs.filter(([one, other]) => one < other)),
    }),
  )
}

/** All orders of the numbers 0 to count - 1. */
export function permutations(count: number): readonly (readonly number[])[] {
  if (count === 0) return [[]]
  return permutations(count - 1).flatMap((order) =>
    Array.from({ length: count }, (_, place) => [...order.slice(0, place), count - 1, ...order.slice(place)]),
  )
}

/** What an order breaks: `3 a` for a need of step 3, `end a` for a goal, `1 < 2` for a declared order. */
export function brokenBy({ initial, goals, steps, declared }: Plan, order: readonly number[]): readonly string[] {
  let holds = new Set(initial)
  const broken: string[] = []
  for (const step of order) {
    const { needs, gives, takes } = steps[step] ?? planStep("", "", "", "")
    broken.push(...needs.filter(({ fact }) => !holds.has(fact)).map(({ fact }) => `${step} ${fact}`))
    holds = new Set([...[...holds].filter((fact) => !takes.includes(fact)), ...gives])
  }
  broken.push(...goals.filter(({ fact }) => !holds.has(fact)).map(({ fact }) => `end ${fact}`))
  for (const { before, after } of declared)
    if (order.indexOf(before) > order.indexOf(after)) broken.push(`${before} < ${after}`)
  return broken
}

/** The present order. */
export function presentOrder({ steps }: Plan): readonly number[] {
  return steps.map((_, index) => index)
}
