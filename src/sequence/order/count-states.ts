/** Counts the valid orders of one piece of a plan, state by state. */
import type { NumberedPlan, Piece } from "./piece.ts"
import { makeStateTable, type StateTable } from "./state-table.ts"

/** The final states that reach every goal; `before` tells for each mark how many other steps came before it. */
export type Walked = {
  readonly ends: readonly { readonly before: readonly number[]; readonly ways: bigint }[]
  readonly states: number
}

/** When only some states are kept, so much smaller is their number than that of an exact count may be. */
const beamShare = 4

/** What one step of a piece asks of a state and does to it; rows of bits: steps done first, facts behind them. */
type Operator = {
  readonly asks: Uint32Array
  readonly clears: Uint32Array
  readonly sets: Uint32Array
  readonly word: number
  readonly bit: number
  /** Word that takes the number of other steps done when a mark is done; undefined for other steps. */
  readonly mark: number | undefined
  /** Rows of the steps that are no marks, to be counted. */
  readonly others: Uint32Array
  /** Facts that stop to matter once these steps are done. */
  readonly fading: readonly { readonly word: number; readonly bit: number; readonly needers: Uint32Array }[]
}

/**
 * Walks through all states of the piece, those with as many steps done side by side, and carries along in how many ways
 * each is reached. Exact when no more than `cap` states are met. Else only so many states are kept for each number of
 * steps done, those reached in most ways and those of the present order: every order counted is valid, others are missed.
 */
export function countStates(
  plan: NumberedPlan,
  piece: Piece,
  cap: number,
): { readonly count: bigint; readonly states: number; readonly isExact: boolean } {
  const exact = walkStates(plan, piece, { cap })
  if (exact !== undefined) return { count: sumWays(exact), states: exact.states, isExact: true }
  const most = Math.max(4, Math.floor(cap / piece.steps.length / beamShare))
  const some = walkStates(plan, piece, { most })
  return { count: some === undefined ? 0n : sumWays(some), states: cap, isExact: false }
}

function sumWays({ ends }: Walked): bigint {
  return ends.reduce((sum, { ways }) => sum + ways, 0n)
}

/**
 * Walks all states layer by layer. Undefined when there are more than `cap` of them, or when half of the layers hold more
 * than half as many: the other half is about as large. `most` limits the states kept side by side. `marks` are steps of
 * the piece for which is noted how many steps that are no marks came before each; ways are told apart by that.
 */
export function walkStates(
  plan: NumberedPlan,
  piece: Piece,
  { cap = Number.POSITIVE_INFINITY, most, marks = [] }: { cap?: number; most?: number; marks?: readonly number[] },
): Walked | undefined {
  const { operators, first, goal, words } = prepare(plan, piece, marks)
  let layer = makeStateTable(words)
  layer.add(first, 0, 1n)
  let states = 1
  const next = new Uint32Array(words)
  const present = first.slice()
  for (const [done, own] of operators.entries()) {
    const room = 2 * (done + 1) < operators.length ? cap / 2 : cap
    const after = makeStateTable(words)
    for (let index = 0; index < layer.size(); index += 1) {
      const from = layer.keys()
      const at = index * words
      const ways = layer.ways(index)
      for (const operator of operators) {
        if (((from[at + operator.word] ?? 0) & operator.bit) !== 0 || !asksAreMet(operator, from, at, words)) continue
        applyOperator(operator, from, at, next)
        after.add(next, 0, ways)
      }
      if (states + after.size() > room) return undefined
    }
    states += after.size()
    if (most === undefined || after.size() <= most) {
      layer = after
      applyOperator(own, present, 0, next)
    } else {
      applyOperator(own, present, 0, next)
      layer = keepMost(after, most, next, words)
    }
    present.set(next)
  }
  const ends: { before: readonly number[]; ways: bigint }[] = []
  for (let index = 0; index < layer.size(); index += 1) {
    const row = layer.keys().slice(index * words, (index + 1) * words)
    const isReached = goal.every((word, offset) => ((row[offset] ?? 0) & word) >>> 0 === word)
    if (isReached) ends.push({ before: [...row.slice(words - marks.length)], ways: layer.ways(index) })
  }
  return { ends, states }
}

function asksAreMet({ asks }: Operator, from: Uint32Array, at: number, words: number): boolean {
  for (let word = 0; word < words; word += 1) {
    const asked = asks[word] ?? 0
    if (((from[at + word] ?? 0) & asked) >>> 0 !== asked) return false
  }
  return true
}

