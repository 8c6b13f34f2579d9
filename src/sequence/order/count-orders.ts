/** How many orders of the steps are valid. */
import type { OrderCount, Plan } from "../plan-types.ts"
import { countStates } from "./count-states.ts"
import { countByHubs } from "./hubs.ts"
import { cutPiece, type NumberedPlan, numberPlan, type Piece, type Split } from "./piece.ts"
import { cutAtPivots } from "./pivots.ts"
import { cutStretches } from "./stretches.ts"

/** So many states of the work are looked at before an exact count is given up. */
const mostStates = 400_000
/** Beyond so many steps at once only orders that keep within stretches of the present order are counted. */
const mostSteps = 240

/**
 * Counts the orders in which every need is met, every goal is reached and every declared order is kept: exactly where
 * that takes no more than `cap` states, else so many at least. Steps that share no fact count apart; a step that must
 * stand before or after each other one cuts the plan in two. The count of a piece is that of the ways through its states,
 * a state being the steps done and the facts that still matter. Beyond the cap every order counted is valid, but not
 * every valid one is counted; from more than 240 steps that hang together that needs a valid present order.
 */
export function countOrders(plan: Plan, cap = mostStates): OrderCount {
  const numbered = numberPlan(plan)
  const all = plan.steps.map((_, index) => index)
  const goals = new Set(numbered.goals)
  const touched = new Set([...numbered.gives.flat(), ...numbered.takes.flat()])
  const isLost = numbered.goals.some((fact) => !touched.has(fact) && !numbered.initial.has(fact))
  const whole = isLost
    ? undefined
    : cutPiece(
        numbered,
        all,
        (fact) => numbered.initial.has(fact),
        (fact) => goals.has(fact),
      )
  if (whole === undefined) return { kind: "exact", count: "0" }
  let count = 1n
  let isExact = true
  let left = cap
  const open: Piece[] = [whole]
  for (let piece = open.pop(); piece !== undefined; piece = open.pop()) {
    if (piece.steps.length < 2 && piece.facts.length + piece.arcs.length === 0) continue
    let split = splitApart(numbered, piece)
    if (split === "whole") split = cutAtPivots(numbered, piece)
    if (split === "none") return { kind: "exact", count: "0" }
    if (split !== "whole") {
      count *= split.factor
      open.push(...split.pieces)
      continue
    }
    if (piece.steps.length > mostSteps) {
      isExact = false
      const stretches = cutStretches(numbered, piece)
      if (stretches === undefined) return { kind: "at-least", count: "0" }
      open.push(...stretches)
      continue
    }
    const counted = countByHubs(numbered, piece, left) ?? countStates(numbered, piece, left)
    left = Math.max(0, left - counted.states)
    isExact &&= counted.isExact
    count *= counted.count
    if (count === 0n) return { kind: counted.isExact ? "exact" : "at-least", count: "0" }
  }
  return { kind: isExact ? "exact" : "at-least", count: String(count) }
}

/** Splits a piece into those whose steps share neither a fact nor an arc; the orders of one mix freely with the others'. */
function splitApart(plan: NumberedPlan, piece: Piece): Split {
  const local = new Map(piece.steps.map((step, index) => [step, index]))
  const leader = Int32Array.from(piece.steps, (_, index) => index)
  const find = (index: number): number => {
    let root = index
    for (let up = leader[root] ?? root; up !== root; up = leader[root] ?? root) {
      leader[root] = leader[up] ?? up
      root = up
    }
    return root
  }
  const join = (one: number, other: number): void => {
    leader[find(local.get(one) ?? 0)] = find(local.get(other) ?? 0)
  }
  for (const { needers, givers, takers } of piece.facts) {
    const [first, ...rest] = [...needers, ...givers, ...takers]
    for (const step of rest) if (first !== undefined) join(first, step)
  }
  for (const [from, to] of piece.arcs) join(from, to)
  const groups = new Map<number, number[]>()
  for (const [index, step] of piece.steps.entries()) {
    const group = groups.get(find(index))
    if (group === undefined) groups.set(find(index), [step])
    else group.push(step)
  }
  if (groups.size === 1) return "whole"
  const factsOf = new Map(piece.facts.map((fact) => [fact.fact, fact]))
  const pieces: Piece[] = []
  for (const steps of groups.values()) {
    const holds = (fact: number): boolean => factsOf.get(fact)?.holds ?? true
    const one = cutPiece(plan, steps, holds, (fact) => factsOf.get(fact)?.isGoal ?? false)
    if (one === undefined) return "none"
    if (one.steps.length > 1 || one.facts.length > 0) pieces.push(one)
  }
  return { factor: waysToMix([...groups.values()].map(({ length }) => length)), pieces }
}

/** In how many ways lists of these lengths can be mixed into one, each keeping its order. */
function waysToMix(lengths: readonly number[]): bigint {
  const total = lengths.reduce((sum, length) => sum + length, 0)
  const same = lengths.filter((length) => length > 1).map((length) => productOf(2, length))
  return productOf(2, total) / multiplyAll(same)
}

/** `from` times `from + 1` and so on up to `to`. */
function productOf(from: number, to: number): bigint {
  return multiplyAll(Array.from({ length: Math.max(0, to - from + 1) }, (_, index) => BigInt(from + index)))
}

/** Multiplies neighbours first, so that long numbers meet long ones. */
function multiplyAll(factors: readonly bigint[]): bigint {
  let level = factors
  while (level.length > 1)
    level = Array.from({ length: Math.ceil(level.length / 2) }, (_, index) => {
      return (level[2 * index] ?? 1n) * (level[2 * index + 1] ?? 1n)
    })
  return level[0] ?? 1n
}
