/** How far each step of a plan can move while all others keep their order, and what stops it. */
import type { Plan, PlanNeed } from "../plan-types.ts"
import { firstAbove } from "../sorted.ts"
import type { FactKey, Need } from "../types.ts"
import type { Walk } from "../walk.ts"
import type { PlanLink } from "./plan-links.ts"

export type Freedom = {
  readonly earliest: number
  readonly latest: number
  readonly before: PlanLink | undefined
  readonly after: PlanLink | undefined
}

/** Places, both ends included, that a step cannot take. `above` keeps it from moving there from behind, `below` from before. */
type Barred = {
  readonly low: number
  readonly high: number
  readonly above: PlanLink | undefined
  readonly below: PlanLink | undefined
}

/** Steps that give or take a fact, and those that need it and have it now; the end is one more step that needs its goals. */
type Timeline = {
  readonly changers: readonly number[]
  readonly gives: readonly boolean[]
  readonly users: readonly number[]
  readonly holds: boolean
}

/**
 * Gives for each step the first and the last place that breaks nothing that is met now: no need, no goal, no declared
 * order. Places between the two may still be barred where a fact comes and goes. What is broken now does not count, so
 * that the present place is always one of them.
 * A step bars places through each fact it touches: where what it needs does not hold, where what it takes is still
 * needed before a later step gives it again, and where what it gives comes too late or is taken before its use. Facts it
 * does not touch are the same wherever it stands, so nothing else can break.
 */
export function findFreedom(plan: Plan, walk: Walk): readonly Freedom[] {
  const count = plan.steps.length
  const timelines = buildTimelines(plan, walk)
  const needAt = indexNeeds(plan)
  const met = new Set(walk.uses.map(({ action, need }) => `${action} ${need.fact}`))
  const declaredOf = indexDeclared(plan)
  return plan.steps.map((step, index) => {
    const barred: Barred[] = []
    for (const need of step.needs) {
      const timeline = timelines.get(need.fact)
      if (timeline !== undefined && met.has(`${index} ${need.fact}`))
        barred.push(...barNeed(timeline, index, count, need))
    }
    const given = new Set(step.gives)
    for (const fact of given) {
      const timeline = timelines.get(fact)
      if (timeline !== undefined) barred.push(...barGiven(timeline, index, count, (user) => needAt(user, fact)))
    }
    for (const fact of new Set(step.takes)) {
      const timeline = given.has(fact) ? undefined : timelines.get(fact)
      if (timeline !== undefined) barred.push(...barTaken(timeline, index, count, (user) => needAt(user, fact)))
    }
    for (const link of declaredOf(index)) {
      const isBefore = link.to === index
      const low = isBefore ? 0 : baseOf(link.to, index) + 1
      const high = isBefore ? baseOf(link.from, index) : count - 1
      barred.push({ low, high, above: isBefore ? link : undefined, below: isBefore ? undefined : link })
    }
    return findEnds(barred, count)
  })
}

/** The place of another step in the list without this one; this one stands behind it from the next place on. */
function baseOf(other: number, self: number): number {
  return other < self ? other : other - 1
}

/** The first and the last place that no range holds, and what bars the places next to them. */
function findEnds(barred: readonly Barred[], count: number): Freedom {
  let earliest = 0
  let before: PlanLink | undefined
  for (const { low, high, above } of [...barred].sort((one, other) => one.low - other.low)) {
    if (low > earliest) break
    if (high < earliest) {
      // Ends at the same place as one before: the better of two reasons is told.
      if (high === earliest - 1) before = better(before, above)
      continue
    }
    earliest = high + 1
    before = above
  }
  let latest = count - 1
  let after: PlanLink | undefined
  for (const { low, high, below } of [...barred].sort((one, other) => other.high - one.high)) {
    if (high < latest) break
    if (low > latest) {
      if (low === latest + 1) after = better(after, below)
      continue
    }
    latest = low - 1
    after = below
  }
  return { earliest, latest, before, after }
}

function better(one: PlanLink | undefined, other: PlanLink | undefined): PlanLink | undefined {
  const rank = { gives: 0, "takes-away": 1, declared: 2, again: 3 } as const
  if (one === undefined || other === undefined) return one ?? other
  return rank[other.kind] < rank[one.kind] ? other : one
}

/** Ranges where the fact does not hold without the step. */
function barNeed({ changers, gives, holds }: Timeline, self: number, count: number, need: PlanNeed): readonly Barred[] {
  const barred: Barred[] = []
  let isHeld = holds
  let taker: number | undefined
  let low = 0
  const bar = (giver: number | undefined): void => {
    const high = giver === undefined ? count - 1 : baseOf(giver, self)
    barred.push({
      low,
      high,
      above: giver === undefined ? undefined : { from: giver, to: self, kind: "gives", need },
      below: taker === undefined ? undefined : { from: self, to: taker, kind: "takes-away", need },
    })
  }
  for (const [index, changer] of changers.entries()) {
    if (changer === self) continue
    const isGiver = gives[index] ?? false
    if (isGiver && !isHeld) bar(changer)
    if (!isGiver && isHeld) {
      taker = changer
      low = baseOf(changer, self) + 1
    }
    isHeld = isGiver
  }
  if (!isHeld) bar(undefined)
  return barred
}

