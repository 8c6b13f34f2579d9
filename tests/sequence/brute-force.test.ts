import { describe, expect, test } from "vitest"
import type { Act } from "../../src/kit/types.ts"
import { findBroken } from "../../src/sequence/broken.ts"
import { proveSequence } from "../../src/sequence/index.ts"
import { linkActs } from "../../src/sequence/links.ts"
import { strongComponents } from "../../src/sequence/strong-components.ts"
import type { Action, Sequence } from "../../src/sequence/types.ts"
import { walkActions } from "../../src/sequence/walk.ts"
import { gauge } from "./gauge.ts"
import { randomNumbers } from "./random.ts"
import { emptyFit, type Small, smallKit } from "./small-kit.ts"

/** All orders of the numbers 0 to count - 1. */
function permutations(count: number): readonly (readonly number[])[] {
  if (count === 0) return [[]]
  return permutations(count - 1).flatMap((order) =>
    Array.from({ length: count }, (_, place) => [...order.slice(0, place), count - 1, ...order.slice(place)]),
  )
}

type Operator = {
  readonly needs: readonly string[]
  readonly gives: readonly string[]
  readonly takes: readonly string[]
}

/** Plain simulation, told apart from the code under test: true when every need is met and the goals hold at the end. */
function isValid(initial: readonly string[], goals: readonly string[], operators: readonly Operator[]): boolean {
  let holds = new Set(initial)
  for (const { needs, gives, takes } of operators) {
    if (needs.some((fact) => !holds.has(fact))) return false
    holds = new Set([...[...holds].filter((fact) => !takes.includes(fact)), ...gives])
  }
  return goals.every((fact) => holds.has(fact))
}

const wait: Omit<Act, "path"> = {
  verb: "wait",
  target: "",
  instances: [],
  through: undefined,
  to: undefined,
  count: undefined,
  minutes: undefined,
  words: undefined,
}

function asActions(operators: readonly Operator[]): readonly Action[] {
  return operators.map(({ needs, gives, takes }, index) => ({
    id: `s${index}/1`,
    step: `s${index}`,
    stepIndex: index,
    act: { ...wait, path: `steps/s${index}/do/0` },
    verb: "wait",
    needs: needs.map((fact) => ({ fact, why: "the test says so" })),
    gives,
    takes: takes.filter((fact) => !gives.includes(fact)),
  }))
}

/** Random operators over few facts, so that facts come and go several times. */
function randomOperators(seed: number, count: number): { readonly initial: string[]; readonly operators: Operator[] } {
  const next = randomNumbers(seed)
  const facts = ["a", "b", "c", "d"]
  const some = (chance: number): string[] => facts.filter(() => next() < chance)
  const operators = Array.from({ length: count }, () => {
    const gives = some(0.3)
    return { needs: some(0.25), gives, takes: some(0.25).filter((fact) => !gives.includes(fact)) }
  })
  return { initial: some(0.5), operators }
}

describe("links of acts against all orders of 6 random operators", () => {
  const orders = permutations(6)
  test("every order that keeps the links of a valid one is valid", () => {
    let systems = 0
    let kept = 0
    const wrong: string[] = []
    for (let seed = 1; seed <= 400; seed += 1) {
      const { initial, operators } = randomOperators(seed, 6)
      const order = orders.find((one) =>
        isValid(
          initial,
          [],
          one.flatMap((index) => operators[index] ?? []),
        ),
      )
      if (order === undefined) continue
      systems += 1
      const sorted = order.flatMap((index) => operators[index] ?? [])
      const actions = asActions(sorted)
      const walk = walkActions(initial, actions)
      expect({ seed, misses: walk.misses }).toEqual({ seed, misses: [] })
      const links = linkActs(actions, new Set(initial), walk, [])
      for (const other of orders) {
        if (!links.every(({ from, to }) => from === to || other.indexOf(from) < other.indexOf(to))) continue
        kept += 1
        const isKept = isValid(
          initial,
          [],
          other.flatMap((index) => sorted[index] ?? []),
        )
        if (!isKept) wrong.push(`seed ${seed}: ${other.join(" ")}`)
      }
    }
    expect(wrong).toEqual([])
    expect(systems).toBeGreaterThan(100)
    expect(kept).toBeGreaterThan(5000)
  })

  test("the walk finds an unmet need exactly where plain simulation does", () => {
    const wrong: string[] = []
    let faultyCount = 0
    for (let seed = 1; seed <= 60; seed += 1) {
      const { initial, operators } = randomOperators(seed, 6)
      for (const order of orders.slice(0, 200)) {
        const sorted = order.flatMap((index) => operators[index] ?? [])
        const walk = walkActions(initial, asActions(sorted))
        const isClean = walk.misses.length === 0
        const { broken, unmet } = findBroken(asActions(sorted), walk, [], new Set())
        const isTold = broken.length + unmet.length > 0
        if (isClean !== isValid(initial, [], sorted) || isTold === isClean)
          wrong.push(`seed ${seed}: ${order.join(" ")}`)
        if (!isClean) faultyCount += 1
      }
    }
    expect(wrong).toEqual([])
    expect(faultyCount).toBeGreaterThan(1000)
  })
})

