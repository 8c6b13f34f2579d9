/** Steps that look as if they could wait: what bars their way later on. */
import type { OrderReason, OtherEnd } from "../advice-types.ts"
import { subjectOf } from "../facts.ts"
import { instancesOf, type Lookup } from "../lookup.ts"
import type { Action, FactKey } from "../types.ts"
import type { Walked } from "./index.ts"

/**
 * Gives the reasons in the order of the barring acts, each once for a step and piece. Left out is what nobody would try (a
 * screw before its part, closing what is open), what the safety messages say (power), and a step that another step told for the
 * same act has to wait for.
 */
export function findReasons({ lookup, actions, actLinks }: Walked): readonly OrderReason[] {
  const found = new Map<string, OrderReason & { readonly rank: number }>()
  for (const { from, to, kind, fact, isAgain } of actLinks) {
    const [act, byAct] = [actions[from], actions[to]]
    if (kind !== "takes-away" || isAgain || act === undefined || byAct === undefined) continue
    const bar = barOf(lookup, act, byAct, fact)
    const key = `${act.step} ${bar} ${lookup.partByPiece.get(subjectOf(fact))?.id ?? fact}`
    const known = found.get(key)
    if (bar === undefined || (known !== undefined && known.rank <= to)) continue
    const reason = { step: act.step, other: byAct.step, act: act.act.path, byAct: byAct.act.path, fact }
    found.set(key, { kind: bar, ...reason, rank: to })
  }
  const linked = linkedSteps(actions, actLinks)
  const all = [...found.values()].sort((one, other) => one.rank - other.rank)
  const stepsBefore = new Map<string, Set<string>>()
  for (const { kind, step, byAct } of all)
    if (isOfCover(kind)) stepsBefore.set(byAct, (stepsBefore.get(byAct) ?? new Set()).add(step))
  const isImplied = ({ kind, step, byAct }: OrderReason): boolean => {
    const told = stepsBefore.get(byAct)
    return isOfCover(kind) && told !== undefined && (linked.get(step) ?? []).some((one) => told.has(one))
  }
  return all.filter((reason) => !isImplied(reason)).map(({ rank: _, ...reason }) => reason)
}

function isOfCover(kind: OrderReason["kind"]): boolean {
  return kind === "shut" || kind === "in-the-way"
}

/** The other steps that each step must come before; one may be there more than once. */
function linkedSteps(actions: readonly Action[], actLinks: Walked["actLinks"]): ReadonlyMap<string, readonly string[]> {
  const linked = new Map<string, string[]>()
  for (const { from, to } of actLinks) {
    const [one, other] = [actions[from]?.step, actions[to]?.step]
    if (one === undefined || other === undefined || one === other) continue
    const known = linked.get(one)
    if (known === undefined) linked.set(one, [other])
    else known.push(other)
  }
  return linked
}

function barOf(lookup: Lookup, act: Action, byAct: Action, fact: FactKey): OrderReason["kind"] | undefined {
  const [what] = fact.split(":")
  const subject = subjectOf(fact)
  const isInOneStep = act.step === byAct.step
  if (what === "free" && act.verb === "feed" && byAct.verb === "connect") return "connected"
  if (isInOneStep) return undefined
  if (what === "outside" && act.verb === "feed" && byAct.verb === "feed")
    return act.act.through === byAct.act.through ? undefined : "threaded"
  if (what === "loose" && act.verb === "align") return "tight"
  if (what === "clear") return isOf(lookup, act.act.target, subject) ? undefined : "shut"
  if (what !== "off") return undefined
  if (act.verb === "stick" && isOf(lookup, lookup.pads.get(act.act.target)?.on ?? "", subject)) return "in-hand"
  // Nobody cleans or aligns a piece elsewhere than before it is placed.
  return isOf(lookup, act.act.target, subject) ? undefined : "in-the-way"
}

/** True when an id is an instance, or the part of that instance. */
function isOf(lookup: Lookup, id: string, instance: string): boolean {
  return id === instance || instancesOf(lookup, id).includes(instance)
}

/** Ends that are too large for a closed passage that another end of their cable is fed through. */
export function findOtherEnds({ lookup, fit, actions }: Walked): readonly OtherEnd[] {
  const tooLarge = new Map<string, string[]>()
  for (const { passage, passes, end } of fit.passages)
    if (!passes) tooLarge.set(passage, [...(tooLarge.get(passage) ?? []), end])
  return actions.flatMap(({ verb, step, act }) => {
    const { target: end, through: passage, path } = act
    if (verb !== "feed" || passage === undefined || lookup.passages.get(passage)?.isClosed !== true) return []
    const ends = lookup.cableByEnd.get(end)?.ends.map(({ id }) => id) ?? []
    return (tooLarge.get(passage) ?? [])
      .filter((other) => other !== end && ends.includes(other))
      .map((other) => ({ step, act: path, end, other, passage }))
  })
}
