/** Which end of a cable can be taken in hand at a moment, and what took the others: for the advice of findings. */
import type { Fit } from "../fit/types.ts"
import type { Act, Kit } from "../kit/types.ts"
import { factsOf } from "./actions/build.ts"
import { fact } from "./facts.ts"
import { buildLookup } from "./lookup.ts"
import { firstAbove } from "./sorted.ts"
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

/** Tells about the ends of the cable of an act; undefined when its target is no end of a cable. */
export type ChooseEnd = (act: Act) => EndChoice | undefined

/**
 * Prepares what is told about a `feed` or `withdraw`: the ends as they are just before that act; for an act that no step has
 * (one that the maker could add) as they are at the end. Nothing is computed before the first question.
 */
export function prepareEndChoice(kit: Kit, fit: Fit, sequence: Sequence): ChooseEnd {
  let prepared: ChooseEnd | undefined
  return (act) => {
    prepared ??= indexEnds(kit, fit, sequence)
    return prepared(act)
  }
}

function indexEnds(kit: Kit, fit: Fit, { initial, actions }: Sequence): ChooseEnd {
  const lookup = buildLookup(kit, fit)
  // Acts that a step repeats share their path.
  const positions = new Map(actions.map(({ act }, index) => [act, index]))
  const firstByPath = new Map(actions.toReversed().map(({ act }) => [act.path, positions.get(act)]))
  const changes = indexChanges(actions)
  const atFirst = new Set(initial)
  const lastChange = (key: FactKey, before: number): Change | undefined => {
    const { indexes = [], list = [] } = changes.get(key) ?? {}
    return list[firstAbove(indexes, before - 1) - 1]
  }
  const holds = (key: FactKey, before: number): boolean => lastChange(key, before)?.isGiven ?? atFirst.has(key)
  return (act) => {
    const cable = lookup.cableByEnd.get(act.target)
    if (cable === undefined) return undefined
    const before = positions.get(act) ?? firstByPath.get(act.path) ?? actions.length
    return {
      cable: cable.id,
      captured: cable.ends.flatMap(({ id, arrival }): readonly CapturedEnd[] => {
        if (holds(fact("free", id), before)) return []
        const taker = lastChange(fact("free", id), before)?.by
        const by = taker === undefined ? undefined : { step: taker.step, act: taker.act }
        return [{ end: id, isFixed: arrival.state === "fixed", by }]
      }),
      instead: cable.ends
        .map(({ id }) => id)
        .filter((id) => id !== act.target)
        .filter((id) => factsOf(lookup, { ...act, target: id }).needs.every((need) => holds(need.fact, before))),
    }
  }
}

type Change = { readonly by: Action; readonly isGiven: boolean }
type Changes = { readonly indexes: number[]; readonly list: Change[] }

/** When each fact is given or taken, ascending; what an act both takes and gives it gives. */
function indexChanges(actions: readonly Action[]): ReadonlyMap<FactKey, Changes> {
  const changes = new Map<FactKey, Changes>()
  const add = (key: FactKey, index: number, change: Change): void => {
    const known = changes.get(key) ?? { indexes: [], list: [] }
    known.indexes.push(index)
    known.list.push(change)
    changes.set(key, known)
  }
  for (const [index, by] of actions.entries()) {
    for (const key of by.takes) add(key, index, { by, isGiven: false })
    for (const key of by.gives) add(key, index, { by, isGiven: true })
  }
  return changes
}
