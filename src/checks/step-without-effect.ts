/** Judges whether each step changes anything. */
import { placeAt } from "../findings/places.ts"
import type { Act, Kit } from "../kit/types.ts"
import { isOrderSound } from "./order-freedom.ts"
import type { Subject } from "./types.ts"
import { defineRule } from "./types.ts"

/** Finds steps whose acts leave everything as it is: what they do was done before. */
export const stepWithoutEffect = defineRule({
  id: "step-without-effect",
  severity: "warning",
  source: "practice: a step that changes nothing was copied, or its acts do not say what it does",
  check: (subject) => {
    const { kit, sequence } = subject
    if (!isOrderSound({ kit, sequence })) return []
    const givers = firstGivers(subject)
    return kit.steps.flatMap((step, index) => {
      const change = sequence.steps[index]
      const hasEffect = change === undefined || change.factsGained.length > 0 || change.factsLost.length > 0
      // Turns alone are told as needless turns.
      const isWork = step.acts.some(({ verb }) => verb !== "turn")
      if (hasEffect || !isWork || !step.acts.every((act) => isMeantToChange(subject, act))) return []
      // Acts that were left out of the kit are told already, and what they would change is not known.
      if (step.acts.length === 0 || countWritten(kit, step.path) > step.acts.length) return []
      const earlier = [
        ...new Set(sequence.actions.filter((one) => one.stepIndex === index).flatMap(({ gives }) => gives)),
      ]
        .flatMap((fact) => givers.get(fact) ?? [])
        .find((giver) => giver < index)
      const other = earlier === undefined ? undefined : kit.steps[earlier]
      return [
        {
          message: `step \`${step.id}\` changes nothing`,
          where: placeAt(kit.places, step.path),
          why: "Whatever its acts do was so before.",
          fix: "Remove the step, or write in `do:` what it really does; a look is `inspect`, a pause is `wait`.",
          ...(other === undefined
            ? {}
            : {
                related: [{ message: `step \`${other.id}\` did it already`, where: placeAt(kit.places, other.path) }],
              }),
          subjects: [step.id],
        },
      ]
    })
  },
})

/** Looking, waiting and cleaning what has no id change no fact and are no less useful; so is a second pass over screws. */
function isMeantToChange({ kit, fit }: Subject, { verb, target, to, count }: Act): boolean {
  if (verb === "wait" || verb === "inspect") return false
  if (verb === "clean" || verb === "set-aside" || verb === "discard") return target !== ""
  if (verb === "turn") return to !== undefined
  if (verb !== "tighten" && verb !== "start") return true
  const passes = fit.joints.find(({ joint }) => joint === target)?.tightening?.passes ?? 1
  const all = kit.joints.find(({ id }) => id === target)?.count
  return passes === 1 && (count === undefined || count === all)
}

/** For each fact, the index of the first step that gives it. */
function firstGivers({ sequence }: Subject): ReadonlyMap<string, number> {
  const givers = new Map<string, number>()
  for (const { gives, stepIndex } of sequence.actions) {
    for (const fact of gives) if (!givers.has(fact)) givers.set(fact, stepIndex)
  }
  return givers
}

function countWritten(kit: Kit, path: string): number {
  let count = 0
  while (kit.places[`${path}/do/${count}`] !== undefined) count += 1
  return count
}
