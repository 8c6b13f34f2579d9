/** Judges whether each turn of the work is needed. */
import { placeAt } from "../findings/places.ts"
import type { Report } from "../findings/types.ts"
import type { Action, FactKey } from "../sequence/types.ts"
import { isOrderSound } from "./order-freedom.ts"
import type { Subject } from "./types.ts"
import { defineRule } from "./types.ts"

/** Acts that can be done with any face up. */
const anyFace = new Set(["turn", "isolate", "verify", "restore", "wait", "set-aside", "discard"])

/** A turn to a named side, as its place among all acts. */
type Turn = { readonly action: Action; readonly index: number; readonly to: string }

/**
 * Finds turns that could be saved: to a side that is up already, on to another side before anything was done, and back to a
 * side whose work could all be done before the first turn.
 */
export const needlessTurnOver = defineRule({
  id: "needless-turn-over",
  severity: "note",
  source:
    "practice: each turn costs time and can drop what lies loose; few changes of view are easier to follow (Agrawala et al. 2003)",
  check: (subject) => {
    const { sequence, kit } = subject
    if (!isOrderSound({ kit, sequence })) return []
    const targets = new Map<string, Turn[]>()
    for (const [index, action] of sequence.actions.entries()) {
      const { verb, act } = action
      if (verb !== "turn" || act.to === undefined) continue
      const turns = targets.get(act.target) ?? []
      targets.set(act.target, [...turns, { action, index, to: act.to }])
    }
    return [...targets.values()].flatMap((turns) =>
      turns.flatMap((turn, position): readonly Report[] => {
        const before = turns[position - 1]
        const next = turns[position + 1]
        const where = placeAt(kit.places, turn.action.act.path)
        const name = turn.action.act.target === "all" ? "everything" : `\`${turn.action.act.target}\``
        const subjects = [turn.action.step]
        if (before?.to === turn.to) {
          return [
            {
              message: `step \`${turn.action.step}\` turns ${name} to \`${turn.to}\`, where it lies already`,
              where,
              why: `Step \`${before.action.step}\` turned it there.`,
              fix: "Remove the turn.",
              related: [{ message: "turned here", where: placeAt(kit.places, before.action.act.path) }],
              subjects,
            },
          ]
        }
        if (next !== undefined && isIdle(subject, turn.index, next.index)) {
          return [
            {
              message: `step \`${turn.action.step}\` turns ${name} to \`${turn.to}\`, and nothing is done there`,
              where,
              why: `Step \`${next.action.step}\` turns it on to \`${next.to}\` before any act needs this side.`,
              fix: `Remove the turn, or move the work of this side to where it is up.`,
              related: [{ message: "turned on here", where: placeAt(kit.places, next.action.act.path) }],
              subjects,
            },
          ]
        }
        const first = turns[position - 2]
        if (before === undefined || first?.to !== turn.to) return []
        const end = next?.index ?? sequence.actions.length
        if (!couldComeBefore(subject, before.index, turn.index, end)) return []
        return [
          {
            message: `step \`${turn.action.step}\` turns ${name} back to \`${turn.to}\`; this turn could be saved`,
            where,
            why: `What is done there afterwards needs nothing of what is done while \`${before.to}\` is up.`,
            fix: `Move it before step \`${before.action.step}\` turns ${name} to \`${before.to}\`.`,
            related: [{ message: "turned away here", where: placeAt(kit.places, before.action.act.path) }],
            subjects: [turn.action.step, before.action.step],
          },
        ]
      }),
    )
  },
})

/** Nothing between two acts, by index, needs a certain side up. */
function isIdle({ sequence }: Subject, from: number, to: number): boolean {
  return sequence.actions.slice(from + 1, to).every(({ verb }) => anyFace.has(verb))
}

/** The acts after a turn back need nothing that is done since the turn away, and take nothing that is needed there. */
function couldComeBefore({ sequence, kit }: Subject, away: number, back: number, end: number): boolean {
  const between = sequence.actions.slice(away + 1, back)
  const later = sequence.actions.slice(back + 1, end)
  const inLater = new Set(later.map(({ step }) => step))
  const inBetween = new Set(between.map(({ step }) => step))
  if (later.every(({ verb }) => anyFace.has(verb)) || later.some(({ verb }) => verb === "turn")) return false
  // A step that is done partly before and partly after cannot be told to move.
  if ([...inLater].some((step) => inBetween.has(step))) return false
  const given = new Set<FactKey>(between.flatMap(({ gives }) => gives))
  const needed = new Set<FactKey>(between.flatMap(({ needs }) => needs.map(({ fact }) => fact)))
  const isTied = later.some(
    ({ needs, takes }) =>
      needs.some(({ fact }) => given.has(fact)) || takes.some((fact) => needed.has(fact) || fact.startsWith("held:")),
  )
  const isDeclared = kit.steps.some(
    ({ id, needsAfter, pinned }) =>
      inLater.has(id) && (pinned !== undefined || needsAfter.some(({ step }) => inBetween.has(step))),
  )
  return !isTied && !isDeclared
}
