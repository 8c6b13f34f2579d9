/** Judges acts that need what only a later act gives. */
import { placeAt } from "../findings/places.ts"
import { describeAct } from "../sequence/index.ts"
import { buildAdviser } from "./order-advice.ts"
import { describeShortly, explainNeed, fitMessage, relatedOf, subjectsOf } from "./order-words.ts"
import { isOtherWait } from "./rest-words.ts"
import { defineRule } from "./types.ts"

/** Finds acts that stand before the act which makes true what they need: a screw started before its part is in place. */
export const needsSomethingLater = defineRule({
  id: "needs-something-later",
  severity: "error",
  source: "the order proof",
  check: ({ kit, sequence }) => {
    const advise = buildAdviser(kit, sequence)
    return sequence.faults.flatMap((fault) => {
      // Told with its time by the rules about curing and discharging.
      if (fault.kind !== "needs-later" || isOtherWait(fault)) return []
      const { step, act, need, laterStep, laterAct, also } = fault
      const isSame = step === laterStep
      const told = `step \`${step}\` ${describeAct(act)}`
      const message = isSame
        ? fitMessage(
            `${told} before it ${describeAct(laterAct)}`,
            `step \`${step}\` ${describeShortly(act)} before it ${describeShortly(laterAct)}`,
            `step \`${step}\` has two acts in the wrong order`,
          )
        : fitMessage(
            `${told} before step \`${laterStep}\` ${describeAct(laterAct)}`,
            `step \`${step}\` ${describeShortly(act)} before step \`${laterStep}\` ${describeShortly(laterAct)}`,
            `step \`${step}\` stands before step \`${laterStep}\`, which it needs`,
          )
      return [
        {
          message,
          where: placeAt(kit.places, act.path),
          why: explainNeed(need, also),
          fix: isSame
            ? `In step \`${step}\`, write \`${laterAct.verb}\` before \`${act.verb}\`.`
            : (advise.step(step, laterStep, fault) ?? advise.act(act, step, laterAct, laterStep)),
          related: [
            {
              message: `step \`${laterStep}\` ${describeAct(laterAct)} only here`,
              where: placeAt(kit.places, laterAct.path),
            },
            ...relatedOf(kit, also),
          ],
          subjects: subjectsOf(fault, step, laterStep),
        },
      ]
    })
  },
})
