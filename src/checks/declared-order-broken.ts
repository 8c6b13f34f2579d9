/** Judges the order that the maker declares with `needs-after`. */
import { placeAt } from "../findings/places.ts"
import { buildAdviser } from "./order-advice.ts"
import { explainAlso, fitMessage, relatedOf, subjectsOf } from "./order-words.ts"
import { defineRule } from "./types.ts"

/** Finds steps that stand before a step which their `needs-after` names. */
export const declaredOrderBroken = defineRule({
  id: "declared-order-broken",
  severity: "error",
  source: "the order proof",
  check: ({ kit, sequence }) => {
    const advise = buildAdviser(kit, sequence)
    const steps = new Map(kit.steps.map((step) => [step.id, step]))
    return sequence.faults.flatMap((fault) => {
      if (fault.kind !== "declared-later") return []
      const { step, laterStep, why, path, also } = fault
      const later = steps.get(laterStep)
      const reason =
        why === undefined ? `It says \`needs-after: ${laterStep}\`.` : `The kit says why: ${why.replace(/\.$/, "")}.`
      return [
        {
          message: fitMessage(
            `step \`${step}\` stands before step \`${laterStep}\`, which it needs first`,
            `step \`${step}\` stands before a step that it needs first`,
          ),
          where: placeAt(kit.places, path),
          why: [reason, ...explainAlso(also)].join(" "),
          fix: advise.step(step, laterStep, fault) ?? "Drop this line, or move an act to another step.",
          related: [
            ...(later === undefined
              ? []
              : [{ message: `step \`${laterStep}\` stands here`, where: placeAt(kit.places, later.path) }]),
            ...relatedOf(kit, also),
          ],
          subjects: subjectsOf(fault, step, laterStep),
        },
      ]
    })
  },
})
