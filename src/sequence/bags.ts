/** Which bags lie open while a step is done. */
import type { Act } from "../kit/types.ts"
import { actsOn, type Lookup, movedInstances } from "./lookup.ts"

/**
 * Gives for each step the bags that are open while it is done, in the order of the kit: a bag is opened by the first
 * step that takes something from it, and is put away after the step that takes the last. What is put back after it was
 * taken off is not taken from the bag again; new ties, adhesive pads and locked screws are.
 */
export function findOpenBags(lookup: Lookup): readonly (readonly string[])[] {
  const { kit } = lookup
  const stepOf = new Map<Act, number>()
  for (const [index, { acts }] of kit.steps.entries()) for (const act of acts) stepOf.set(act, index)
  const spans = new Map<string, { first: number; last: number }>()
  for (const { bag, acts } of takings(lookup))
    for (const act of acts) {
      const step = stepOf.get(act)
      if (bag === undefined || step === undefined) continue
      const span = spans.get(bag)
      spans.set(bag, { first: Math.min(step, span?.first ?? step), last: Math.max(step, span?.last ?? step) })
    }
  const none: readonly string[] = []
  return kit.steps.map((_, index) => {
    const open = kit.bags.flatMap(({ id }) => {
      const span = spans.get(id)
      return span !== undefined && span.first <= index && index <= span.last ? [id] : []
    })
    return open.length === 0 ? none : open
  })
}

type Taking = { readonly bag: string | undefined; readonly acts: readonly Act[] }

/** Acts that take something out of a bag. */
function takings(lookup: Lookup): readonly Taking[] {
  const { kit } = lookup
  const order = new Map(lookup.allActs.map((act, index) => [act, index]))
  const inOrder = (acts: readonly Act[]): readonly Act[] =>
    [...acts].sort((one, other) => (order.get(one) ?? 0) - (order.get(other) ?? 0))
  return [
    ...kit.parts.map(({ id, bag, instances }) => ({
      bag,
      acts: firstOf(
        inOrder([...new Set([id, ...instances])].flatMap((piece) => actsOn(lookup, "place", piece))),
        instances.length,
        (act) => movedInstances(lookup, act).length,
      ),
    })),
    ...kit.joints.map(({ id, bag, count, surface }) => {
      const starts = actsOn(lookup, "start", id)
      return { bag, acts: surface === "thread-lock" ? starts : firstOf(starts, count, (act) => act.count ?? count) }
    }),
    ...kit.ties.map(({ id, bag }) => ({ bag, acts: [...actsOn(lookup, "place", id), ...actsOn(lookup, "strap", id)] })),
    ...kit.pads.map(({ id, bag, count, isAdhesive }) => {
      const acts = actsOn(lookup, "stick", id)
      return { bag, acts: isAdhesive ? acts : firstOf(acts, count, (act) => act.count ?? count) }
    }),
    ...kit.cables.map(({ bag, ends }) => {
      const acts = ends.flatMap(({ id }) => [...actsOn(lookup, "feed", id), ...actsOn(lookup, "connect", id)])
      return { bag, acts: inOrder(acts).slice(0, 1) }
    }),
  ]
}

/** The first acts, until they took `all` pieces. */
function firstOf(acts: readonly Act[], all: number, countOf: (act: Act) => number): readonly Act[] {
  let taken = 0
  return acts.filter((act) => {
    const isNew = taken < all
    taken += countOf(act)
    return isNew
  })
}
