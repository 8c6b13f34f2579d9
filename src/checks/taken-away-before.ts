/** Judges acts that need what an earlier act took away. */
import { placeAt } from "../findings/places.ts"
import { describeAct } from "../sequence/index.ts"
import { buildAdviser, explainNeed, fitMessage, relatedOf, subjectsOf } from "./order-words.ts"
import { defineRule } from "./types.ts"

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
      const isSame = step === byStep
      const told = `step \`${step}\` ${describeAct(act)}`
      const message = isSame
        ? fitMessage(`${told} after it ${describeAct(byAct)}`, `step \`${step}\` has two acts in the wrong order`)
        : fitMessage(
            `${told} after step \`${byStep}\` ${describeAct(byAct)}`,
            `${told} after step \`${byStep}\` made that impossible`,
            `step \`${step}\` comes too late after step \`${byStep}\``,
          )
      return [
        {
          message,
          where: placeAt(kit.places, act.path),
          why: explainNeed(need, also),
          fix: isSame
            ? act.verb === byAct.verb && act.target === byAct.target
              ? `Remove one of the two acts.`
              : `In step \`${step}\`, write \`${act.verb}\` before \`${byAct.verb}\`.`
            : act.verb === byAct.verb && act.target === byAct.target
              ? `Remove this act, or undo the one of step \`${byStep}\` in between.`
              : advise(byStep, step, also),
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
