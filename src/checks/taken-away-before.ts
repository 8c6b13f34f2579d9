/** Judges acts that need what an earlier act took away. */
import { placeAt } from "../findings/places.ts"
import type { Act } from "../kit/types.ts"
import { actThatGives, describeAct, prepareEndChoice } from "../sequence/index.ts"
import type { Need } from "../sequence/types.ts"
import { sayEnds } from "./cable-words.ts"
import { buildAdviser, writeAct } from "./order-advice.ts"
import { describeShortly, explainNeed, fitMessage, relatedOf, subjectsOf } from "./order-words.ts"
import { defineRule, type Subject } from "./types.ts"
import { wrongSocket } from "./uses.ts"

/** Finds acts that come too late: the hood is on, the end is connected, the piece is in place already. */
export const takenAwayBefore = defineRule({
  id: "taken-away-before",
  severity: "error",
  source: "the order proof",
  check: (subject) => {
    const { kit, fit, sequence } = subject
    const choose = prepareEndChoice(kit, fit, sequence)
    const advise = buildAdviser(kit, sequence)
    return sequence.faults.flatMap((fault) => {
      if (fault.kind !== "taken-away") return []
      const { step, act, need, byStep, byAct, also } = fault
      // An end in the wrong socket takes it from the right one; that is told by itself.
      const isWrongSocket = [act, byAct].some((one) => wrongSocket(kit, one) !== undefined)
      if (need.fact.startsWith("empty:") && isWrongSocket) return []
      const isSame = step === byStep
      const ends = need.fact.startsWith("free:") ? sayEnds(subject, choose, act) : undefined
      // An end that does not pass anyway was named by mistake; that is told by itself.
      if (ends?.instead !== undefined && isTooLarge(subject, act)) return []
      const told = `step \`${step}\` ${describeAct(act)}`
      const wrongOrder = need.fact.startsWith("outside:") ? sayWrongOrder(act, byAct) : []
      const order = isSame
        ? fitMessage(
            ...wrongOrder,
            `${told} after it ${describeAct(byAct)}`,
            `step \`${step}\` ${describeShortly(act)} after it ${describeShortly(byAct)}`,
            `step \`${step}\` has two acts in the wrong order`,
          )
        : fitMessage(
            ...wrongOrder,
            `${told} after step \`${byStep}\` ${describeAct(byAct)}`,
            `step \`${step}\` ${describeShortly(act)} after step \`${byStep}\` ${describeShortly(byAct)}`,
            `step \`${byStep}\` comes before step \`${step}\`, which it makes impossible`,
          )
      const taken = { message: `step \`${byStep}\` ${describeAct(byAct)} here`, where: placeAt(kit.places, byAct.path) }
      const fix = adviseFix(
        act,
        byAct,
        need,
        isSame,
        advise.step(byStep, step, fault),
        advise.act(byAct, byStep, act, step),
      )
      return [
        {
          message: fitMessage(...(ends?.messages ?? []), order),
          where: placeAt(kit.places, act.path),
          why: [explainNeed(need, also), ...(ends?.others ?? [])].join(" "),
          fix: ends?.instead === undefined ? fix : `${fix.replace(/\.$/, "")}, or ${ends.instead}.`,
          related: [...(ends === undefined ? [taken] : ends.related), ...relatedOf(kit, also)],
          subjects: subjectsOf(fault, step, byStep),
        },
      ]
    })
  },
})

/** A second act of one kind goes; an act that no move mends asks for what undoes the other; else a move. */
function adviseFix(
  act: Act,
  byAct: Act,
  need: Need,
  isSame: boolean,
  move: string | undefined,
  actMove: string,
): string {
  const undo = actThatGives(need.fact)
  const isDouble = act.verb === byAct.verb && act.target === byAct.target && act.through === byAct.through
  if (need.fact.startsWith("at-hand:")) return `Remove \`${writeAct(byAct)}\`: what it throws away is needed again.`
  if (isDouble)
    return undo === undefined
      ? "Remove one of the two acts."
      : `Remove one of the two acts, or write \`${undo}\` between them.`
  const areMoves = act.through !== undefined && byAct.through !== undefined
  if (areMoves && isSame) return `Write \`${writeAct(act)}\` before \`${writeAct(byAct)}\`.`
  if (areMoves && move === undefined)
    return `Move \`${writeAct(act)}\` to the step of \`${writeAct(byAct)}\`, in front of it.`
  if (isSame && act.verb === byAct.verb)
    return undo === undefined ? "Move one of the two acts to another step." : `Write \`${undo}\` before this act.`
  if (isSame) return `Write \`${act.verb}\` before \`${byAct.verb}\` in this step.`
  if (need.fact.startsWith("untied:") && move === undefined)
    return `Write \`remove: ${byAct.target}\` before this act, and close a new one when the piece is back.`
  return move ?? (undo === undefined ? actMove : `Write \`${undo}\` before this act.`)
}

/** Two openings that one end went through the wrong way round. */
function sayWrongOrder(act: Act, byAct: Act): readonly string[] {
  const areFeeds = act.verb === "feed" && byAct.verb === "feed" && act.through !== byAct.through
  if (!areFeeds || act.target !== byAct.target) return []
  const [late, early] = [act.through ?? "", byAct.through ?? ""]
  return [
    `\`${act.target}\` is fed through \`${early}\` before it is fed through \`${late}\`, which comes first`,
    `\`${act.target}\` goes through \`${early}\` before \`${late}\`, which comes first`,
    `\`${act.target}\` goes through its openings in the wrong order`,
  ]
}

function isTooLarge({ kit, fit }: Subject, { target, through }: Act): boolean {
  const isClosed = kit.passages.some(({ id, isClosed: isRound }) => id === through && isRound)
  return isClosed && fit.passages.some(({ passage, end, passes }) => passage === through && end === target && !passes)
}
