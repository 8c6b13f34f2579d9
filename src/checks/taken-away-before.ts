/** Judges acts that need what an earlier act took away. */
import { placeAt } from "../findings/places.ts"
import type { Act } from "../kit/types.ts"
import { actThatGives, describeAct } from "../sequence/index.ts"
import type { Need } from "../sequence/types.ts"
import { buildAdviser, describeShortly, explainNeed, fitMessage, relatedOf, subjectsOf } from "./order-words.ts"
import { defineRule } from "./types.ts"
import { wrongSocket } from "./uses.ts"

/** Finds acts that come too late: the hood is on, the end is connected, the piece is in place already. */
export const takenAwayBefore = defineRule({
  id: "taken-away-before",
  severity: "error",
  source: "the order proof",
  check: ({ kit, sequence }) => {
    const advise = buildAdviser(sequence)
    return sequence.faults.flatMap((fault) => {
      if (fault.kind !== "taken-away") return []
      const { step, act, need, byStep, byAct, also } = fault
      // An end in the wrong socket takes it from the right one; that is told by itself.
      const isWrongSocket = [act, byAct].some((one) => wrongSocket(kit, one) !== undefined)
      if (need.fact.startsWith("empty:") && isWrongSocket) return []
      const isSame = step === byStep
      const told = `step \`${step}\` ${describeAct(act)}`
      const message = isSame
        ? fitMessage(
            `${told} after it ${describeAct(byAct)}`,
            `step \`${step}\` ${describeShortly(act)} after it ${describeShortly(byAct)}`,
            `step \`${step}\` has two acts in the wrong order`,
          )
        : fitMessage(
            `${told} after step \`${byStep}\` ${describeAct(byAct)}`,
            `step \`${step}\` ${describeShortly(act)} after step \`${byStep}\` ${describeShortly(byAct)}`,
            `step \`${byStep}\` comes before step \`${step}\`, which it makes impossible`,
          )
      return [
        {
          message,
          where: placeAt(kit.places, act.path),
          why: explainNeed(need, also),
          fix: adviseFix(act, byAct, need, isSame, advise(byStep, step, fault)),
          related: [
            { message: `step \`${byStep}\` ${describeAct(byAct)} here`, where: placeAt(kit.places, byAct.path) },
            ...relatedOf(kit, also),
          ],
          subjects: subjectsOf(fault, step, byStep),
        },
      ]
    })
  },
})

/** A second act of one kind goes; an act that no move mends asks for what undoes the other; else a move. */
function adviseFix(act: Act, byAct: Act, need: Need, isSame: boolean, move: string | undefined): string {
  const undo = actThatGives(need.fact)
  const isDouble = act.verb === byAct.verb && act.target === byAct.target
  if (isDouble)
    return undo === undefined
      ? "Remove one of the two acts."
      : `Remove one of the two acts, or write \`${undo}\` between them.`
  if (isSame && act.verb === byAct.verb)
    return undo === undefined ? "Move one of the two acts to another step." : `Write \`${undo}\` before this act.`
  if (isSame) return `Write \`${act.verb}\` before \`${byAct.verb}\` in this step.`
  return (
    move ?? (undo === undefined ? "Move one of the two acts to another step." : `Write \`${undo}\` before this act.`)
  )
}
