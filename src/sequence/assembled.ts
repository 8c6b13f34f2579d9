/** Groups of pieces that are joined on the bench and put in their place as one: what each waits for, and what waits for it. */
import type { Joint } from "../kit/joint-types.ts"
import type { Assembly, Tie } from "../kit/types.ts"
import { fact } from "./facts.ts"
import { instancesOf, type Lookup } from "./lookup.ts"
import { screwsHolding } from "./own-pieces.ts"
import type { Need } from "./types.ts"

/** Every piece of the group is there and held: a loose one would be left behind or fall. */
export function completeNeeds(lookup: Lookup, { id, instances }: Assembly): readonly Need[] {
  return [
    ...instances.map((instance) => ({ fact: fact("on", instance), why: `\`${instance}\` is a piece of \`${id}\`` })),
    ...instances
      .filter((instance) => isHeldOnBench(lookup, instance))
      .map((instance) => ({
        fact: fact("held", instance),
        why: `\`${instance}\` would fall off \`${id}\` while it is loose`,
      })),
  ]
}

/** A joint, or a tie that closes round no frame, holds it; what only a tie round the frame holds is held there alone. */
function isHeldOnBench(lookup: Lookup, instance: string): boolean {
  const ids = [instance, lookup.partByPiece.get(instance)?.id ?? instance]
  const own = screwsHolding(lookup.ownJoints, lookup.partByPiece.get(instance))
  return (
    own !== undefined ||
    lookup.kit.joints.some(({ through, bore }) => [...through, ...bore.owners].some((id) => ids.includes(id))) ||
    lookup.kit.ties.some(({ frame, holds }) => frame === undefined && holds.some((id) => ids.includes(id)))
  )
}

/** A joint between a piece of a group and one outside is made where the group is in its place. */
export function jointAssemblies(lookup: Lookup, { through, bore }: Joint): readonly Assembly[] {
  const pieces = [...through, ...bore.owners].flatMap((id) => instancesOf(lookup, id))
  return lookup.kit.assemblies.filter(({ instances }) => {
    const inside = pieces.filter((piece) => instances.includes(piece)).length
    return inside > 0 && inside < pieces.length
  })
}

/** A tie round a frame is closed where the group whose pieces it holds is in its place. */
export function tieAssemblies(lookup: Lookup, { frame, holds }: Tie): readonly Assembly[] {
  if (frame === undefined) return []
  const pieces = holds.flatMap((id) => instancesOf(lookup, id))
  return lookup.kit.assemblies.filter(({ instances }) => pieces.some((piece) => instances.includes(piece)))
}

/** Needs these groups in their place. */
export function inPlaceNeeds(assemblies: readonly Assembly[], why: (id: string) => string): readonly Need[] {
  return assemblies.map(({ id }) => ({ fact: fact("on", id), why: why(id) }))
}

/** Ties and joints that hold a group where it is: they come off before it does. */
export function holdersOf(
  lookup: Lookup,
  assembly: Assembly,
): { readonly ties: readonly Tie[]; readonly joints: readonly Joint[] } {
  return {
    ties: lookup.kit.ties.filter((tie) => tieAssemblies(lookup, tie).includes(assembly)),
    joints: lookup.kit.joints.filter((joint) => jointAssemblies(lookup, joint).includes(assembly)),
  }
}
