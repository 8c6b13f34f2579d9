/** Puts the acts of the way back into an order in which every need is met when its act comes. */
import type { Verb } from "../../spec/types.ts"
import type { FactKey, Need } from "../types.ts"
import type { WayBack } from "./candidates.ts"

/** Acts in order, and needs that were not met where no order was found. */
export type Arranged = {
  readonly order: readonly WayBack[]
  readonly unmet: readonly { readonly need: Need; readonly by: WayBack }[]
}

/**
 * Mounting reversed, as far as the needs let it: of the acts that can be done now, the one that undoes the latest act of
 * mounting comes next; switching off comes first. An act waits while it would end a fact that an act to come needs (or a
 * goal) and no act to come gives again. Where nothing can go on, the rule of waiting is dropped, and then the need.
 */
export function arrangeActs(
  acts: readonly WayBack[],
  final: ReadonlySet<FactKey>,
  goals: ReadonlySet<FactKey>,
): Arranged {
  const queue = [...acts].sort((one, other) => urgency(other) - urgency(one) || other.rank - one.rank)
  const holds = new Set(final)
  const users = countFacts(queue, ({ needs }) => needs.map(({ fact }) => fact))
  const givers = countFacts(queue, ({ gives }) => gives)
  const order: WayBack[] = []
  const unmet: { need: Need; by: WayBack }[] = []
  const isMet = ({ facts }: WayBack): boolean => facts.needs.every(({ fact }) => holds.has(fact))
  const endsNothing = ({ facts }: WayBack): boolean => {
    const own = new Set(facts.needs.map(({ fact }) => fact))
    return facts.takes.every((key) => {
      if (!holds.has(key) || (givers.get(key) ?? 0) > 0) return true
      return !goals.has(key) && (users.get(key) ?? 0) <= (own.has(key) ? 1 : 0)
    })
  }
  while (queue.length > 0) {
    let at = queue.findIndex((act) => isMet(act) && endsNothing(act))
    if (at < 0) at = queue.findIndex(isMet)
    if (at < 0) at = 0
    const [next] = queue.splice(at, 1)
    if (next === undefined) break
    for (const need of next.facts.needs) {
      if (!holds.has(need.fact)) unmet.push({ need, by: next })
      users.set(need.fact, (users.get(need.fact) ?? 0) - 1)
    }
    for (const key of next.facts.gives) givers.set(key, (givers.get(key) ?? 0) - 1)
    for (const key of next.facts.takes) holds.delete(key)
    for (const key of next.facts.gives) holds.add(key)
    order.push(next)
  }
  return { order, unmet }
}

const urgencies: Readonly<Partial<Record<Verb, number>>> = { isolate: 3, wait: 2, verify: 1, restore: -1 }

function urgency({ act }: WayBack): number {
  return urgencies[act.verb] ?? 0
}

function countFacts(
  acts: readonly WayBack[],
  keysOf: (facts: WayBack["facts"]) => readonly FactKey[],
): Map<FactKey, number> {
  const counts = new Map<FactKey, number>()
  for (const { facts } of acts) for (const key of keysOf(facts)) counts.set(key, (counts.get(key) ?? 0) + 1)
  return counts
}

/** Simulates acts from the given facts: the needs that are not met, and what holds at the end. */
export function simulate(
  acts: readonly WayBack[],
  from: ReadonlySet<FactKey>,
): { readonly unmet: readonly Need[]; readonly holds: ReadonlySet<FactKey> } {
  const holds = new Set(from)
  const unmet: Need[] = []
  for (const { facts } of acts) {
    unmet.push(...facts.needs.filter(({ fact }) => !holds.has(fact)))
    for (const key of facts.takes) holds.delete(key)
    for (const key of facts.gives) holds.add(key)
  }
  return { unmet, holds }
}
