/** Steps that stand before or after each other one in any valid order, and cuts at them. */
import { buildDigraph, type Digraph, reverseDigraph, sortTopologically } from "./digraph.ts"
import { cutPiece, type NumberedPlan, type Piece, type Split } from "./piece.ts"

/** Longer stretches are not looked at for a cut: what holds after them is found anew for each pivot. */
const longestStretch = 1000

/**
 * Cuts a piece at the steps that stand before or after each other one in every valid order. That is sound where it is
 * clear which facts hold at the cut; where that depends on the order before it, the piece stays whole there.
 */
export function cutAtPivots(plan: NumberedPlan, piece: Piece): Split {
  const { order, pivots } = findPivots(piece)
  if (order.length < piece.steps.length) return "none"
  if (pivots.size === 0) return "whole"
  const factOf = new Map(piece.facts.map((fact) => [fact.fact, fact]))
  const arcKeys = new Set(piece.arcs.map(([from, to]) => `${from} ${to}`))
  const value = new Map(piece.facts.map(({ fact, holds }) => [fact, holds]))
  const isHeld = (fact: number): boolean => value.get(fact) ?? true
  const needersLeft = new Map(piece.facts.map(({ fact, needers }) => [fact, needers.length]))
  const pieces: Piece[] = []
  let stretch: number[] = []
  const finish = (goalFacts: ReadonlySet<number>): boolean => {
    const touchedFacts = factsChanged(plan, stretch, factOf)
    for (const fact of goalFacts) if (!touchedFacts.has(fact) && !isHeld(fact)) return false
    if (stretch.length > 0) {
      const steps = [...stretch].sort((one, other) => one - other)
      const one = cutPiece(plan, steps, isHeld, (fact) => goalFacts.has(fact))
      if (one === undefined) return false
      if (one.steps.length > 1 || one.facts.length > 0) pieces.push(one)
    }
    return true
  }
  for (const step of order) {
    for (const fact of plan.needs[step] ?? []) needersLeft.set(fact, (needersLeft.get(fact) ?? 0) - 1)
    if (!pivots.has(step) || stretch.length > longestStretch) {
      stretch.push(step)
      continue
    }
    const needs = new Set((plan.needs[step] ?? []).filter((fact) => factOf.has(fact)))
    const after = valuesAfter(plan, stretch, factOf, arcKeys)
    for (const fact of needs) if (after.has(fact)) after.set(fact, true)
    const own = new Set([...(plan.gives[step] ?? []), ...(plan.takes[step] ?? [])])
    const matters = (fact: number): boolean =>
      !own.has(fact) && ((needersLeft.get(fact) ?? 0) > 0 || factOf.get(fact)?.isGoal === true)
    if ([...after].some(([fact, known]) => known === undefined && matters(fact))) {
      stretch.push(step)
      continue
    }
    // What must hold afterwards on behalf of later steps is a goal of the stretch, which knows nothing of them.
    const asked = new Set([
      ...needs,
      ...[...after].flatMap(([fact, known]) => (known === true && matters(fact) ? [fact] : [])),
    ])
    if (!finish(asked)) return "none"
    for (const [fact, known] of after) value.set(fact, known ?? false)
    for (const fact of plan.takes[step] ?? []) value.set(fact, false)
    for (const fact of plan.gives[step] ?? []) value.set(fact, true)
    stretch = []
  }
  if (stretch.length === piece.steps.length) return "whole"
  const goals = new Set(piece.facts.flatMap(({ fact, isGoal }) => (isGoal ? [fact] : [])))
  return finish(goals) ? { factor: 1n, pieces } : "none"
}

/** Facts of the piece that some of the steps give or take. */
function factsChanged(
  plan: NumberedPlan,
  steps: readonly number[],
  factOf: ReadonlyMap<number, unknown>,
): ReadonlySet<number> {
  return new Set(
    steps
      .flatMap((step) => [...(plan.gives[step] ?? []), ...(plan.takes[step] ?? [])])
      .filter((fact) => factOf.has(fact)),
  )
}

/** What holds after some steps in any valid order of them; undefined where that depends on the order. */
function valuesAfter(
  plan: NumberedPlan,
  steps: readonly number[],
  factOf: ReadonlyMap<number, Piece["facts"][number]>,
  arcKeys: ReadonlySet<string>,
): Map<number, boolean | undefined> {
  const members = new Set(steps)
  const after = new Map<number, boolean | undefined>()
  for (const fact of factsChanged(plan, steps, factOf)) {
    const givers = (factOf.get(fact)?.givers ?? []).filter((step) => members.has(step))
    const takers = (factOf.get(fact)?.takers ?? []).filter((step) => members.has(step))
    const isBehind = (late: number, early: readonly number[]): boolean =>
      early.every((step) => arcKeys.has(`${step} ${late}`))
    if (takers.length === 0) after.set(fact, true)
    else if (givers.length === 0) after.set(fact, false)
    else if (givers.some((giver) => isBehind(giver, takers))) after.set(fact, true)
    else if (takers.some((taker) => isBehind(taker, givers))) after.set(fact, false)
    else after.set(fact, undefined)
  }
  return after
}

/**
 * Steps that are before or after each other one by way of arcs. When a step alone is ready, all that is left comes after
 * it; the same backwards; it is a pivot when that makes up all the others.
 */
function findPivots({ steps, arcs }: Piece): {
  readonly order: readonly number[]
  readonly pivots: ReadonlySet<number>
} {
  const local = new Map(steps.map((step, index) => [step, index]))
  const graph = buildDigraph(
    steps.length,
    arcs.map(([from]) => local.get(from) ?? 0),
    arcs.map(([, to]) => local.get(to) ?? 0),
  )
  const forward = sortTopologically(graph)
  const reached = new Int32Array(steps.length)
  const note = (order: Int32Array, lonely: readonly boolean[]): void => {
    order.forEach((node, index) => {
      const others = (lonely[index] ?? false) ? steps.length - 1 - index : -steps.length
      reached[node] = (reached[node] ?? 0) + others
    })
  }
  const back = reverseDigraph(graph)
  note(forward, findLonely(graph, forward))
  const backward = sortTopologically(back)
  note(backward, findLonely(back, backward))
  const pivots = new Set(steps.filter((_, index) => reached[index] === steps.length - 1))
  return { order: Array.from(forward, (index) => steps[index] ?? 0), pivots }
}

/** For each place of a sorted graph: whether the node there was the only one ready. */
function findLonely({ count, starts, targets }: Digraph, order: Int32Array): readonly boolean[] {
  const waits = new Int32Array(count)
  for (const target of targets) waits[target] = (waits[target] ?? 0) + 1
  let ready = waits.reduce((sum, wait) => sum + (wait === 0 ? 1 : 0), 0)
  return Array.from(order, (node) => {
    const isLonely = ready === 1
    ready -= 1
    for (let arc = starts[node] ?? 0; arc < (starts[node + 1] ?? 0); arc += 1) {
      const target = targets[arc] ?? 0
      const left = (waits[target] ?? 0) - 1
      waits[target] = left
      if (left === 0) ready += 1
    }
    return isLonely
  })
}
