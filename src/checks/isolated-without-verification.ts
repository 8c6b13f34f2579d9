/** Judges whether somebody makes sure that what was isolated is really off. */
import { placeAt } from "../findings/places.ts"
import { defineRule } from "./types.ts"
import { actsOn, explainByLeftOut, indexActs } from "./uses.ts"

/**
 * Finds units and cables that an act isolates and none verifies. A warning, not an error: what is unplugged and whose plug
 * stays in the hand of who works on it is exempt from the lockout standard (29 CFR 1910.147(a)(2)(iii)(A)), and a kit
 * does not say at which voltage its unit runs.
 */
export const isolatedWithoutVerification = defineRule({
  id: "isolated-without-verification",
  severity: "warning",
  source: "29 CFR 1910.147(d)(6): isolation is verified before the work starts",
  check: ({ kit, sequence }) => {
    const index = indexActs(kit)
    const isExplained = explainByLeftOut(kit, sequence)
    const acts = kit.steps.flatMap((step) => step.acts.map((act) => ({ step: step.id, act })))
    const targets = new Set(acts.flatMap(({ act }) => (act.verb === "isolate" ? [act.target] : [])))
    return [...targets].flatMap((id) => {
      const first = acts.find(({ act }) => act.verb === "isolate" && act.target === id)
      if (first === undefined || actsOn(index, ["verify"], [id]).length > 0 || isExplained(["verify"])) return []
      return [
        {
          message: `step \`${first.step}\` isolates \`${id}\`, and no step verifies that it is off`,
          where: placeAt(kit.places, first.act.path),
          why: "A switch can be the wrong one, and a lead can have a second source: only a look or a meter tells that it is off.",
          fix: `Write \`verify: ${id}\` after this act, and say in the text how to see it.`,
          subjects: [id, first.step],
        },
      ]
    })
  },
})
