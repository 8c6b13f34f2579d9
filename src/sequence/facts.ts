/**
 * The facts of the order proof: their keys and their words. Only positive facts; a negation is a fact of its own.
 * A key is a kind, a colon and what it is about (`on:saddle.1`, `thru:lead:hood-hole`); `#2` marks the second of several acts.
 */
import type { FactKey } from "./types.ts"

/** Words of one kind of fact. `true_` says that it holds, `missed` that it does not hold when the last step is done. */
type Kind = {
  readonly holds: (name: string, other: string) => string
  readonly missed: (name: string, other: string) => string
}

const kinds: Readonly<Record<string, Kind>> = {
  on: kind("{0} is in place", "{0} is not in place at the end"),
  some: kind("a piece of {0} is in place", "no piece of {0} is in place at the end"),
  off: kind("{0} is not in place", "{0} is still in place at the end"),
  open: kind("{0} is open", "{0} is not open at the end"),
  shut: kind("{0} is shut", "{0} is left open at the end"),
  clear: kind("{0} is open or off", "{0} is shut at the end"),
  held: kind("{0} is held or off", "{0} is held by nothing at the end"),
  started: kind("joint {0} is started", "joint {0} is not started at the end"),
  out: kind("the screws of {0} are out", "the screws of {0} are still in at the end"),
  tight: kind("joint {0} is tight", "joint {0} is started but not tight at the end"),
  loose: kind("joint {0} is not yet tight", "joint {0} is tight at the end"),
  aligned: kind("{0} is aligned", "{0} is not aligned at the end"),
  free: kind("end {0} is free", "end {0} is not free at the end"),
  connected: kind("end {0} is connected", "end {0} is not connected at the end"),
  empty: kind("socket {0} is empty", "socket {0} is taken at the end"),
  thru: kind("cable {0} runs through {1}", "cable {0} does not run through {1} at the end"),
  outside: kind("cable {0} is not through {1}", "cable {0} still runs through {1} at the end"),
  clamped: kind("gland {0} is tightened", "gland {0} is not tightened at the end"),
  unclamped: kind("gland {0} is loose", "gland {0} is tightened at the end"),
  tied: kind("tie {0} is closed", "tie {0} is not closed at the end"),
  untied: kind("tie {0} is not yet closed", "tie {0} is closed at the end"),
  trimmed: kind("tie {0} is trimmed", "tie {0} is not trimmed at the end"),
  clean: kind("{0} is clean", "{0} is not clean at the end"),
  cured: kind("{0} has cured", "{0} has not cured at the end"),
  discharged: kind("{0} is discharged", "{0} is not discharged at the end"),
  rested: kind("{0} has rested a part of its time", "{0} has not rested at the end"),
  "at-hand": kind("{0} is still there", "{0} is thrown away at the end"),
  stuck: kind("pad {0} is stuck on", "pad {0} is not stuck on at the end"),
  unstuck: kind("pad {0} is not yet stuck on", "pad {0} is stuck on at the end"),
  "power-on": kind("the power of {0} is on", "the power of {0} is still off at the end"),
  "power-off": kind("{0} is isolated", "{0} is not isolated at the end"),
  verified: kind("{0} is verified to be off", "{0} is not verified to be off at the end"),
  faces: kind("{0} faces {1}", "{0} does not face {1} at the end"),
  kept: kind("{0} is set aside", "{0} is not set aside at the end"),
  discarded: kind("{0} is discarded", "{0} is not discarded at the end"),
  inspected: kind("{0} is inspected", "{0} is not inspected at the end"),
}

function kind(holds: string, missed: string): Kind {
  const fill = (template: string) => (name: string, other: string) =>
    template.replace("{0}", `\`${name}\``).replace("{1}", `\`${other}\``)
  return { holds: fill(holds), missed: fill(missed) }
}

/** Builds the key of a fact about one thing, or about two. */
export function fact(kindOfFact: keyof typeof kinds, name: string, other?: string): FactKey {
  return other === undefined ? `${kindOfFact}:${name}` : `${kindOfFact}:${name}:${other}`
}

/** True when `describeFact` has words for the kind of a fact; plans from elsewhere may have facts of their own. */
export function hasWords(key: FactKey): boolean {
  return Object.hasOwn(kinds, key.split(":")[0] ?? "")
}

/** Says that a fact holds, as a clause with names: "`plate` is in place". */
export function describeFact(key: FactKey): string {
  const { words, name, other } = readKey(key)
  return words.holds(name, other)
}

/** Says that a fact does not hold when all is done: "joint `foot` is started but not tight at the end". */
export function describeMissed(key: FactKey): string {
  const { words, name, other } = readKey(key)
  return words.missed(name, other)
}

/** What a fact is about: the id after the colon, without the mark of a part (`#2`). */
export function subjectOf(key: FactKey): string {
  return readKey(key).name
}

function readKey(key: FactKey): { readonly words: Kind; readonly name: string; readonly other: string } {
  const [prefix = "", name = "", other = ""] = (key.split("#")[0] ?? key).split(":")
  const words = kinds[prefix]
  // A fact of no known kind comes from our own code only.
  if (words === undefined) throw new Error(`fact ${key} has no words`)
  return { words, name, other }
}

/** The act that gives a fact, as it is written in a step: `tighten: foot`; undefined when no act does. */
export function actThatGives(key: FactKey): string | undefined {
  const { name, other } = readKey(key)
  const verb = givingVerbs[key.split(":")[0] ?? ""]
  if (verb === undefined) return undefined
  return other === "" ? `${verb}: ${name}` : `${verb}: ${name} ${beforeOther[verb] ?? "through"} ${other}`
}

const beforeOther: Readonly<Record<string, string>> = { turn: "to", withdraw: "from" }

const givingVerbs: Readonly<Record<string, string>> = {
  on: "place",
  some: "place",
  off: "remove",
  open: "open",
  clear: "open",
  shut: "close",
  started: "start",
  out: "unscrew",
  tight: "tighten",
  aligned: "align",
  free: "disconnect",
  connected: "connect",
  thru: "feed",
  outside: "withdraw",
  clamped: "close",
  unclamped: "open",
  tied: "strap",
  stuck: "stick",
  clean: "clean",
  "power-on": "restore",
  "power-off": "isolate",
  verified: "verify",
  faces: "turn",
}
