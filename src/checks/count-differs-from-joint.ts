/** Judges the counts that are typed in acts on screws and ties. */
import { placeAt } from "../findings/places.ts"
import type { Act } from "../kit/types.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"
import { type ActIndex, actsOn, countPieces, indexActs } from "./uses.ts"

/**
 * Finds joints whose acts start, tighten or unscrew another number of screws than the joint has.
 * Tightening may be done in passes: then each pass takes all. Also acts that close more ties than there are without the spares.
 */
export const countDiffersFromJoint = defineRule({
  id: "count-differs-from-joint",
  severity: "error",
  source: "the supply: each screw of a joint is put in once",
  check: ({ kit }) => {
    const index = indexActs(kit)
    const joints = [...kit.joints, ...kit.ownJoints].flatMap((joint) =>
      (["start", "tighten", "unscrew"] as const).flatMap((verb) => {
        const acts = actsOn(index, [verb], [joint.id])
        const done = countDone(index, joint, verb, acts)
        const last = acts.findLast(({ count }) => count !== undefined)
        if (last === undefined || done === joint.count) return []
        const said = verb === "start" ? "started" : verb === "tighten" ? "tightened" : "unscrewed"
        return [
          {
            message: fitMessage(
              `${done} ${done === 1 ? "screw" : "screws"} of joint \`${joint.id}\` ${done === 1 ? "is" : "are"} ${said}, the joint has ${joint.count}`,
              `joint \`${joint.id}\` has ${joint.count} screws, ${done} are ${said}`,
            ),
            where: placeAt(kit.places, last.path),
            why: `The acts say ${acts.map(({ count }) => count ?? "all").join(" + ")}; the joint says ${joint.count}.`,
            fix: `Leave the count away, or make the counts add up to ${joint.count}.`,
            related: [
              { message: `${joint.count} screws declared here`, where: placeAt(kit.places, joint.path, "screws") },
            ],
            subjects: [joint.id],
          },
        ]
      }),
    )
    // Of more than the box has, spares included, the rule about the supply tells.
    const ties = kit.ties.flatMap(({ id, path, count, spare }) =>
      actsOn(index, ["strap"], [id])
        .filter((act) => act.count !== undefined && act.count > count && act.count <= count + spare)
        .map((act) => ({
          message: `${act.count ?? 0} of tie \`${id}\` are closed at once, the tie has ${count} and ${spare} spare`,
          where: placeAt(kit.places, act.path),
          why: "Spares are for ties that are lost or cut again; what holds in the finished work is counted without them.",
          fix: `Leave the count away, or declare ${act.count ?? 0} ties.`,
          related: [{ message: `${count} declared here`, where: placeAt(kit.places, path) }],
          subjects: [id],
        })),
    )
    return [...joints, ...ties]
  },
})

/** Screws that the acts take, all passes of tightening and all rounds of taking out and putting in again as one. */
function countDone(
  index: ActIndex,
  joint: { readonly id: string; readonly count: number },
  verb: "start" | "tighten" | "unscrew",
  acts: readonly Act[],
): number {
  const counts = acts.map(({ count }) => count ?? joint.count)
  const most = Math.max(0, ...counts)
  if (most > joint.count) return most
  const sum = countPieces(acts, joint.count)
  const rounds =
    verb === "tighten" ? counts.filter((count) => count === joint.count).length : roundsOf(index, joint.id, verb)
  if (rounds > 0 && sum % joint.count === 0 && sum / joint.count <= Math.max(1, rounds)) return joint.count
  if (verb === "tighten" && rounds > 0) return joint.count
  return rounds > 1 ? Math.round(sum / rounds) : sum
}

/** How often the screws can go in (once, and again after each time they came out), or come out. */
function roundsOf(index: ActIndex, joint: string, verb: "start" | "unscrew"): number {
  const other = verb === "start" ? "unscrew" : "start"
  return 1 + new Set(actsOn(index, [other], [joint]).map(({ path }) => path.split("/").slice(0, 2).join("/"))).size
}
