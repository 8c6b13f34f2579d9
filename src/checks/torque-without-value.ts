import { isTold, placeAt } from "../findings/places.ts"
import { inputPaths } from "./joint-inputs.ts"
import { defineRule } from "./types.ts"

/** Finds joints that a step tightens though neither the maker nor a formula gives a torque. */
export const torqueWithoutValue = defineRule({
  id: "torque-without-value",
  severity: "error",
  source: "practice: a tightening act without a value is guessed by the reader",
  check: ({ kit, fit }) =>
    fit.joints.flatMap(({ joint: id, torque, screws }) => {
      const joint = kit.joints.find((one) => one.id === id)
      const act = kit.steps.flatMap(({ acts }) => acts).find(({ verb, target }) => verb === "tighten" && target === id)
      if (joint === undefined || act === undefined || torque.valueNm !== undefined) return []
      // A part beside its screws has no grip; that is told by the holes.
      const isBeside = screws.some(({ clamped }) => clamped.some(({ kind }) => kind === "missed"))
      if (isTold(kit.told, ...inputPaths(kit, joint)) || isBeside) return []
      const message = `joint \`${id}\` is tightened, but no torque is written and none can be computed`
      const missing = torque.missing.length === 0 ? "a property class of the screw" : torque.missing.join(" and ")
      return [
        {
          message,
          why: `a torque cannot be computed without ${missing}`,
          fix: `Write \`torque:\` in joint \`${id}\`, or add ${missing}.`,
          where: placeAt(kit.places, joint.path),
          related: [{ message: "tightened here", where: placeAt(kit.places, act.path) }],
          subjects: [id],
        },
      ]
    }),
})
