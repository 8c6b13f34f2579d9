/**
 * Acts that were written but could not be read or resolved. They are told already, so what only their absence causes
 * is not told again: a joint that `start: fot` would have started. One such act explains one fault.
 */
import type { Kit } from "../kit/types.ts"
import type { Verb } from "../spec/types.ts"
import type { FactKey } from "./types.ts"

export type LeftOut = { readonly path: string; readonly verb: Verb }

/** Finds acts that have a place in the spec and are not in the kit; those on things that were left out, too, do not count. */
export function findLeftOut(kit: Kit): readonly LeftOut[] {
  const keys = Object.keys(kit.places)
  const known = new Set([...kit.arrives, ...kit.steps.flatMap(({ acts }) => acts)].map(({ path }) => path))
  const missing = keys.flatMap((key): readonly LeftOut[] => {
    const match = /^((?:steps\/[^/]+\/do|arrives)\/\d+)\/([a-z-]+)$/.exec(key)
    const [, path = "", verb = ""] = match ?? []
    return match !== null && !known.has(path) && isVerb(verb) ? [{ path, verb }] : []
  })
  if (missing.length === 0) return []
  // What has a place in the spec, by collection.
  const written = new Map<string, string[]>()
  for (const key of keys) {
    const [collection = "", id = "", ...deeper] = key.split("/")
    if (id === "" || deeper.length > 0) continue
    const ids = written.get(collection)
    if (ids === undefined) written.set(collection, [id])
    else ids.push(id)
  }
  const lost = new Map<Verb, number>()
  for (const [collection, verbs, things] of [
    ["parts", ["place", "remove"], kit.parts],
    ["joints", ["start", "tighten", "unscrew"], kit.joints],
    ["ties", ["strap", "trim"], kit.ties],
    ["pads", ["stick"], kit.pads],
    ["cables", ["feed", "connect", "disconnect"], kit.cables],
  ] as const) {
    const ids = new Set(things.map(({ id }) => id))
    const count = (written.get(collection) ?? []).filter((id) => !ids.has(id)).length
    for (const verb of verbs) lost.set(verb, count)
  }
  return missing.filter(({ verb }) => {
    const left = lost.get(verb) ?? 0
    lost.set(verb, left - 1)
    return left <= 0
  })
}

function isVerb(word: string): word is Verb {
  return Object.hasOwn(factsOf, word)
}

/** True when an act of this verb could have made the fact true. */
export function couldGive(verb: Verb, fact: FactKey): boolean {
  return factsOf[verb].includes(fact.split(":")[0] ?? "")
}

/** Kinds of facts that each verb gives. */
const factsOf: Readonly<Record<Verb, readonly string[]>> = {
  place: ["on", "some", "stuck", "open", "clear", "shut"],
  remove: ["off", "held", "clear", "untied", "unstuck"],
  align: ["aligned"],
  start: ["started"],
  tighten: ["tight", "held"],
  unscrew: ["out", "loose"],
  feed: ["thru"],
  withdraw: ["outside"],
  connect: ["connected"],
  disconnect: ["free", "empty"],
  strap: ["tied", "held"],
  trim: ["trimmed"],
  clean: ["clean"],
  stick: ["stuck"],
  open: ["open", "clear", "unclamped"],
  close: ["shut", "clamped"],
  turn: ["faces"],
  isolate: ["power-off"],
  verify: ["verified"],
  restore: ["power-on"],
  inspect: ["inspected"],
  "set-aside": ["kept"],
  discard: ["discarded"],
  wait: ["cured", "rested", "discharged"],
}
