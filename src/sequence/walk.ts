/** Walks all acts in the order of the steps: what is true at each, who gave it, and which needs are not met. */
import type { Facts } from "./actions/types.ts"
import type { FactKey, Need } from "./types.ts"

/** A met need: `supplier` is the index of the act that made the fact true, -1 for the arrival. */
export type Use = { readonly action: number; readonly need: Need; readonly supplier: number }

/** An unmet need, with the nearest act before that took the fact away and the next few after that give it. */
export type Miss = {
  readonly action: number
  readonly need: Need
  readonly taker: number | undefined
  readonly givers: readonly number[]
}

export type Walk = {
  readonly uses: readonly Use[]
  readonly misses: readonly Miss[]
  /** Indexes of the acts that give and take each fact, ascending. */
  readonly givers: ReadonlyMap<FactKey, readonly number[]>
  readonly takers: ReadonlyMap<FactKey, readonly number[]>
  /** Facts true at the end, and the last act that ended each fact that is not. */
  readonly final: ReadonlySet<FactKey>
  readonly lastTaker: ReadonlyMap<FactKey, number>
}

/** So many later givers are looked at; kits switch a fact on and off a few times. */
const mostGivers = 8

/** Simulates the acts. An unmet need is noted and the walk goes on. Linear in the number of facts of all acts. */
export function walkActions(initial: readonly FactKey[], actions: readonly Facts[]): Walk {
  const givers = indexFacts(actions, ({ gives }) => gives)
  const takers = indexFacts(actions, ({ takes }) => takes)
  const holds = new Set(initial)
  const lastGiver = new Map<FactKey, number>()
  const lastTaker = new Map<FactKey, number>()
  const passed = new Map<FactKey, number>()
  const uses: Use[] = []
  const misses: Miss[] = []
  actions.forEach(({ needs, gives, takes }, action) => {
    for (const need of needs) {
      if (holds.has(need.fact)) {
        uses.push({ action, need, supplier: lastGiver.get(need.fact) ?? -1 })
        continue
      }
      const from = passed.get(need.fact) ?? 0
      const later = (givers.get(need.fact) ?? []).slice(from, from + mostGivers)
      // An act does not supply itself.
      misses.push({ action, need, taker: lastTaker.get(need.fact), givers: later.filter((giver) => giver !== action) })
    }
    for (const key of takes) if (holds.delete(key)) lastTaker.set(key, action)
    for (const key of gives) {
      if (!holds.has(key)) lastGiver.set(key, action)
      holds.add(key)
      passed.set(key, (passed.get(key) ?? 0) + 1)
    }
  })
  return { uses, misses, givers, takers, final: holds, lastTaker }
}

function indexFacts(
  actions: readonly Facts[],
  factsOf: (action: Facts) => readonly FactKey[],
): ReadonlyMap<FactKey, readonly number[]> {
  const index = new Map<FactKey, number[]>()
  actions.forEach((action, position) => {
    for (const key of new Set(factsOf(action))) {
      const known = index.get(key)
      if (known === undefined) index.set(key, [position])
      else known.push(position)
    }
  })
  return index
}
