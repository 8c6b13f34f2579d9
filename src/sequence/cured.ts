/** Facts about what rests: which act lets it begin, what has rested long enough, and what asks for that. */
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
  const isFor = (pause?.isFor ?? []).flatMap((rest) => begunNeeds(lookup, rest.verb, rest.id))
  // A pause may name a pad or joint that does not say how long it cures.
  const isNamed = pause === undefined || pause.isFor.every(({ id }) => id !== act.target)
  const named = isNamed ? namedNeeds(lookup, act.target) : []
  const parts = pause === undefined ? [] : [...pause.ends, ...pause.goesOn]
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
      ...(pause?.ends ?? []).map(({ rest }) => fact(rest.verb === "isolate" ? "discharged" : "cured", rest.id)),
      ...(pause?.goesOn ?? []).map(({ rest, number }) => partFact(rest, number)),
    ],
  }
}

function namedNeeds(lookup: Lookup, id: string): readonly Need[] {
  if (lookup.pads.has(id)) return begunNeeds(lookup, "stick", id)
  return lookup.joints.has(id) ? begunNeeds(lookup, "tighten", id) : []
}

const beginnings = {
  stick: { fact: "stuck", why: "a pad rests only once it is stuck on" },
  tighten: { fact: "tight", why: "screws rest only once they are tight" },
  isolate: { fact: "power-off", why: "a unit discharges only once it is isolated" },
} as const

function begunNeeds(lookup: Lookup, verb: Rest["verb"], id: string): readonly Need[] {
  const { fact: kind, why } = beginnings[verb]
  return wholeFacts(lookup, verb, id, fact(kind, id)).map((key) => ({ fact: key, why }))
}

function partFact(rest: Rest, number: number): FactKey {
  return number === 1 ? fact("rested", rest.id) : `${fact("rested", rest.id)}#${number}`
}

/** Facts that an act ends which lets a thing begin to cure; none for what was done before the box is opened. */
export function restTakes(lookup: Lookup, verb: "stick" | "tighten", act: Act): readonly FactKey[] {
  return lookup.rests.byKey.has(`${verb} ${act.target}`) && !lookup.kit.arrives.includes(act)
    ? [fact("cured", act.target)]
    : []
}

/** Facts of an act that undoes what cures: it need not go on. */
export function restEnds(lookup: Lookup, verb: "stick" | "tighten", id: string): readonly FactKey[] {
  return lookup.rests.byKey.has(`${verb} ${id}`) ? [fact("cured", id)] : []
}

/** Needs of an act that loads these pads: that they have cured. `load` says what it does: "the tie presses on it". */
export function curedNeeds(lookup: Lookup, pads: readonly string[], load: string): readonly Need[] {
  return pads.flatMap((id) => {
    const rest = lookup.rests.byKey.get(`stick ${id}`)
    return rest === undefined
      ? []
      : [{ fact: fact("cured", id), why: `\`${id}\` rests ${rest.minutes} min first; ${load}` }]
  })
}

/** Needs of work on a unit that holds its charge for a while after it is isolated (29 CFR 1910.147(d)(5)). */
export function dischargedNeeds(lookup: Lookup, unit: string): readonly Need[] {
  const rest = lookup.rests.byKey.get(`isolate ${unit}`)
  return rest === undefined
    ? []
    : [{ fact: fact("discharged", unit), why: `\`${unit}\` holds its charge for ${rest.minutes} min` }]
}

/** Facts that power on, or a new isolation, ends. */
export function chargedTakes(lookup: Lookup, unit: string): readonly FactKey[] {
  return lookup.rests.byKey.has(`isolate ${unit}`) ? [fact("discharged", unit)] : []
}
