/** Which end of a cable can be taken in hand at a moment, and what took the others: for the advice of findings. */
import type { Fit } from "../fit/types.ts"
import type { Act, Kit } from "../kit/types.ts"
import { factsOf } from "./actions/build.ts"
import { fact } from "./facts.ts"
import { buildLookup } from "./lookup.ts"
import type { Action, FactKey, Sequence } from "./types.ts"

/** The ends of one cable just before an act. */
export type EndChoice = {
  readonly cable: string
  /** Ends that are not free, in the order of the cable. */
  readonly captured: readonly CapturedEnd[]
  /** Other ends with which the same act can be done at that moment, sizes apart. */
  readonly instead: readonly string[]
}

/** `by` is the act that took the end; undefined for one that is fixed, or connected since its arrival. */
export type CapturedEnd = {
  readonly end: string
  readonly isFixed: boolean
  readonly by: { readonly step: string; readonly act: Act } | undefined
}

/**
 * Follows the ends of the cable of a `feed` or `withdraw` up to that act; for an act that no step has (one that the maker
 * could add) up to the end. Undefined when its target is no end of a cable.
 */
export function findEndChoice(kit: Kit, fit: Fit, sequence: Sequence, act: Act): EndChoice | undefined {
  const lookup = buildLookup(kit, fit)
  const cable = lookup.cableByEnd.get(act.target)
  if (cable === undefined) return undefined
  const { holds, takers } = followUpTo(sequence, act)
  return {
    cable: cable.id,
    captured: cable.ends.flatMap(({ id, arrival }): readonly CapturedEnd[] => {
      if (holds.has(fact("free", id))) return []
      const taker = takers.get(fact("free", id))
      const by = taker === undefined ? undefined : { step: taker.step, act: taker.act }
      return [{ end: id, isFixed: arrival.state === "fixed", by }]
    }),
    instead: cable.ends
      .map(({ id }) => id)
      .filter(
        (id) => id !== act.target && factsOf(lookup, { ...act, target: id }).needs.every((one) => holds.has(one.fact)),
      ),
  }
}

/** The facts that hold just before an act, and the acts that ended others. */
function followUpTo(
  { initial, actions }: Sequence,
  act: Act,
): { readonly holds: ReadonlySet<FactKey>; readonly takers: ReadonlyMap<FactKey, Action> } {
  const holds = new Set(initial)
  const takers = new Map<FactKey, Action>()
  for (const action of actions) {
    if (action.act.path === act.path) break
    for (const key of action.takes) if (holds.delete(key)) takers.set(key, action)
    for (const key of action.gives) holds.add(key)
  }
  return { holds, takers }
}
