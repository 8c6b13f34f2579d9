/** Why this order: the places where another order looks possible to someone with experience, but is not. */
import type { OrderReason } from "../sequence/advice-types.ts"
import { sayOtherEnd } from "./advice.ts"
import type { Context } from "./context.ts"
import { pieceKinds, sayName } from "./names.ts"
import { titleOf } from "./steps.ts"

/**
 * Lists at most `most` reasons: what the maker declared, how a cable goes through its openings, and acts after which an
 * earlier one has no way any more. The safety rules stand in the safety section.
 */
export function listOrderReasons(context: Context, most = 8): readonly string[] {
  const { kit, sequence, words } = context
  const { reasons, otherEnds } = sequence.advice
  const said = new Map(
    kit.steps.map((step, index) => [
      step.id,
      words.steps.titled(words.measures.number(index + 1), titleOf(context, step)),
    ]),
  )
  const lines = new Set<string>()
  const add = (earlier: string, later: string, why: string | undefined): void => {
    const [first, then] = [said.get(earlier), said.get(later)]
    if (first !== undefined && then !== undefined) lines.add(words.about.orderLine(first, then, why))
  }
  for (const step of kit.steps)
    for (const { step: earlier, why } of step.needsAfter) add(earlier, step.id, why?.replace(/[.\s]+$/, ""))
  for (const reason of reasons) if (reason.kind === "connected") lines.add(sayFeedFirst(context, reason))
  for (const otherEnd of otherEnds) lines.add(sayOtherEnd(context, otherEnd))
  // Of several steps that close the same way, the first one is told.
  const told = new Set<string>()
  for (const reason of reasons) {
    const loss = sayLoss(context, reason)
    if (loss === undefined || told.has(reason.step + loss)) continue
    told.add(reason.step + loss)
    add(reason.step, reason.other, loss)
  }
  return [...lines].slice(0, most)
}

/** What the later step takes away, as a clause; that an end is no longer free is told where it is fed. */
function sayLoss(context: Context, { kind, fact }: OrderReason): string | undefined {
  const [, id = "", other = ""] = fact.split(":")
  const { losses } = context.words.about
  switch (kind) {
    case "in-hand":
      return losses.loose(sayName(context, id, pieceKinds))
    case "in-the-way":
      return losses.inPlace(sayName(context, id, pieceKinds))
    case "shut":
      return losses.closed(sayName(context, id, pieceKinds))
    case "tight":
      return losses.tight(sayName(context, id, ["joint", ...pieceKinds]))
    case "threaded":
      return losses.threaded(sayName(context, id, ["cable"]), sayName(context, other, ["passage"]))
    case "connected":
      return undefined
  }
}

/** An end is fed before it is connected. */
function sayFeedFirst(context: Context, { act: path }: OrderReason): string {
  const act = context.kit.steps.flatMap((step) => step.acts).find((one) => one.path === path)
  return context.words.about.feedFirst(
    sayName(context, act?.target ?? "", ["end"]),
    sayName(context, act?.through ?? "", ["passage"]),
  )
}
