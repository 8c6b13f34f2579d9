/** What the order proof tells the buyer at the steps: why now, the last chance to check, where to stop. */
import type { LastChance, OrderReason, OtherEnd } from "../sequence/advice-types.ts"
import { type Context, sayFasteners, sayOwnScrews, sayTies, sayTorque } from "./context.ts"
import { pieceKinds, sayName } from "./names.ts"

/** In a short kit the whole order is seen at a glance. */
const leastSteps = 7

/**
 * The one line that says why a step stands where it stands, where it looks as if it could wait; undefined for most steps. What
 * the next step bars, and a door that opens again, need no telling.
 */
export function sayWhyNow(context: Context, step: string): string | undefined {
  const { kit, sequence, words } = context
  const { whyNow } = words.steps
  const otherEnd = sequence.advice.otherEnds.find((one) => one.step === step)
  if (otherEnd !== undefined) return sayOtherEnd(context, otherEnd)
  const at = kit.steps.findIndex(({ id }) => id === step)
  const bar = (reason: OrderReason): number => kit.steps.findIndex(({ id }) => id === reason.other)
  const reason = sequence.advice.reasons.find((one) => one.step === step && one.kind !== "shut" && bar(one) > at + 1)
  if (reason === undefined) return undefined
  const [, id = "", other = ""] = reason.fact.split(":")
  const number = words.measures.number(bar(reason) + 1)
  switch (reason.kind) {
    case "in-the-way":
      return whyNow.inTheWay(sayName(context, id, pieceKinds), number)
    case "in-hand":
      return whyNow.inHand(sayName(context, id, pieceKinds), number)
    case "tight":
      return whyNow.tight(sayName(context, id, ["joint", ...pieceKinds]), number)
    case "threaded":
      return whyNow.threaded(sayName(context, id, ["cable"]), sayName(context, other, ["passage"]), number)
    default:
      return undefined
  }
}

/** The checks that an act of the step takes away, in one line, by the path of the act before which it stands. */
export function findLastChance(
  context: Context,
  step: string,
): { readonly act: string; readonly line: string } | undefined {
  const points = context.sequence.advice.noReturn.filter((one) => one.step === step && one.lastChance.length > 0)
  const [first] = points
  if (first === undefined) return undefined
  const checks = points.flatMap(({ lastChance }) => lastChance.flatMap((chance) => sayChance(context, chance)))
  if (checks.length === 0) return undefined
  return { act: first.act, line: context.words.steps.lastChance([...new Set(checks)].map(asClause)) }
}

/** A check of the final inspection as a clause. */
function asClause(sentence: string): string {
  return sentence.replace(/\.$/, "")
}

function sayChance(context: Context, { kind, id, other }: LastChance): readonly string[] {
  const { kit, words } = context
  const { after } = words
  switch (kind) {
    case "joint":
      return [
        ...kit.joints
          .filter((joint) => joint.id === id)
          .map((joint) => after.jointTight(sayFasteners(context, joint, joint.count), sayTorque(context, id))),
        ...kit.ownJoints
          .filter((own) => own.id === id)
          .map((own) => after.jointTight(sayOwnScrews(context, own, own.count), undefined)),
      ]
    case "tie":
      return kit.ties
        .filter((tie) => tie.id === id)
        .map((tie) => after.tieClosed(sayTies(context, tie, tie.count), tie.until))
    case "pad":
      return kit.pads
        .filter((pad) => pad.id === id)
        .map((pad) => after.padSits(`${words.measures.times(pad.count)}\u00a0${sayName(context, id, ["pad"])}`))
    case "end":
      return other === undefined
        ? []
        : [after.cableConnected(sayName(context, id, ["end"]), sayName(context, other, ["socket"]))]
    case "aligned":
      return [words.steps.aligned(sayName(context, id, ["joint", ...pieceKinds]))]
  }
}

/** Where the steps that follow cannot be left half done, the step before says that one may stop; undefined elsewhere. */
export function sayStop(context: Context, step: string): string | undefined {
  const { kit, sequence, words } = context
  if (kit.steps.length < leastSteps) return undefined
  const { safeStops } = sequence.advice
  const at = safeStops.findIndex((stop) => stop.afterStep === step)
  const stop = safeStops[at]
  const isBeforeLast = kit.steps.at(-2)?.id === step
  if (stop?.isLastForNow !== true || isBeforeLast) return undefined
  const next = kit.steps.findIndex(({ id }) => id === safeStops[at + 1]?.afterStep)
  return words.steps.stop(next < 0 ? undefined : words.measures.number(next + 1), stop.isIsolated)
}

/** The steps after which one may stop, for page 1; undefined when that is after each, after none, or the kit is short. */
export function sayStops({ kit, sequence, words }: Context): string | undefined {
  const { safeStops } = sequence.advice
  const numbers = safeStops.map(({ afterStep }) => kit.steps.findIndex(({ id }) => id === afterStep) + 1)
  if (kit.steps.length < leastSteps || numbers.length === 0 || numbers.length >= kit.steps.length - 1) return undefined
  const runs: { from: number; to: number }[] = []
  for (const number of numbers) {
    const run = runs.at(-1)
    if (run?.to === number - 1) run.to = number
    else runs.push({ from: number, to: number })
  }
  const said = runs.flatMap(({ from, to }) => {
    const [first, last] = [words.measures.number(from), words.measures.number(to)]
    return to - from > 1 ? [words.front.fromTo(first, last)] : from === to ? [first] : [first, last]
  })
  return words.front.stops(words.list(said), numbers.length)
}

/** The end that fits is fed, not the other one, with both sizes. */
export function sayOtherEnd(context: Context, { end, other, passage }: OtherEnd): string {
  const { fit, words } = context
  const sizes = fit.passages.find((one) => one.passage === passage && one.end === other)
  return words.about.otherEnd(
    sayName(context, end, ["end"]),
    sayName(context, other, ["end"]),
    sizes === undefined ? "" : words.measures.outline(sizes.envelope),
    sayName(context, passage, ["passage"]),
    sizes === undefined ? "" : words.measures.outline(sizes.opening),
  )
}