/** Where the step gives the fact too early, before it is taken, or too late for the first that uses it. */
function barGiven(
  { changers, gives, users, holds }: Timeline,
  self: number,
  count: number,
  needAt: (user: number) => Need,
): readonly Barred[] {
  const own = firstAbove(changers, self - 1)
  const isHeldWithout = own === 0 ? holds : (gives[own - 1] ?? false)
  if (isHeldWithout) return []
  const previous = own === 0 ? undefined : changers[own - 1]
  const next = changers[own + 1] ?? count
  const user = users[firstAbove(users, self)]
  if (user === undefined || user > next) return []
  const need = needAt(user)
  const isEnd = user === count
  const barred: Barred[] = []
  if (previous !== undefined) {
    const above: PlanLink = { from: previous, to: self, kind: "again", need, user: isEnd ? undefined : user }
    barred.push({ low: 0, high: baseOf(previous, self), above, below: undefined })
  }
  if (!isEnd) {
    const below: PlanLink = { from: self, to: user, kind: "gives", need: { act: "", ...need } }
    barred.push({ low: baseOf(user, self) + 1, high: count - 1, above: undefined, below })
  }
  return barred
}

/** Where the fact is needed afterwards and no step gives it again in between. */
function barTaken(
  { changers, gives, users, holds }: Timeline,
  self: number,
  count: number,
  needAt: (user: number) => Need,
): readonly Barred[] {
  const barred: Barred[] = []
  const others = changers.flatMap((changer, index) =>
    changer === self ? [] : [{ changer, isGiver: gives[index] ?? false }],
  )
  let start: number | undefined
  let isHeld = holds
  const bar = (end: number): void => {
    if (!isHeld) return
    let last = firstAbove(users, end) - 1
    if (users[last] === self) last -= 1
    const user = users[last]
    if (user === undefined || user <= (start ?? -1)) return
    const need = needAt(user)
    const isEnd = user === count
    barred.push({
      low: start === undefined ? 0 : baseOf(start, self) + 1,
      high: isEnd ? count - 1 : baseOf(user, self),
      above: isEnd ? undefined : { from: user, to: self, kind: "takes-away", need: { act: "", ...need } },
      below:
        start === undefined
          ? undefined
          : { from: self, to: start, kind: "again", need, user: isEnd ? undefined : user },
    })
  }
  for (const { changer, isGiver } of others) {
    bar(changer)
    start = changer
    isHeld = isGiver
  }
  bar(count)
  return barred
}

function buildTimelines(plan: Plan, walk: Walk): ReadonlyMap<FactKey, Timeline> {
  const initial = new Set(plan.initial)
  const users = new Map<FactKey, number[]>()
  for (const { action, need } of walk.uses) {
    const known = users.get(need.fact)
    if (known === undefined) users.set(need.fact, [action])
    else if (known.at(-1) !== action) known.push(action)
  }
  const timelines = new Map<FactKey, Timeline>()
  for (const [fact, list] of users) {
    const givers = walk.givers.get(fact) ?? []
    const isGiver = new Set(givers)
    const changers = [...new Set([...givers, ...(walk.takers.get(fact) ?? [])])].sort((one, other) => one - other)
    const gives = changers.map((changer) => isGiver.has(changer))
    timelines.set(fact, { changers, gives, users: list, holds: initial.has(fact) })
  }
  return timelines
}

/** Gives a function that finds the need of a step for a fact; the step behind the last has the goals. */
function indexNeeds(plan: Plan): (step: number, fact: FactKey) => Need & { readonly act?: string } {
  const goals = new Map(plan.goals.map((goal) => [goal.fact, goal]))
  const maps = plan.steps.map(({ needs }) => new Map(needs.map((need) => [need.fact, need])))
  return (step, fact) => maps[step]?.get(fact) ?? goals.get(fact) ?? { fact, why: "" }
}

/** Gives a function that finds the declared orders of a step that the present order keeps. */
function indexDeclared(plan: Plan): (step: number) => readonly PlanLink[] {
  const links: PlanLink[][] = plan.steps.map(() => [])
  for (const { before, after, why } of plan.declared) {
    if (before >= after) continue
    const link: PlanLink = { from: before, to: after, kind: "declared", why }
    links[before]?.push(link)
    links[after]?.push(link)
  }
  return (step) => links[step] ?? []
}
