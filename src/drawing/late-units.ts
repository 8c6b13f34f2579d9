/** Units that a step brings to their place: they are not in the picture before, unless they are worked on. */
import type { Kit, Step } from "../kit/types.ts"
import type { Sequence } from "../sequence/types.ts"

/**
 * Gives, for each step, the instances of units that are not in its picture: a later step places them, and neither this step
 * touches them nor is something screwed to them before they are placed (then they are dressed on the table first).
 */
export function findLateUnits(kit: Kit, sequence: Sequence): readonly ReadonlySet<string>[] {
  const late = kit.units.flatMap((unit) => {
    const index = sequence.steps.findIndex(({ placed }) => unit.instances.some((id) => placed.includes(id)))
    return index > 0 && !isDressed(kit, sequence, unit.id, index) ? [{ unit, index }] : []
  })
  return kit.steps.map(
    (step, index) =>
      new Set(
        late
          .filter(({ unit, index: placed }) => index < placed && !isTouched(kit, step, unit.id))
          .flatMap(({ unit }) => piecesOf(kit, unit.id)),
      ),
  )
}

/** A joint of the kit that holds the unit is started before the unit is placed. */
function isDressed(kit: Kit, sequence: Sequence, unit: string, placedIndex: number): boolean {
  const own = new Set(piecesOf(kit, unit))
  const joints = kit.joints
    .filter(({ bore, through }) => [...bore.owners, ...through].some((id) => id === unit || own.has(id)))
    .map(({ id }) => id)
  return sequence.steps
    .slice(0, placedIndex)
    .some(({ jointsStarted }) => jointsStarted.some((started) => joints.includes(started)))
}

/** An act of the step is about the unit, its screws, pieces or sockets. */
function isTouched(kit: Kit, step: Step, unit: string): boolean {
  const own = new Set([
    ...piecesOf(kit, unit),
    ...kit.ownJoints.filter((joint) => joint.unit === unit).map(({ id }) => id),
    ...kit.sockets.filter(({ owner }) => owner === unit).map(({ id }) => id),
  ])
  return step.acts.some(({ target, to, instances }) => {
    if (target === unit || (to !== undefined && own.has(to))) return true
    return own.has(target) || instances.some((id) => own.has(id))
  })
}

/** The unit's own instances and those of its removable pieces. */
function piecesOf(kit: Kit, unit: string): readonly string[] {
  const ids = kit.parts.flatMap((part) => (part.ownedBy === unit ? part.instances : []))
  return [...(kit.units.find(({ id }) => id === unit)?.instances ?? []), ...ids]
}
