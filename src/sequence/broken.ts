/** Links that the order of the steps breaks, and needs that nobody meets. */
import type { Kit } from "../kit/types.ts"
import { groupByCause, pairKey } from "./causes.ts"
import type { Action, FactKey, Need } from "./types.ts"
import type { Miss, Walk } from "./walk.ts"

/** `late` must stand before `early` but comes after it, in order of the steps. Both are indexes of steps. */
export type Broken = {
  readonly early: number
  readonly late: number
} & (
  | {
      readonly kind: "needs-later" | "taken-away"
      readonly need: Need
      /** Index of the act that needs, and of the act that gives too late or took away too soon. */
      readonly action: number
      readonly other: number
      /** The act whose move would mend it as well: it gives the fact again, or took it before. */
      readonly alternative: number | undefined
    }
  | { readonly kind: "declared-later"; readonly why: string | undefined; readonly path: string }
)

/** A `needs-after` of a step with the indexes of both steps; `other` must come first. */
export type Declared = {
  readonly step: number
  readonly other: number
  readonly why: string | undefined
  readonly path: string
}

/** Every `needs-after` whose step exists. */
export function findDeclared(kit: Kit): readonly Declared[] {
  const indexById = new Map(kit.steps.map(({ id }, index) => [id, index]))
  return kit.steps.flatMap(({ needsAfter }, step) =>
    needsAfter.flatMap((after) => {
      const other = indexById.get(after.step)
      return other === undefined ? [] : [{ step, other, why: after.why, path: after.path }]
    }),
  )
}

/**
 * Sorts the unmet needs: broken links between two acts, and needs that no act meets. A fact that was taken away for good
 * and is a goal is told as a missed goal: an end disconnected and never connected again. So is a piece held by nothing.
 */
export function findBroken(
  actions: readonly Action[],
  walk: Walk,
  declared: readonly Declared[],
  goals: ReadonlySet<FactKey>,
): { readonly broken: readonly Broken[]; readonly unmet: readonly Miss[] } {
  const broken: Broken[] = []
  const unmet: Miss[] = []
  for (const { step, other, why, path } of declared)
    if (other > step) broken.push({ kind: "declared-later", early: step, late: other, why, path })
  const open: Open[] = []
  for (const miss of walk.misses) {
    const { need, taker, givers } = miss
    const isLost = givers.length === 0 && taker !== undefined && !walk.final.has(need.fact)
    if (isLost && (goals.has(need.fact) || need.fact.startsWith("held:"))) continue
    const ways = waysToMend(actions, miss)
    const [only] = ways
    if (only === undefined) unmet.push(miss)
    else if (ways.length === 1) broken.push(only)
    else open.push({ miss, ways })
  }
  // What a sure cause mends as well needs no cause of its own.
  const isMended = findMended(broken)
  for (const { miss, ways } of open) broken.push(chooseWay(ways, isMended, isFinish(actions, miss, goals)))
  return { broken: dropExplained(actions, walk, broken), unmet }
}

type Open = { readonly miss: Miss; readonly ways: readonly Broken[] }

/** One broken link for each later giver, and one for the act that took the fact away. */
function waysToMend(actions: readonly Action[], { action, need, taker, givers }: Miss): readonly Broken[] {
  const stepOf = (index: number): number => actions[index]?.stepIndex ?? -1
  const later = givers.map((giver): Broken => {
    const place = { early: stepOf(action), late: stepOf(giver) }
    return { kind: "needs-later", need, action, other: giver, alternative: taker, ...place }
  })
  if (taker === undefined) return later
  const place = { early: stepOf(taker), late: stepOf(action) }
  return [...later, { kind: "taken-away", need, action, other: taker, alternative: givers[0], ...place }]
}

/** True for what ends the work and waits until all is done, for a piece that is only loose yet, and for what still cures. */
function isFinish(actions: readonly Action[], { action, need }: Miss, goals: ReadonlySet<FactKey>): boolean {
  const verb = actions[action]?.verb
  if (need.fact.startsWith("held:") || need.fact.startsWith("cured:")) return true
  return goals.has(need.fact) && (verb === "restore" || verb === "inspect")
}

/** Gives a test whether the move or swap that mends one of the causes of the sure links mends another link, too. */
function findMended(sure: readonly Broken[]): (link: Broken) => boolean {
  const causes = groupByCause(sure)
  const lastOf = new Map<number, number>()
  const firstOf = new Map<number, number>()
  for (const [{ early, late }] of causes) {
    lastOf.set(early, Math.max(late, lastOf.get(early) ?? late))
    firstOf.set(late, Math.min(early, firstOf.get(late) ?? early))
  }
  return ({ early, late }) =>
    early !== late && ((lastOf.get(early) ?? -1) >= late || (firstOf.get(late) ?? Number.POSITIVE_INFINITY) <= early)
}

/**
 * Takes the way that a sure cause mends anyway; else a later giver for what must hold at the end or what is only loose;
 * else the nearer step, a later giver before the earlier taker.
 */
function chooseWay(ways: readonly Broken[], isMended: (link: Broken) => boolean, waitsForMore: boolean): Broken {
  const rated = ways.map((way) => {
    const isLater = way.kind === "needs-later"
    return { way, isMended: isMended(way), waits: waitsForMore && isLater, distance: way.late - way.early, isLater }
  })
  rated.sort(
    (one, other) =>
      Number(other.isMended) - Number(one.isMended) ||
      Number(other.waits) - Number(one.waits) ||
      one.distance - other.distance ||
      Number(other.isLater) - Number(one.isLater),
  )
  const [best] = rated
  // Called with at least two ways.
  if (best === undefined) throw new Error("no way to mend a broken link")
  return best.way
}

/**
 * Drops links whose fact was taken away after an act that gave it too soon: where that act must come later anyway,
 * as another broken link says, it will give the fact again. The links that say so stay.
 */
function dropExplained(actions: readonly Action[], walk: Walk, broken: readonly Broken[]): readonly Broken[] {
  const explaining = broken.map((link) => explainingPairs(actions, walk, link))
  const all = new Set(broken.map(({ early, late }) => pairKey(early, late)))
  const kept = new Set<string>()
  broken.forEach(({ early, late }, index) => {
    if (!(explaining[index] ?? []).some((pair) => all.has(pair))) kept.add(pairKey(early, late))
  })
  return broken.filter(({ early, late }, index) => {
    const isExplained = (explaining[index] ?? []).some((pair) => kept.has(pair))
    if (!isExplained) kept.add(pairKey(early, late))
    return !isExplained
  })
}

/** Pairs of steps that, once in order, bring back what a link lacks: its fact was given before the act that took it. */
function explainingPairs(actions: readonly Action[], walk: Walk, link: Broken): readonly string[] {
  if (link.kind === "declared-later") return []
  const taker = link.kind === "taken-away" ? link.other : link.alternative
  if (taker === undefined) return []
  const stepOf = (index: number): number => actions[index]?.stepIndex ?? -1
  return (walk.givers.get(link.need.fact) ?? [])
    .filter((giver) => giver < taker && stepOf(giver) !== stepOf(taker))
    .map((giver) => pairKey(stepOf(giver), stepOf(taker)))
    .filter((pair) => pair !== pairKey(link.early, link.late))
}
