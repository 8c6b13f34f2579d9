/** Puts the acts of the way back into an order in which every need is met when its act comes. */
import type { Verb } from "../../spec/types.ts"
import { clearBit, countWords, firstBit, setBit } from "../repair/bits.ts"
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
  const needing = indexFacts(queue, needsOf)
  const ending = indexFacts(queue, ({ takes }) => takes)
  const users = countFacts(queue, needsOf)
  const givers = countFacts(queue, ({ gives }) => gives)
  const missing = queue.map(({ facts }) => facts.needs.filter(({ fact }) => !holds.has(fact)).length)
  const own = queue.map(({ facts }) => new Set(needsOf(facts)))
  const endsNothing = (at: number): boolean =>
    (queue[at]?.facts.takes ?? []).every((key) => {
      if (!holds.has(key) || (givers.get(key) ?? 0) > 0) return true
      return !goals.has(key) && (users.get(key) ?? 0) <= (own[at]?.has(key) === true ? 1 : 0)
    })
  // Places in the queue of the acts to come: all, those whose needs are met, and those of them that end nothing.
  const words = countWords(queue.length)
  const [waiting, met, harmless] = [new Uint32Array(words), new Uint32Array(words), new Uint32Array(words)]
  const isDone = new Uint8Array(queue.length)
  const review = (at: number): void => {
    const isMet = missing[at] === 0
    if (isMet) setBit(met, 0, at)
    else clearBit(met, 0, at)
    if (isMet && endsNothing(at)) setBit(harmless, 0, at)
    else clearBit(harmless, 0, at)
  }
  for (const at of queue.keys()) {
    setBit(waiting, 0, at)
    review(at)
  }
  const touched = new Set<number>()
  const change = (key: FactKey, isTrue: boolean): void => {
    if (holds.has(key) === isTrue) return
    if (isTrue) holds.add(key)
    else holds.delete(key)
    for (const at of needing.get(key) ?? []) {
      missing[at] = (missing[at] ?? 0) + (isTrue ? -1 : 1)
      touched.add(at)
    }
  }
  const order: WayBack[] = []
  const unmet: { need: Need; by: WayBack }[] = []
  for (let done = 0; done < queue.length; done += 1) {
    const at = [harmless, met, waiting].map((row) => firstBit(row)).find((place) => place >= 0) ?? 0
    const next = queue[at]
    if (next === undefined) break
    isDone[at] = 1
    for (const row of [harmless, met, waiting]) clearBit(row, 0, at)
    const { needs, gives, takes } = next.facts
    for (const need of needs) {
      if (!holds.has(need.fact)) unmet.push({ need, by: next })
      users.set(need.fact, (users.get(need.fact) ?? 0) - 1)
    }
    for (const key of gives) givers.set(key, (givers.get(key) ?? 0) - 1)
    for (const key of takes) change(key, false)
    for (const key of gives) change(key, true)
    order.push(next)
    for (const key of [...needsOf(next.facts), ...gives, ...takes])
      for (const other of ending.get(key) ?? []) touched.add(other)
    for (const other of touched) if (isDone[other] === 0) review(other)
    touched.clear()
  }
  return { order, unmet }
}

function needsOf({ needs }: WayBack["facts"]): readonly FactKey[] {
  return needs.map(({ fact }) => fact)
}

/** Places of the acts that each fact is in. */
function indexFacts(
  acts: readonly WayBack[],
  keysOf: (facts: WayBack["facts"]) => readonly FactKey[],
): ReadonlyMap<FactKey, readonly number[]> {
  const index = new Map<FactKey, number[]>()
  for (const [at, { facts }] of acts.entries())
    for (const key of keysOf(facts)) {
      const known = index.get(key)
      if (known === undefined) index.set(key, [at])
      else known.push(at)
    }
  return index
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
