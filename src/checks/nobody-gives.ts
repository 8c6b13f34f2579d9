/** Judges acts that need what no act gives. */
import { placeAt } from "../findings/places.ts"
import { actThatGives, describeAct, describeFact, prepareEndChoice } from "../sequence/index.ts"
import { type EndWords, sayEnds } from "./cable-words.ts"
import { explainNeed, fitMessage, relatedOf, subjectsOf } from "./order-words.ts"
import { defineRule } from "./types.ts"

/** Finds acts whose need is met at no time, neither on arrival nor by any step. */
export const nobodyGives = defineRule({
  id: "nobody-gives",
  severity: "error",
  source: "the order proof",
  check: (subject) => {
    const { kit, fit, sequence } = subject
    const choose = prepareEndChoice(kit, fit, sequence)
    return sequence.faults.flatMap((fault) => {
      if (fault.kind !== "nobody-gives" || fault.leftOut !== undefined) return []
      const { step, act, need, also } = fault
      // Told with their times by the rules about curing and discharging.
      if (/^(cured|discharged):/.test(need.fact)) return []
      const ends = need.fact.startsWith("free:") ? sayEnds(subject, choose, act) : undefined
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
          why: [explainNeed(need, also), ...(ends?.others ?? [])].join(" "),
          ...adviseFix(ends, giver),
          related: relatedOf(kit, also),
          subjects: subjectsOf(fault, step),
        },
      ]
    })
  },
})

/** The act that gives what is needed; the other end of a cable; both, when there are both. An end that is fixed is never freed. */
function adviseFix(ends: EndWords | undefined, giver: string | undefined): { readonly fix?: string } {
  const write = giver === undefined || ends?.isFixed === true ? undefined : `write \`${giver}\` before this act`
  const ways = [write, ends?.instead].filter((way) => way !== undefined)
  const fix = ways.join(", or ")
  return fix === "" ? {} : { fix: `${fix.slice(0, 1).toUpperCase()}${fix.slice(1)}.` }
}
