/**
 * Safety messages: the maker's hazards, and notices that follow from the joints. Frame after ANSI Z535.6 and
 * ISO 3864-2: signal word, then the command, then hazard and consequence; NOTICE carries no alert symbol.
 */

import type { Joint, OwnJoint } from "../kit/joint-types.ts"
import type { Hazard, Step } from "../kit/types.ts"
import { isKept } from "./after.ts"
import { type Context, sayFasteners, sayOwnScrews, sayTorque } from "./context.ts"
import { escapeAttribute } from "./figures.ts"
import { renderMakerLine } from "./maker-text.ts"
import { findPart, pieceKinds, sayName } from "./names.ts"
import type { Html } from "./render.ts"
import type { SignalWord, Stop } from "./words/types.ts"

/** One message as its partial sees it. */
export type MessageView = {
  /** Name of the style: `danger`, `warning`, `caution`, `notice`. */
  readonly signal: SignalWord
  readonly word: string
  readonly hasSymbol: boolean
  readonly avoid: Html
  readonly why: Html
}

const rank: Readonly<Record<SignalWord, number>> = { danger: 0, warning: 1, caution: 2, notice: 3 }

/** The maker's hazards, the worst first, then in the order of writing. */
export function sortHazards(hazards: readonly Hazard[]): readonly Hazard[] {
  return [...hazards].sort((one, other) => rank[one.signalWord] - rank[other.signalWord])
}

/** A message from a hazard of the maker. */
export function viewHazard(context: Context, hazard: Hazard): MessageView {
  const { words } = context
  const consequence =
    hazard.consequence === undefined
      ? { html: escapeText(words.consequence(hazard.harm, hazard.may)) }
      : renderMakerLine(context, hazard.consequence)
  const source = renderMakerLine(context, hazard.source).html.replace(/[.\s]+$/, "")
  return {
    signal: hazard.signalWord,
    word: words.signal[hazard.signalWord],
    hasSymbol: hazard.signalWord !== "notice",
    avoid: endSentence(renderMakerLine(context, hazard.avoid)),
    why: endSentence({ html: `${escapeText(words.labels.hazard)}: ${source}. ${consequence.html}` }),
  }
}

/** All messages that stand before the acts of a step: its hazards, then notices derived from its joints. */
export function viewStepMessages(context: Context, step: Step): readonly MessageView[] {
  const hazards = sortHazards(context.kit.hazards).filter((hazard) => hazard.steps.includes(step.id))
  return [...hazards.map((hazard) => viewHazard(context, hazard)), ...deriveNotices(context, step)]
}

/** Words and meaning of the signal words that a document uses, in order of level. */
export function viewLegend(
  context: Context,
  used: readonly SignalWord[],
): readonly { word: string; meaning: string }[] {
  const { signal, signalMeaning } = context.words
  const order: readonly SignalWord[] = ["danger", "warning", "caution", "notice"]
  return order
    .filter((word) => used.includes(word))
    .map((word) => ({ word: signal[word], meaning: signalMeaning[word] }))
}

function deriveNotices(context: Context, step: Step): readonly MessageView[] {
  const { kit, words } = context
  const jointsOf = (verb: "start" | "tighten"): readonly Joint[] =>
    kit.joints.filter((joint) => step.acts.some((act) => act.verb === verb && act.target === joint.id))
  const ownOf = kit.ownJoints.filter((own) => step.acts.some((act) => act.verb === "unscrew" && act.target === own.id))
  const isPlastic = (id: string): boolean => findPart(context, id)?.material?.kind === "plastic"
  const say = (verb: "start" | "tighten", joints: readonly Joint[]): string =>
    words.list(joints.map((joint) => sayFasteners(context, joint, countIn(step, verb, joint))))

  const messages: MessageView[] = ownOf.flatMap((own) => noticesOfOwnScrews(context, own))
  const metal = jointsOf("start").filter((joint) => joint.bore.kind !== "pilot")
  if (metal.length > 0) {
    messages.push(notice(context, words.notices.crossThread.avoid(say("start", metal)), words.notices.crossThread.why))
  }
  const { plasticThread, plasticPart } = words.notices
  const toStop = (joint: Joint): Stop => ({ items: say("tighten", [joint]), torque: sayTorque(context, joint.id) })
  const tightened = jointsOf("tighten")
  // A screw in plastic strips its own thread, unless the plastic under its head gives way first.
  const pressesFirst = ({ id }: Joint): boolean =>
    / under the /.test(context.fit.joints.find((one) => one.joint === id)?.torque.governing ?? "")
  const inPlastic = tightened.filter((joint) => joint.bore.kind === "pilot" && !pressesFirst(joint))
  if (inPlastic.length > 0)
    messages.push(notice(context, plasticThread.avoid(inPlastic.map(toStop)), plasticThread.why))
  // The first clamped piece lies under the head, the last one under a nut.
  const underHead = ({ through, bore }: Joint): readonly string[] =>
    through.filter((_, index) => index === 0 || (bore.kind === "nut" && index === through.length - 1)).filter(isPlastic)
  const onPlastic = tightened.filter((joint) => !inPlastic.includes(joint) && underHead(joint).length > 0)
  if (onPlastic.length > 0) {
    const ids = new Set(onPlastic.flatMap(underHead))
    const names = new Set([...ids].map((id) => sayName(context, id, pieceKinds)))
    messages.push(notice(context, plasticPart.avoid(onPlastic.map(toStop)), plasticPart.why(words.list([...names]))))
  }
  return messages
}

/** How many screws of a joint a step starts or tightens. */
function countIn({ acts }: Step, verb: "start" | "tighten", { id, count }: Joint): number {
  const own = acts.filter((act) => act.target === id && act.verb === verb)
  return Math.min(
    own.reduce((sum, act) => sum + (act.count ?? count), 0),
    count,
  )
}

function noticesOfOwnScrews(context: Context, own: OwnJoint): readonly MessageView[] {
  const { notices, measures } = context.words
  const items = sayOwnScrews(context, own, own.count)
  const longer = context.kit.joints.find(
    (joint) =>
      joint.bore.id === own.bore &&
      (joint.fastener.lengthMm ?? 0) > (own.fastener.lengthMm ?? Number.POSITIVE_INFINITY),
  )
  const why =
    longer?.fastener.lengthMm === undefined || own.fastener.lengthMm === undefined
      ? notices.ownScrews.whyKept
      : notices.ownScrews.why(
          sayFasteners(context, longer, longer.count),
          measures.mm(longer.fastener.lengthMm),
          measures.mm(own.fastener.lengthMm),
        )
  const messages = isKept(context, own.id) ? [notice(context, notices.ownScrews.avoid(items), why)] : []
  if (own.alsoHolds === undefined) return messages
  return [notice(context, notices.oneByOne.avoid(items), notices.oneByOne.why(own.alsoHolds)), ...messages]
}

function notice(context: Context, avoid: string, why: string): MessageView {
  return {
    signal: "notice",
    word: context.words.signal.notice,
    hasSymbol: false,
    avoid: { html: escapeText(avoid) },
    why: { html: escapeText(why) },
  }
}

function endSentence({ html }: Html): Html {
  return { html: /[.!?]\s*(<\/[a-z]+>\s*)*$/.test(html) ? html : `${html}.` }
}

/** Escapes text for use as markup. */
function escapeText(text: string): string {
  return escapeAttribute(text)
}
