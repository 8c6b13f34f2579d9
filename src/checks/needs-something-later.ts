/** Judges acts that need what only a later act gives. */
import { placeAt } from "../findings/places.ts"
import type { Act, Kit } from "../kit/types.ts"
import { describeAct } from "../sequence/index.ts"
import type { FactKey } from "../sequence/types.ts"
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
          why: explainNeed(need, also) + sayLies(need.fact),
          fix: isDouble(kit, act, need.fact)
            ? "Remove one of the two acts."
            : `${(
                isSame
                  ? `In step \`${step}\`, write \`${laterAct.verb}\` before \`${act.verb}\`.`
                  : (advise.step(step, laterStep, fault) ?? advise.act(act, step, laterAct, laterStep))
              ).replace(/\.$/, "")}${adviseGroup(kit, act, need.fact)}.`,
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

/** How the work lies before anything turns it is a guess, which the maker may know better. */
function sayLies(fact: FactKey): string {
  if (!fact.startsWith("faces:")) return ""
  return " Before the first `turn` every other side counts as within reach; if it is not, a `turn` to it is missing."
}

/** A piece that was screwed to a group on the bench may have been forgotten in it. */
function adviseGroup({ assemblies, joints, parts }: Kit, act: Act, fact: FactKey): string {
  const group = assemblies.find(({ id }) => fact === `on:${id}`)
  const joint = act.verb === "start" ? joints.find(({ id }) => id === act.target) : undefined
  if (group === undefined || joint === undefined) return ""
  const outside = parts.filter(
    ({ id, instances }) =>
      [...joint.through, ...joint.bore.owners].some((one) => one === id || instances.includes(one)) &&
      !instances.some((one) => group.instances.includes(one)),
  )
  const names = outside.map(({ id }) => `\`${id}\``).join(" and ")
  return names === "" ? "" : `, or add ${names} to \`of\` of \`${group.id}\``
}

/** Power is taken off a second time before it is back. */
function isDouble({ steps }: Kit, act: Act, fact: FactKey): boolean {
  if (act.verb !== "isolate" || !fact.startsWith("power-on:")) return false
  const same = steps.flatMap(({ acts }) =>
    acts.filter(({ verb, target }) => verb === "isolate" && target === act.target),
  )
  return same.indexOf(act) > 0
}
