/** Groups broken links by cause, so that one misplaced step, or two swapped ones, give one fault. */
import type { Broken } from "./broken.ts"
import { firstAbove } from "./sorted.ts"

/** Broken links of one cause; the first stands for all. */
export type Cause = readonly [Broken, ...Broken[]]

type Pair = { readonly early: number; readonly late: number; readonly links: Broken[]; isTaken: boolean }

/**
 * Two broken links have one cause when they concern the same two steps, or when one step of the first pair
 * and a step between its two make the second. Moving or swapping the first pair then mends both.
 * The pair that mends most stands for the others. Gives the causes in the order of the steps.
 */
export function groupByCause(broken: readonly Broken[]): readonly Cause[] {
  const pairs = new Map<string, Pair>()
  for (const link of broken) {
    const key = pairKey(link.early, link.late)
    const pair = pairs.get(key)
    if (pair === undefined) pairs.set(key, { early: link.early, late: link.late, links: [link], isTaken: false })
    else pair.links.push(link)
  }
  const latesOf = indexOthers([...pairs.values()].map(({ early, late }) => [early, late]))
  const earliesOf = indexOthers([...pairs.values()].map(({ early, late }) => [late, early]))
  const score = ({ early, late }: Pair): number =>
    countBetween(latesOf.get(early), early, late) + countBetween(earliesOf.get(late), early, late)
  const ranked = [...pairs.values()].map((pair) => ({ pair, score: score(pair) }))
  ranked.sort(
    (one, other) => other.score - one.score || one.pair.early - other.pair.early || one.pair.late - other.pair.late,
  )
  const causes: Cause[] = []
  for (const { pair } of ranked) {
    if (pair.isTaken) continue
    pair.isTaken = true
    const members = [...sortLinks(pair.links)]
    const absorb = (early: number, late: number): void => {
      const other = pairs.get(pairKey(early, late))
      if (other === undefined || other.isTaken) return
      other.isTaken = true
      members.push(...sortLinks(other.links))
    }
    for (const late of between(latesOf.get(pair.early), pair.early, pair.late)) absorb(pair.early, late)
    for (const early of between(earliesOf.get(pair.late), pair.early, pair.late)) absorb(early, pair.late)
    const [first, ...rest] = members
    if (first !== undefined) causes.push([first, ...rest])
  }
  return joinSameAct(causes).sort(([one], [other]) => one.early - other.early || one.late - other.late)
}

/** Causes within one step join one between two steps when moving one act, the same way, mends every link of both. */
function joinSameAct(causes: readonly Cause[]): Cause[] {
  const isWithin = ([{ early, late }]: Cause): boolean => early === late
  const within = causes.filter(isWithin)
  const between = causes.filter((cause) => !isWithin(cause))
  if (within.length === 0) return [...between]
  // The first cause between two steps that each move mends.
  const firstOf = new Map<string, number>()
  for (const [place, cause] of between.entries())
    for (const move of commonMoves(cause)) if (!firstOf.has(move)) firstOf.set(move, place)
  const joined = new Map<number, Broken[]>()
  const alone = within.filter((cause) => {
    const hosts = commonMoves(cause).flatMap((move) => firstOf.get(move) ?? [])
    if (hosts.length === 0) return true
    const host = Math.min(...hosts)
    joined.set(host, [...(joined.get(host) ?? []), ...cause])
    return false
  })
  return [...alone, ...between.map((cause, place): Cause => [...cause, ...(joined.get(place) ?? [])])]
}

/** Moves that mend every link of a cause. */
function commonMoves([first, ...rest]: Cause): readonly string[] {
  return movesToMend(first).filter((move) => rest.every((link) => movesToMend(link).includes(move)))
}

/** The acts of a link that could be moved, each with the way it would go. */
function movesToMend(link: Broken): readonly string[] {
  if (link.kind === "declared-later") return []
  const { kind, action, other } = link
  return kind === "needs-later" ? [`${action} later`, `${other} earlier`] : [`${other} later`, `${action} earlier`]
}

/** Names a pair of steps. */
export function pairKey(early: number, late: number): string {
  return `${early} ${late}`
}

/** What the acts need comes before what the maker declares; acts in their order. */
function sortLinks(links: readonly Broken[]): readonly Broken[] {
  const rank = (link: Broken): number => (link.kind === "declared-later" ? Number.MAX_SAFE_INTEGER : link.action)
  return [...links].sort((one, other) => rank(one) - rank(other))
}

function indexOthers(pairs: readonly (readonly [number, number])[]): ReadonlyMap<number, readonly number[]> {
  const index = new Map<number, number[]>()
  for (const [one, other] of pairs) {
    const known = index.get(one)
    if (known === undefined) index.set(one, [other])
    else known.push(other)
  }
  for (const others of index.values()) others.sort((one, other) => one - other)
  return index
}

function countBetween(sorted: readonly number[] | undefined, low: number, high: number): number {
  return sorted === undefined ? 0 : firstAbove(sorted, high - 1) - firstAbove(sorted, low)
}

function between(sorted: readonly number[] | undefined, low: number, high: number): readonly number[] {
  return sorted === undefined || high <= low ? [] : sorted.slice(firstAbove(sorted, low), firstAbove(sorted, high - 1))
}
