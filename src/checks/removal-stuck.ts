/** Judges whether the kit can be taken off again, and the buyer's things be as on arrival. */
import { placeAt } from "../findings/places.ts"
import { describeAct } from "../sequence/index.ts"
import { isOrderSound } from "./order-freedom.ts"
import { defineRule } from "./types.ts"
import { allActs } from "./uses.ts"

/**
 * Finds acts of mounting that no act on the way back undoes, one finding for each. Silent while the order of mounting is
 * faulty: then nobody knows what the way back starts from.
 */
export const removalStuck = defineRule({
  id: "removal-stuck",
  severity: "note",
  source: "the order proof of removal",
  check: ({ kit, sequence }) => {
    if (!isOrderSound({ kit, sequence })) return []
    const { stuck } = sequence.removal
    const acts = allActs(kit)
      .filter(({ path }) => stuck.some(({ act }) => act === path))
      // Which of the two is taken off is not known where a part has the name of the pad; that is told as ambiguous.
      .filter(({ verb, target }) => verb !== "stick" || !kit.parts.some(({ id }) => id === target))
    return acts.map((act) => {
      const { target, verb, path } = act
      const isThrownAway = verb === "discard"
      const reasons = stuck.filter((one) => one.act === path).map(({ why }) => why)
      return {
        message: isThrownAway
          ? `\`${target}\` is thrown away, so the buyer's things stay changed when the kit comes off`
          : `nothing undoes that a step ${describeAct(act)} when the kit comes off`,
        where: placeAt(kit.places, path),
        why: `On the way back ${reasons[0] ?? ""}.`,
        fix: isThrownAway
          ? `Write \`set-aside: ${target}\`, or accept this with the reason.`
          : "Tell the buyer, or change the kit.",
        subjects: [target],
      }
    })
  },
})
