import { placeAt } from "../findings/places.ts"
import { defineRule } from "./types.ts"

/** Finds screws in one bag (or loose in the box) that a person takes for each other. */
export const lookAlikesInOneBag = defineRule({
  id: "look-alikes-in-one-bag",
  severity: "warning",
  source: "practice: same thread and lengths within 4 mm are mixed up",
  check: ({ kit, fit }) =>
    fit.lookAlikes.flatMap(({ one, other, difference }) => {
      const lines = fit.box.filter(({ item }) => item === one)
      const pair = lines.flatMap((line) =>
        fit.box.filter(({ item, bag }) => item === other && bag === line.bag).map((second) => ({ line, second })),
      )
      return pair.flatMap(({ line, second }) => {
        const joints = [line, second].map(({ uses }) => kit.joints.find(({ id }) => id === uses[0]))
        const [first, last] = joints
        if (first === undefined || last === undefined || line.fastener === undefined || second.fastener === undefined)
          return []
        const place = line.bag === undefined ? "loose in the box" : `in bag \`${line.bag}\``
        const message = `screws of \`${first.id}\` and \`${last.id}\` are both ${place} and look alike`
        return [
          {
            message,
            why: `${line.fastener.designation} and ${second.fastener.designation}: ${difference}`,
            fix: "Put them into two bags, or use one screw for both joints.",
            where: placeAt(kit.places, last.path, "screws"),
            related: [{ message: "the other screws", where: placeAt(kit.places, first.path, "screws") }],
            subjects: [first.id, last.id],
          },
        ]
      })
    }),
})
