/** Why this order: the places where another order looks possible to someone with experience, but is not. */
import type { Link } from "../sequence/types.ts"
import type { Context } from "./context.ts"
import { findPart, pieceKinds, sayName } from "./names.ts"
import { titleOf } from "./steps.ts"

/**
 * Lists at most `most` reasons: what the maker declared, and acts after which an earlier one has no way any more. Orders
 * that nobody would try (a screw before its part) and the safety rules, which stand in the safety section, are left out.
 */
export function listOrderReasons(context: Context, most = 8): readonly string[] {
  const { kit, sequence, words } = context
  const said = new Map(
    kit.steps.map((step, index) => [
      step.id,
      words.steps.titled(words.measures.number(index + 1), titleOf(context, step)),
    ]),
  )
  const lines = new Set<string>()
  for (const step of kit.steps) {
    for (const { step: earlier, why } of step.needsAfter) {
      const [first, then] = [said.get(earlier), said.get(step.id)]
      if (first === undefined || then === undefined) continue
      lines.add(words.about.orderLine(first, then, why === undefined ? undefined : why.replace(/[.\s]+$/, "")))
    }
  }
  for (const line of listCableReasons(context)) lines.add(line)
  const order = kit.steps.map((step) => step.id)
  const links = [...sequence.links].sort((one, other) => order.indexOf(one.to) - order.indexOf(other.to))
  // Of several steps that close the same way, the first one is told.
  const told = new Set<string>()
  for (const link of links) {
    const [first, then] = [said.get(link.from), said.get(link.to)]
    const reason = sayLoss(context, link)
    if (first === undefined || then === undefined || reason === undefined || told.has(first + reason)) continue
    told.add(first + reason)
    lines.add(words.about.orderLine(first, then, reason))
  }
  return [...lines].slice(0, most)
}

/** What the later step takes away, as a clause; undefined for what needs no telling. */
function sayLoss(context: Context, { kind, fact, from }: Link): string | undefined {
  if (kind !== "takes-away" || fact === undefined) return undefined
  const { kit, words } = context
  const [what, id = ""] = fact.split(":")
  const { losses } = words.about
  if (what === "off") {
    const acts = kit.steps.find((step) => step.id === from)?.acts ?? []
    const ofPart = (one: string): boolean =>
      one === id || findPart(context, one)?.id === (findPart(context, id)?.id ?? id)
    const takesPad = acts.some(
      ({ verb, target }) => verb === "stick" && ofPart(kit.pads.find((pad) => pad.id === target)?.on ?? ""),
    )
    if (takesPad) return losses.loose(sayName(context, id, pieceKinds))
    // Nobody cleans or aligns a piece elsewhere than before it is placed.
    return acts.some(({ target }) => ofPart(target)) ? undefined : losses.inPlace(sayName(context, id, pieceKinds))
  }
  if (what === "open" || what === "clear") {
    return losses.closed(sayName(context, id, ["passage", "socket", ...pieceKinds]))
  }
  if (what === "untied") return losses.tied(sayName(context, id, ["tie"]))
  // That an end is no longer free is told where it is fed.
  return undefined
}

/** An end is fed before it is connected, and the end that fits is fed. */
function listCableReasons(context: Context): readonly string[] {
  const { kit, fit, words } = context
  const acts = kit.steps.flatMap((step) => step.acts)
  return acts.flatMap((act, index) => {
    if (act.verb !== "feed" || act.through === undefined) return []
    const { target: end, through: passage } = act
    const said = [sayName(context, end, ["end"]), sayName(context, passage, ["passage"])] as const
    const isConnectedLater = acts.slice(index).some((later) => later.verb === "connect" && later.target === end)
    const cable = kit.cables.find((each) => each.ends.some((one) => one.id === end))
    const others = fit.passages.filter(
      (one) =>
        one.passage === passage && !one.passes && one.end !== end && cable?.ends.some(({ id }) => id === one.end),
    )
    return [
      ...(isConnectedLater ? [words.about.feedFirst(...said)] : []),
      ...others.map(({ end: other, envelope, opening }) =>
        words.about.otherEnd(
          said[0],
          sayName(context, other, ["end"]),
          words.measures.outline(envelope),
          said[1],
          words.measures.outline(opening),
        ),
      ),
    ]
  })
}
