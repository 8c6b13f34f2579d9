/** Sets of steps that an answer with a given number of moves can consist of. */
import { bitsAbove, lowestBit } from "./bits.ts"
import type { Closure } from "./closure.ts"
import type { Problem } from "./problem.ts"

/** Counts work down to 0. */
export type Budget = { left: number }

type Choice = { readonly moved: readonly number[]; readonly excluded: ReadonlySet<number> }

/**
 * Visits every set of `moveCount` steps whose other steps may keep their order, as far as two tests see: no two of these
 * are in each other's way, and none of them breaks a condition that only steps of these are about. Each set is visited once.
 * False when the budget did not reach.
 */
export function visitCovers(
  problem: Problem,
  closure: Closure,
  moveCount: number,
  budget: Budget,
  visit: (moved: readonly number[]) => void,
): boolean {
  const open: Choice[] = [{ moved: [], excluded: new Set(problem.pinned) }]
  for (let choice = open.pop(); choice !== undefined; choice = open.pop()) {
    budget.left -= problem.count
    if (budget.left < 0) return false
    const { moved, excluded } = choice
    const isMoved = new Set(moved)
    const wanted = findPair(closure, isMoved) ?? findStuck(problem, isMoved)
    if (wanted === undefined && moved.length === moveCount) {
      visit([...moved].sort((one, other) => one - other))
      continue
    }
    if (moved.length === moveCount) continue
    const all = wanted ?? Array.from({ length: problem.count }, (_, step) => step)
    const members = all.filter((step) => !isMoved.has(step) && !excluded.has(step))
    for (const [index, step] of members.entries())
      open.push({ moved: [...moved, step], excluded: new Set([...excluded, ...members.slice(0, index)]) })
  }
  return true
}

/** Two kept steps in each other's way. */
function findPair({ count, words, before }: Closure, isMoved: ReadonlySet<number>): readonly number[] | undefined {
  for (let step = 0; step < count; step += 1) {
    if (isMoved.has(step)) continue
    const first = step >>> 5
    for (let word = first; word < words; word += 1)
      for (
        let rest = (before[step * words + word] ?? 0) & (word === first ? bitsAbove(step) : -1);
        rest !== 0;
        rest &= rest - 1
      ) {
        const other = word * 32 + lowestBit(rest)
        if (!isMoved.has(other)) return [step, other]
      }
  }
  return undefined
}

/** The steps a broken condition is about, when all of them are kept: one must move. */
function findStuck(problem: Problem, isMoved: ReadonlySet<number>): readonly number[] | undefined {
  const { facts, conditionsOf, givenBy, takenBy, count } = problem
  const holds = facts.map(({ isInitial, givers }) => isInitial || givers.some((giver) => isMoved.has(giver)))
  const isLoose = facts.map(({ givers }) => givers.some((giver) => isMoved.has(giver)))
  const taker = new Map<number, number>()
  for (let step = 0; step <= count; step += 1) {
    if (isMoved.has(step)) continue
    for (const { fact } of conditionsOf[step] ?? []) {
      if (holds[fact] === true) continue
      const last = taker.get(fact)
      const about = [...(step < count ? [step] : []), ...(last === undefined ? [] : [last])]
      return [...new Set([...about, ...(facts[fact]?.givers ?? [])])]
    }
    for (const fact of takenBy[step] ?? []) {
      taker.set(fact, step)
      if (isLoose[fact] !== true) holds[fact] = false
    }
    for (const fact of givenBy[step] ?? []) holds[fact] = true
  }
  return undefined
}
