/** Judges acts that need what no act gives. */
import { placeAt } from "../findings/places.ts"
import { actThatGives, describeAct, describeFact } from "../sequence/index.ts"
import { explainNeed, fitMessage, relatedOf, subjectsOf } from "./order-words.ts"
import { defineRule } from "./types.ts"

/** Finds acts whose need is met at no time, neither on arrival nor by any step. */
export const nobodyGives = defineRule({
  id: "nobody-gives",
  severity: "error",
  source: "the order proof",
  check: ({ kit, sequence }) =>
    sequence.faults.flatMap((fault) => {
      if (fault.kind !== "nobody-gives" || fault.leftOut !== undefined) return []
      const { step, act, need, also } = fault
      const giver = actThatGives(need.fact)
      const told = `step \`${step}\` ${describeAct(act)}`
      return [
        {
          message: fitMessage(
            `${told}, but at no time ${describeFact(need.fact)}`,
            `${told}, but something it needs is never done`,
            `step \`${step}\` needs something that is never done`,
          ),
          where: placeAt(kit.places, act.path),
          why: explainNeed(need, also),
          ...(giver === undefined ? {} : { fix: `Write \`${giver}\` before this act.` }),
          related: relatedOf(kit, also),
          subjects: subjectsOf(fault, step),
        },
      ]
    }),
})
