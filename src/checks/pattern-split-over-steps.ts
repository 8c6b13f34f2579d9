/** Judges whether the screws of one joint are worked on in one go. */
import { placeAt } from "../findings/places.ts"
import type { Report } from "../findings/types.ts"
import type { Joint } from "../kit/joint-types.ts"
import type { Action } from "../sequence/types.ts"
import { buildNeighbourTest, isOrderSound } from "./order-freedom.ts"
import { defineRule, type Subject } from "./types.ts"

/**
 * Finds joints that are worked on in two steps with other work between, though the order proof would let the two stand side
 * by side: some of the screws in each, or started in one and tightened in the other with nothing done to the joined pieces
 * meanwhile. A second pass over all screws, and work with a turn between, are meant so.
 */
export const patternSplitOverSteps = defineRule({
  id: "pattern-split-over-steps",
  severity: "warning",
  source:
    "practice: equal acts on one pattern belong together; a screw left for later is forgotten (Agrawala et al. 2003)",
  check: (subject) => {
    const { kit, sequence } = subject
    if (!isOrderSound({ kit, sequence })) return []
    const couldBeNeighbours = buildNeighbourTest(sequence)
    const actionsOf = groupByTarget(sequence.actions)
    return kit.joints.flatMap((joint): readonly Report[] => {
      const acts = actionsOf.get(joint.id) ?? []
      for (const [position, second] of acts.entries()) {
        const first = acts[position - 1]
        if (first === undefined || second.stepIndex - first.stepIndex < 2) continue
        if (isMeant(subject, joint, first, second)) continue
        if (!couldBeNeighbours(first.stepIndex, second.stepIndex)) continue
        const between = second.stepIndex - first.stepIndex - 1
        const words =
          first.verb === second.verb ? "partly in" : `${first.verb === "start" ? "started" : "tightened"} in`
        const more = first.verb === second.verb ? "partly in" : "tightened in"
        return [
          {
            message: `joint \`${joint.id}\` is ${words} step \`${first.step}\`, ${more} step \`${second.step}\``,
            where: placeAt(kit.places, second.act.path),
            why: `${between === 1 ? "A step" : `${between} steps`} of other work ${between === 1 ? "stands" : "stand"} between, and nothing needs it so.`,
            fix: `Move step \`${second.step}\` next to step \`${first.step}\`, or join them.`,
            related: [{ message: "begun here", where: placeAt(kit.places, first.act.path) }],
            subjects: [joint.id, first.step, second.step],
          },
        ]
      }
      return []
    })
  },
})

function groupByTarget(actions: readonly Action[]): ReadonlyMap<string, readonly Action[]> {
  const groups = new Map<string, Action[]>()
  for (const action of actions) {
    if (action.verb !== "start" && action.verb !== "tighten") continue
    const group = groups.get(action.act.target)
    if (group === undefined) groups.set(action.act.target, [action])
    else group.push(action)
  }
  return groups
}

/** A second pass over all screws, screws of two faces with a turn between, or loose screws while their pieces are set. */
function isMeant({ sequence, kit }: Subject, joint: Joint, first: Action, second: Action): boolean {
  const isWhole = ({ act }: Action): boolean => act.count === undefined || act.count >= joint.count
  if (first.verb === "tighten" && (second.verb === "start" || (isWhole(first) && isWhole(second)))) return true
  const between = sequence.actions.filter(
    ({ stepIndex }) => stepIndex > first.stepIndex && stepIndex < second.stepIndex,
  )
  if (between.some(({ verb }) => verb === "turn" || verb === "wait")) return true
  if (first.verb === second.verb) return false
  // The unit lies there all the time: what else is screwed to it does not say that this piece is still to be set.
  const isStanding = (id: string): boolean => [...kit.units, ...kit.frames].some((host) => host.id === id)
  const pieces = new Set(piecesOf(joint).filter((id) => !isStanding(id)))
  const touches = ({ act }: Action): boolean => {
    const other = kit.joints.find(({ id }) => id === act.target)
    const named = other === undefined ? [act.target, ...act.instances] : piecesOf(other)
    return named.flatMap(bothNames).some((id) => pieces.has(id))
  }
  return between.some(touches)
}

/** Pieces that a joint holds together, copies also by the name of their part. */
function piecesOf({ through, bore }: Joint): readonly string[] {
  return [...through, ...bore.owners].flatMap(bothNames)
}

function bothNames(id: string): readonly string[] {
  return [id, id.split(".")[0] ?? id]
}
