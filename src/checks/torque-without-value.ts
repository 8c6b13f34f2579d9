import { isTold, placeAt } from "../findings/places.ts"
import type { Joint } from "../kit/joint-types.ts"
import type { Kit } from "../kit/types.ts"
import { defineRule } from "./types.ts"

/** Finds joints that a step tightens though neither the maker nor a formula gives a torque. */
export const torqueWithoutValue = defineRule({
  id: "torque-without-value",
  severity: "error",
  source: "practice: a tightening act without a value is guessed by the reader",
  check: ({ kit, fit }) =>
    fit.joints.flatMap(({ joint: id, torque }) => {
      const joint = kit.joints.find((one) => one.id === id)
      const act = kit.steps.flatMap(({ acts }) => acts).find(({ verb, target }) => verb === "tighten" && target === id)
      if (joint === undefined || act === undefined || torque.valueNm !== undefined) return []
      if (isTold(kit.told, ...inputPaths(kit, joint))) return []
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

/** Paths of what a torque is computed from: where one is at fault, that was told. */
function inputPaths(kit: Kit, { path, through, bore }: Joint): readonly string[] {
  const pieces = [...through, ...bore.owners].map((id) => id.split(".")[0])
  // Without its holes nobody knows whose bore it is.
  const parts = [...kit.parts, ...kit.units].filter(({ id }) => bore.owners.length === 0 || pieces.includes(id))
  return [
    ...["screws", "washer", "through", "into", "nut", "holes", "grip", "torque"].map((key) => `${path}/${key}`),
    ...(bore.path === path ? [] : [bore.path]),
    ...parts.flatMap((part) => ["model", "shape", "material", "plastic", "copies"].map((key) => `${part.path}/${key}`)),
  ]
}
