/** Judges what must be true when the last step is done. */
import { placeAt } from "../findings/places.ts"
import type { Act } from "../kit/types.ts"
import { actThatGives, describeAct, describeMissed, findChance, prepareEndChoice } from "../sequence/index.ts"
import { adviseFeed } from "./cable-words.ts"
import { writeAct } from "./order-advice.ts"
import { explainAlso, fitMessage, relatedOf, subjectsOf } from "./order-words.ts"
import { defineRule, type Subject } from "./types.ts"

/** Finds joints left loose, ends left free, covers left off, cables beside their passage, power left off. */
export const goalNotReached = defineRule({
  id: "goal-not-reached",
  severity: "error",
  source: "the order proof",
  check: (checked) => {
    const { kit, fit, sequence } = checked
    const choose = prepareEndChoice(kit, fit, sequence)
    return sequence.faults.flatMap((fault) => {
      if (fault.kind !== "goal-missed" || fault.leftOut !== undefined || kit.told.includes("steps")) return []
      const { need, lastStep, lastAct, path, subject, also } = fault
      // Told with its times by the rule about curing.
      if (need.fact.startsWith("cured:")) return []
      const [kindOfFact, cable = "", passage = ""] = need.fact.split(":")
      const feed = kindOfFact === "thru" ? adviseFeed(checked, choose, cable, passage, lastStep) : undefined
      const giver = actThatGives(need.fact)
      const missed = describeMissed(need.fact)
      const seen =
        lastAct === undefined
          ? ""
          : ` Step \`${lastStep ?? ""}\` ${describeAct(lastAct)}, and no step after it mends that.`
      const sentences = explainAlso(also)
        .map((sentence) => ` ${sentence}`)
        .join("")
      return [
        {
          message: fitMessage(missed, `something of \`${subject}\` is left undone at the end`),
          where: placeAt(kit.places, lastAct?.path ?? path),
          why: `${need.why.slice(0, 1).toUpperCase()}${need.why.slice(1)}.${seen}${sentences}`,
          ...(feed !== undefined
            ? { fix: feed }
            : giver === undefined
              ? {}
              : { fix: adviseWhere(checked, giver, fault) }),
          related: relatedOf(kit, also),
          subjects: subjectsOf(fault, lastStep, subject),
        },
      ]
    })
  },
})

type Missed = Extract<Subject["sequence"]["faults"][number], { kind: "goal-missed" }>

/** The act that is missing, and the first place where it can be done. Screws that are started again are tightened too. */
function adviseWhere({ kit, fit, sequence }: Subject, giver: string, { lastAct, lastStep }: Missed): string {
  const [verb = "", target = ""] = giver.split(": ")
  const acts = verb === "start" ? `\`${giver}\` and \`tighten: ${target}\`` : `\`${giver}\``
  if (lastStep === undefined) return `Write ${acts}.`
  const last = sequence.actions.findLastIndex(({ act }) => act === lastAct)
  // Words of the format that start an act are verbs; a feed or connect names two things and is told where it is.
  const isPlain = /^[^ ]+$/.test(target) && verb !== "connect"
  const chance = isPlain ? findChance(kit, fit, sequence, verb as Act["verb"], target, last) : undefined
  if (chance === undefined) return `Write ${acts} in step \`${lastStep}\` or a later one.`
  return chance.behind === undefined
    ? `Write ${acts} at the end of step \`${chance.step}\`.`
    : `Write ${acts} in step \`${chance.step}\`, behind \`${writeAct(chance.behind)}\`.`
}