function applyOperator(operator: Operator, from: Uint32Array, at: number, into: Uint32Array): void {
  for (let word = 0; word < into.length; word += 1)
    into[word] = ((from[at + word] ?? 0) & ~(operator.clears[word] ?? 0)) | (operator.sets[word] ?? 0)
  for (const { word, bit, needers } of operator.fading) {
    let isDone = true
    for (let index = 0; index < needers.length && isDone; index += 1) {
      const asked = needers[index] ?? 0
      isDone = ((into[index] ?? 0) & asked) >>> 0 === asked
    }
    if (isDone) into[word] = (into[word] ?? 0) & ~bit
  }
  if (operator.mark !== undefined) into[operator.mark] = countBits(from, at, operator.others)
}

function countBits(row: Uint32Array, at: number, mask: Uint32Array): number {
  let count = 0
  for (const [word, bits] of mask.entries())
    for (let left = (row[at + word] ?? 0) & bits; left !== 0; left &= left - 1) count += 1
  return count
}

/** The states reached in most ways, and the one of the present order when it is among them; equals as they came. */
function keepMost(table: StateTable, most: number, present: Uint32Array, words: number): StateTable {
  const ranked = Array.from({ length: table.size() }, (_, index) => index)
  ranked.sort((one, other) => {
    const [many, few] = [table.ways(one), table.ways(other)]
    return many === few ? one - other : many > few ? -1 : 1
  })
  const kept = makeStateTable(words)
  const own = table.find(present)
  if (own >= 0) kept.add(present, 0, table.ways(own))
  for (const index of ranked.slice(0, most)) if (index !== own) kept.add(table.keys(), index * words, table.ways(index))
  return kept
}

function prepare(
  plan: NumberedPlan,
  { steps, facts, arcs }: Piece,
  marks: readonly number[],
): {
  readonly operators: readonly Operator[]
  readonly first: Uint32Array
  readonly goal: Uint32Array
  readonly words: number
} {
  const stepWords = Math.ceil(steps.length / 32)
  const kept = facts.filter(({ isInArcs }) => !isInArcs)
  const words = stepWords + Math.ceil(kept.length / 32) + marks.length
  const local = new Map(steps.map((step, index) => [step, index]))
  const place = new Map(kept.map(({ fact }, index) => [fact, 32 * stepWords + index]))
  const set = (row: Uint32Array, bit: number): void => {
    row[bit >> 5] = (row[bit >> 5] ?? 0) | (1 << (bit & 31))
  }
  const rowOf = (bits: readonly number[], length = words): Uint32Array => {
    const row = new Uint32Array(length)
    for (const bit of bits) set(row, bit)
    return row
  }
  const bitsOf = (list: readonly number[] | undefined): readonly number[] =>
    (list ?? []).flatMap((fact) => place.get(fact) ?? [])
  const before: number[][] = steps.map(() => [])
  for (const [from, to] of arcs) before[local.get(to) ?? 0]?.push(local.get(from) ?? 0)
  const needersOf = new Map(
    kept
      .filter(({ isGoal }) => !isGoal)
      .map(({ fact, needers }) => [
        fact,
        rowOf(
          needers.map((step) => local.get(step) ?? 0),
          stepWords,
        ),
      ]),
  )
  const isMark = new Set(marks)
  const others = rowOf(
    steps.flatMap((step, index) => (isMark.has(step) ? [] : [index])),
    stepWords,
  )
  const operators = steps.map((step, index): Operator => {
    const changed = new Set([...(plan.needs[step] ?? []), ...(plan.gives[step] ?? [])])
    return {
      asks: rowOf([...(before[index] ?? []), ...bitsOf(plan.needs[step])]),
      clears: rowOf(bitsOf(plan.takes[step])),
      sets: rowOf([index, ...bitsOf(plan.gives[step])]),
      word: index >> 5,
      bit: 1 << (index & 31),
      mark: isMark.has(step) ? words - marks.length + marks.indexOf(step) : undefined,
      others,
      fading: [...changed].flatMap((fact) => {
        const needers = needersOf.get(fact)
        const bit = place.get(fact)
        return needers === undefined || bit === undefined ? [] : [{ word: bit >> 5, bit: 1 << (bit & 31), needers }]
      }),
    }
  })
  const first = rowOf(kept.flatMap(({ fact, holds }) => (holds ? bitsOf([fact]) : [])))
  const goal = rowOf(kept.flatMap(({ fact, isGoal }) => (isGoal ? bitsOf([fact]) : [])))
  return { operators, first, goal, words }
}
