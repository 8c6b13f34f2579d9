/** Which acts the way back needs: the fewest that meet all goals and each other's needs. */
import type { FactKey, Need } from "../types.ts"
import type { WayBack } from "./candidates.ts"

/** Chosen acts by index, and needs that no act can meet; `by` is the act that has the need, undefined for a goal. */
export type Choice = {
  readonly chosen: readonly number[]
  readonly missing: readonly { readonly need: Need; readonly by: number | undefined }[]
  /** False when the search ended at its limit: fewer acts might do. */
  readonly isFewest: boolean
}

/** So many combinations of alternatives are tried; kits have a handful. Each try follows the needs of all acts anew. */
const mostTries = 400
/** Above so many acts in all tries, fewer are made. */
const mostWork = 400_000

type Options = {
  readonly candidates: readonly WayBack[]
  readonly final: ReadonlySet<FactKey>
  readonly goals: readonly Need[]
  /** Acts that are done in any case. */
  readonly forced: readonly number[]
}

/**
 * Follows every need to what gives it. Where only one act can, that one is taken (all that hold so are needed: the answer is
 * the closure). Where several can, each is tried, the least number of acts wins; ties go to the act of mounting done last.
 * Exact up to the limit of tries; where none of them came to an end, the first alternative is taken each time.
 */
export function chooseActs(options: Options): Choice {
  const givers = indexGivers(options.candidates)
  const limit = Math.min(mostTries, Math.ceil(mostWork / Math.max(1, options.candidates.length)))
  let best: Closed | undefined
  const open: (readonly number[])[] = [options.forced]
  let tries = 0
  while (open.length > 0 && tries < limit) {
    tries += 1
    const start = open.pop() ?? []
    const closed = close(options, givers, start, false)
    if (best !== undefined && !isBetter(closed, best)) continue
    if (closed.alternatives.length === 0) best = closed
    // The first alternative is tried first.
    for (const giver of closed.alternatives.toReversed()) open.push([...closed.chosen, giver])
  }
  const { chosen, missing } = best ?? close(options, givers, options.forced, true)
  return { chosen, missing, isFewest: open.length === 0 }
}

type Closed = {
  readonly chosen: readonly number[]
  readonly missing: Choice["missing"]
  /** Acts of which one has to be added; empty when nothing is open. */
  readonly alternatives: readonly number[]
}

/** More acts or more missing needs never become fewer by adding acts. */
function isBetter(one: Closed, other: Closed): boolean {
  if (one.missing.length !== other.missing.length) return one.missing.length < other.missing.length
  return one.chosen.length < other.chosen.length
}

function indexGivers(candidates: readonly WayBack[]): ReadonlyMap<FactKey, readonly number[]> {
  const givers = new Map<FactKey, number[]>()
  candidates.forEach(({ facts }, index) => {
    for (const key of facts.gives) {
      const known = givers.get(key)
      if (known === undefined) givers.set(key, [index])
      else known.push(index)
    }
  })
  return givers
}

/** Takes what the start and the goals need; stops at the first choice, or `isHasty` takes the first alternative and goes on. */
function close(
  options: Options,
  givers: ReadonlyMap<FactKey, readonly number[]>,
  start: readonly number[],
  isHasty: boolean,
): Closed {
  const { candidates, final, goals } = options
  const chosen = new Set<number>()
  const given = new Set<FactKey>()
  const taken = new Map<FactKey, number[]>()
  const missing = new Map<FactKey, Choice["missing"][number]>()
  const undecided = new Map<FactKey, readonly number[]>()
  const goalOf = new Map(goals.map((goal) => [goal.fact, goal]))
  const wanted: { readonly need: Need; readonly by: number | undefined }[] = []
  const take = (index: number): void => {
    const candidate = candidates[index]
    if (candidate === undefined || chosen.has(index)) return
    chosen.add(index)
    for (const key of candidate.facts.gives) given.add(key)
    for (const need of candidate.facts.needs) wanted.push({ need, by: index })
    for (const key of candidate.facts.takes) {
      const takers = taken.get(key)
      if (takers === undefined) taken.set(key, [index])
      else takers.push(index)
      const goal = goalOf.get(key)
      if (goal !== undefined) wanted.push({ need: goal, by: undefined })
    }
  }
  const rankLast = (all: readonly number[]): readonly number[] =>
    [...all].sort((one, other) => (candidates[other]?.rank ?? 0) - (candidates[one]?.rank ?? 0))
  for (const index of start) take(index)
  for (const goal of goals) wanted.push({ need: goal, by: undefined })
  for (;;) {
    for (let next = wanted.pop(); next !== undefined; next = wanted.pop()) {
      const { need, by } = next
      const isEnded = by === undefined ? taken.has(need.fact) : endedBefore(options, taken.get(need.fact), by)
      const holds = final.has(need.fact) && !isEnded
      if (holds || given.has(need.fact)) continue
      const all = (givers.get(need.fact) ?? []).filter((giver) => giver !== by)
      if (all.length === 0) missing.set(need.fact, next)
      else if (all.length === 1) take(all[0] ?? -1)
      else undecided.set(need.fact, all)
    }
    if (isHasty) {
      const [open] = undecided
      if (open !== undefined) {
        undecided.delete(open[0])
        if (!given.has(open[0])) take(rankLast(open[1])[0] ?? -1)
        continue
      }
    }
    // A fact of the finished work may be ended by an act that was chosen after the one that needs it.
    const late = [...chosen].flatMap((by) =>
      (candidates[by]?.facts.needs ?? [])
        .filter(({ fact }) => taken.has(fact) && final.has(fact) && !given.has(fact) && !missing.has(fact))
        .filter(({ fact }) => !undecided.has(fact) && endedBefore(options, taken.get(fact), by))
        .map((need) => ({ need, by })),
    )
    wanted.push(...late)
    if (late.length > 0) continue
    const found = [...undecided].find(([key]) => !given.has(key))
    if (found === undefined) break
    const [, all] = found
    const byRank = rankLast(all)
    return { chosen: [...chosen], missing: [...missing.values()], alternatives: byRank }
  }
  return { chosen: [...chosen], missing: [...missing.values()], alternatives: [] }
}

/** True when one of the acts that end a fact comes before the act that needs it, since it gives that one something new. */
function endedBefore({ candidates, final }: Options, takers: readonly number[] | undefined, by: number): boolean {
  if (takers === undefined) return false
  const needs = new Set((candidates[by]?.facts.needs ?? []).map(({ fact }) => fact).filter((key) => !final.has(key)))
  return takers.some((index) => index !== by && candidates[index]?.facts.gives.some((key) => needs.has(key)) === true)
}
