/** Judges whether somebody looks at what carries the unit, or the power. */
import { placeAt } from "../findings/places.ts"
import type { Report } from "../findings/types.ts"
import type { Act, Kit } from "../kit/types.ts"
import { isOrderSound } from "./order-freedom.ts"
import { defineRule } from "./types.ts"

/**
 * Finds steps that tighten a joint between a heavy unit and the kit, close a tie that holds parts or a unit on a frame, or
 * connect a live cable, and neither say in `result` what is right nor inspect it by name, there or later. A tie whose `until` says
 * when it is tight enough is looked at while it is pulled. `inspect: all` does not say what to look at.
 */
export const inspectionMissingAfterCriticalAct = defineRule({
  id: "inspection-missing-after-critical-act",
  severity: "warning",
  source: "practice: what carries a load or live power is looked at before the work goes on",
  check: ({ kit, sequence }) => {
    if (!isOrderSound(sequence)) return []
    return kit.steps.flatMap((step, index): readonly Report[] => {
      if (step.result !== undefined || kit.places[`${step.path}/result`] !== undefined) return []
      if (step.acts.some(({ verb, target }) => verb === "inspect" && target !== "all")) return []
      for (const act of step.acts) {
        const why = sayWhyCritical(kit, act)
        if (why === undefined || isInspectedLater(kit, index, act)) continue
        return [
          {
            message: `step \`${step.id}\` does not say how to see that \`${act.target}\` is right`,
            where: placeAt(kit.places, step.path),
            why,
            fix: `Write a \`result\` in step \`${step.id}\`, such as what does not move or which lamp is on.`,
            related: [{ message: "the act that matters", where: placeAt(kit.places, act.path) }],
            subjects: [step.id, act.target],
          },
        ]
      }
      return []
    })
  },
})

/** Why an act is critical, as a sentence; undefined when it is not. */
function sayWhyCritical(kit: Kit, { verb, target }: Act): string | undefined {
  const massOf = (id: string): number | undefined => {
    const instance = kit.instances.find((one) => one.id === id || one.of === id)
    return instance?.owner === "unit" ? kit.units.find((unit) => unit.id === instance.of)?.massKg : undefined
  }
  if (verb === "tighten") {
    const joint = kit.joints.find(({ id }) => id === target)
    const unit = [...(joint?.through ?? []), ...(joint?.bore.owners ?? [])].find((id) => massOf(id) !== undefined)
    return unit === undefined ? undefined : `Joint \`${target}\` carries \`${unit}\`, ${massOf(unit)} kg.`
  }
  if (verb === "strap") {
    const tie = kit.ties.find(({ id }) => id === target)
    const isCableOnly = tie?.holds.every((id) => kit.cables.some((cable) => cable.id === id)) === true
    const carries = kit.units.some(({ massKg }) => massKg !== undefined)
    return tie?.frame === undefined || tie.until !== undefined || isCableOnly || !carries
      ? undefined
      : `Tie \`${target}\` holds everything on \`${tie.frame}\`.`
  }
  if (verb === "connect") {
    const cable = kit.cables.find(({ ends }) => ends.some(({ id }) => id === target))
    return cable?.isLive === true ? `Cable \`${cable.id}\` is live.` : undefined
  }
  return undefined
}

/** A later act inspects the thing itself, its part or its cable by name. */
function isInspectedLater(kit: Kit, index: number, { target }: Act): boolean {
  const names = new Set([target, target.split(".")[0] ?? target])
  return kit.steps
    .slice(index)
    .some(({ acts }) =>
      acts.some((act) => act.verb === "inspect" && (names.has(act.target) || act.words?.includes(target))),
    )
}
