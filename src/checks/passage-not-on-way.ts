import { isTold, placeAt } from "../findings/places.ts"
import { defineRule } from "./types.ts"
import { allActs } from "./uses.ts"

/**
 * Finds cables that run in the end through an opening that their `via` leaves out. One without `via` has its openings from its
 * acts alone; one that was only pulled through on the way there is out of it again.
 */
export const passageNotOnWay = defineRule({
  id: "passage-not-on-way",
  severity: "warning",
  source: "the kit's own `via:`",
  check: ({ kit, sequence }) => {
    const last = sequence.steps.at(-1)
    return (last?.cables ?? []).flatMap(({ cable: id, passages }) => {
      const cable = kit.cables.find((one) => one.id === id)
      if (cable === undefined || cable.via.length === 0 || isTold(kit.told, `${cable.path}/via`)) return []
      return passages
        .filter((passage) => !cable.via.includes(passage))
        .flatMap((passage) => {
          const ends = cable.ends.map((end) => end.id)
          const act = allActs(kit).findLast(
            ({ verb, target, through }) => verb === "feed" && through === passage && ends.includes(target),
          )
          if (act === undefined) return []
          return [
            {
              message: `\`${id}\` is fed through \`${passage}\`, which is not on its way (\`via\`)`,
              where: placeAt(kit.places, act.path),
              why: `Its way is ${cable.via.map((one) => `\`${one}\``).join(", ")}; where \`${passage}\` lies among them is not told, so its order along the cable is not proved.`,
              fix: `Write \`${passage}\` into \`via\`, or take \`feed: ${act.target} through ${passage}\` out.`,
              related: [{ message: "its way", where: placeAt(kit.places, cable.path, "via") }],
              subjects: [id, passage],
            },
          ]
        })
    })
  },
})