describe("a kit of 7 steps in all 5040 orders", () => {
  const isAll = process.env.KITLEAF_ALL === "1"
  const steps = [
    { id: "off", acts: ["isolate: gauge"] },
    { id: "unscrew", acts: ["unscrew: gauge.foot", "set-aside: gauge.foot"] },
    { id: "plate", acts: ["place: plate", "start: foot", "tighten: foot"] },
    { id: "feed", acts: ["feed: lead.plug through hood-hole"] },
    { id: "connect", acts: ["connect: lead.plug to gauge.power"] },
    { id: "hood", acts: ["place: hood", "start: hood", "tighten: hood"] },
    { id: "on", acts: ["restore: gauge"] },
  ]
  const kit: Small = { ...gauge, parts: gauge.parts.slice(1), ties: [], pads: [], steps }
  const prove = (order: readonly number[]): Sequence =>
    proveSequence(smallKit({ ...kit, steps: order.flatMap((index) => steps[index] ?? []) }), emptyFit)
  const valid = prove([0, 1, 2, 3, 4, 5, 6])
  const idsOf = (order: readonly number[]): readonly string[] => order.map((index) => steps[index]?.id ?? "")
  const keepsLinks = (ids: readonly string[]): boolean =>
    valid.links.every(({ from, to }) => ids.indexOf(from) < ids.indexOf(to))
  /** `npm test` proves every order that keeps the links and each fourth of the others, `npm run test:all` all of them. */
  const orders = permutations(7).filter((order, index) => isAll || index % 4 === 0 || keepsLinks(idsOf(order)))

  test("silent exactly for the orders that plain simulation finds valid, which are those that keep the links", () => {
    const wrong: string[] = []
    let validCount = 0
    for (const order of orders) {
      const sequence = prove(order)
      const operators = sequence.actions.map(({ needs, gives, takes }) => ({
        needs: needs.map(({ fact }) => fact),
        gives,
        takes,
      }))
      const goals = sequence.goals.map(({ fact }) => fact)
      const isRight = isValid(sequence.initial, goals, operators)
      const ids = idsOf(order)
      const isSilent = sequence.faults.length === 0
      // The steps have a valid order, so they are never told to be circular.
      const isCircular = sequence.faults.some(({ kind }) => kind === "circle")
      if (isSilent !== isRight || keepsLinks(ids) !== isRight || isCircular) wrong.push(ids.join(" "))
      if (isRight) validCount += 1
    }
    expect(wrong).toEqual([])
    expect(validCount).toBe(countOrders())
    expect(orders.length).toBeGreaterThan(isAll ? 5039 : 1259)
  })

  /** Orders of off, unscrew, plate, feed, connect with off < unscrew < plate, off < connect, feed < connect; hood and on end. */
  function countOrders(): number {
    const names = ["off", "unscrew", "plate", "feed", "connect"]
    return permutations(5).filter((order) => {
      const at = (name: string): number => order.indexOf(names.indexOf(name))
      return (
        at("off") < at("unscrew") &&
        at("unscrew") < at("plate") &&
        at("off") < at("connect") &&
        at("feed") < at("connect")
      )
    }).length
  }
})

describe("circles of declared orders against all circles", () => {
  test("500 random graphs of up to 7 steps: one shortest circle for each knot, none without", () => {
    for (let seed = 1; seed <= 500; seed += 1) {
      const next = randomNumbers(seed)
      const count = 2 + Math.floor(next() * 6)
      const arcs = Array.from({ length: count }, (_, one) => one).flatMap((one) =>
        Array.from({ length: count }, (_, other) => other).flatMap((other): readonly (readonly [number, number])[] =>
          one !== other && next() < 1.4 / count ? [[one, other]] : [],
        ),
      )
      const small: Small = {
        steps: Array.from({ length: count }, (_, index) => ({
          id: `s${index}`,
          acts: ["wait: x"],
          after: arcs.flatMap(([one, other]) => (other === index ? [`s${one}`] : [])),
        })),
      }
      const { faults } = proveSequence(smallKit(small), emptyFit)
      const told = faults.flatMap((fault) => (fault.kind === "circle" ? [fault.links] : []))
      const shortest = shortestCircles(count, arcs)
      expect({ seed, lengths: told.map((links) => links.length).sort() }).toEqual({ seed, lengths: shortest })
      for (const links of told) {
        links.forEach(({ from, to }, index) => {
          expect(arcs.some(([one, other]) => `s${one}` === from && `s${other}` === to)).toBe(true)
          expect(links[(index + 1) % links.length]?.from).toBe(to)
        })
      }
    }
  })

  /** Length of the shortest circle in each strongly connected component, by distances between all pairs. */
  function shortestCircles(count: number, arcs: readonly (readonly [number, number])[]): readonly number[] {
    const far = Number.POSITIVE_INFINITY
    const distance = Array.from({ length: count }, () => Array.from({ length: count }, () => far))
    const at = (one: number, other: number): number => distance[one]?.[other] ?? far
    const put = (one: number, other: number, length: number): void => {
      const row = distance[one]
      if (row !== undefined) row[other] = Math.min(at(one, other), length)
    }
    for (const [one, other] of arcs) put(one, other, 1)
    for (let by = 0; by < count; by += 1)
      for (let one = 0; one < count; one += 1)
        for (let other = 0; other < count; other += 1) put(one, other, at(one, by) + at(by, other))
    const done = new Set<number>()
    const lengths: number[] = []
    for (let one = 0; one < count; one += 1) {
      if (done.has(one) || at(one, one) === far) continue
      const knot = Array.from({ length: count }, (_, other) => other).filter(
        (other) => at(one, other) < far && at(other, one) < far,
      )
      for (const member of knot) done.add(member)
      lengths.push(Math.min(...knot.map((member) => at(member, member))))
    }
    return lengths.sort()
  }
})

describe("strong components", () => {
  test("a chain of 30000 nodes has 30000, its ring one", () => {
    const chain = Array.from({ length: 30_000 }, (_, index) => (index + 1 < 30_000 ? [index + 1] : []))
    expect(new Set(strongComponents(chain)).size).toBe(30_000)
    expect(new Set(strongComponents(chain.map((_, index) => [(index + 1) % 30_000]))).size).toBe(1)
  })
})
