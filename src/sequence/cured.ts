/** Facts about what cures: which act lets it rest, what rests long enough, and what must have cured before a load. */
import type { Act } from "../kit/types.ts"
import { fact } from "./facts.ts"
import type { Lookup } from "./lookup.ts"
import { wholeFacts } from "./partial.ts"
import type { Rest } from "./rests.ts"
import type { FactKey, Need } from "./types.ts"

/** Facts of an act that waits. */
export function pauseFacts(
  lookup: Lookup,
  act: Act,
): { readonly needs: readonly Need[]; readonly gives: readonly FactKey[] } {
  const pause = lookup.rests.pauses.get(act)
  const isFor = [...(pause?.isFor ?? [])].flatMap((rest) => begunNeeds(lookup, rest.verb, rest.id))
  const named = lookup.rests.byId.has(act.target) ? [] : namedNeeds(lookup, act.target)
  if (pause === undefined) return { needs: named, gives: [] }
  const parts = [...pause.ends, ...pause.goesOn]
  return {
    needs: [
      ...isFor,
      ...named,
      ...parts
        .filter(({ isFirst }) => !isFirst)
        .map(({ rest, number }) => ({
          fact: partFact(rest, number - 1),
          why: `\`${rest.id}\` rests ${rest.minutes} min in all`,
        })),
    ],
    gives: [
      ...pause.ends.map(({ rest }) => fact("cured", rest.id)),
      ...pause.goesOn.map(({ rest, number }) => partFact(rest, number)),
    ],
  }
}

/** A pause may name a pad or joint that does not say how long it cures. */
function namedNeeds(lookup: Lookup, id: string): readonly Need[] {
  if (lookup.pads.has(id)) return begunNeeds(lookup, "stick", id)
  return lookup.joints.has(id) ? begunNeeds(lookup, "tighten", id) : []
}

function begunNeeds(lookup: Lookup, verb: Rest["verb"], id: string): readonly Need[] {
  const isPad = verb === "stick"
  const why = isPad ? `a pad rests only once it is stuck on` : `screws rest only once they are tight`
  return wholeFacts(lookup, verb, id, fact(isPad ? "stuck" : "tight", id)).map((key) => ({ fact: key, why }))
}

function partFact(rest: Rest, number: number): FactKey {
  return number === 1 ? fact("rested", rest.id) : `${fact("rested", rest.id)}#${number}`
}

/** Facts that an act ends which lets the thing begin to rest; none for what was done before the box is opened. */
export function restTakes(lookup: Lookup, act: Act): readonly FactKey[] {
  return lookup.rests.byId.has(act.target) && !lookup.kit.arrives.includes(act) ? [fact("cured", act.target)] : []
}

/** Facts of an act that undoes what rests: it need not go on. */
export function restEnds(lookup: Lookup, id: string): readonly FactKey[] {
  return lookup.rests.byId.has(id) ? [fact("cured", id)] : []
}

/** Needs of an act that loads, or uses, these things: that they have cured. `load` says what it does: "the tie presses on it". */
export function curedNeeds(lookup: Lookup, ids: readonly string[], load: string): readonly Need[] {
  return ids.flatMap((id) => {
    const rest = lookup.rests.byId.get(id)
    return rest === undefined
      ? []
      : [{ fact: fact("cured", id), why: `\`${id}\` rests ${rest.minutes} min first; ${load}` }]
  })
}
