/** Doors and lids as they stand while they are open: turned about their hinge. */
import type { Instance, Kit } from "../kit/types.ts"
import type { Sequence } from "../sequence/types.ts"
import { combinePoses, movePoint, turnAbout, turnDirection } from "../solids/poses.ts"
import type { Pose } from "../solids/types.ts"

/**
 * Gives for each step the kit as it is to be drawn: hinged pieces that are open when the step is done are turned open,
 * so that they hide nothing. Pieces without a known hinge stay as they are.
 */
export function openLeaves(kit: Kit, sequence: Sequence): ReadonlyMap<string, Kit> {
  const opened = new Map(
    kit.parts.flatMap(({ hinge, instances }) =>
      hinge === undefined
        ? []
        : kit.instances
            .filter(({ id }) => instances.includes(id))
            .map((one) => [one.id, turnOpen(one, hinge)] as const),
    ),
  )
  if (opened.size === 0) return new Map(kit.steps.map(({ id }) => [id, kit]))
  const open = new Set([...opened.keys()].filter((id) => sequence.initial.includes(`open:${id}`)))
  let next = 0
  return new Map(
    kit.steps.map(({ id }, stepIndex) => {
      for (; sequence.actions[next]?.stepIndex === stepIndex; next += 1) {
        const action = sequence.actions[next]
        for (const leaf of opened.keys()) if (action?.takes.includes(`open:${leaf}`)) open.delete(leaf)
        for (const leaf of opened.keys()) if (action?.gives.includes(`open:${leaf}`)) open.add(leaf)
      }
      const turned = new Set(open)
      const instances = kit.instances.map((one) => (turned.has(one.id) ? (opened.get(one.id) ?? one) : one))
      return [id, turned.size === 0 ? kit : { ...kit, instances }]
    }),
  )
}

/** Clockwise as seen along the axis is the right hand about it. */
function turnOpen(instance: Instance, { at, along, angleDeg }: NonNullable<Kit["parts"][number]["hinge"]>): Instance {
  const turn: Pose = turnAbout(movePoint(instance.pose, at), turnDirection(instance.pose, along), angleDeg)
  return { ...instance, pose: combinePoses(turn, instance.pose) }
}
