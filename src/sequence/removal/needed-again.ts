/** What is used up by taking the kit off, so that mounting it again needs it anew. */
import type { Fit } from "../../fit/types.ts"
import type { Act } from "../../kit/types.ts"
import type { Lookup } from "../lookup.ts"

/**
 * Ties that are cut, adhesive pads that are peeled off, and screws whose thread-lock has set: by their line of the box, with
 * the count. A tie is cut even where it could be opened: nobody trusts a tie twice. Source: practice.
 */
export function listNeededAgain(
  lookup: Lookup,
  fit: Fit,
  acts: readonly Act[],
): readonly { readonly item: string; readonly count: number }[] {
  const counts = new Map<string, number>()
  const add = (item: string, count: number): void => {
    counts.set(item, (counts.get(item) ?? 0) + count)
  }
  for (const { verb, target, instances } of acts) {
    const tie = instances.length > 0 ? undefined : lookup.ties.get(target)
    const pad = lookup.partByPiece.has(target) ? undefined : lookup.pads.get(target)
    const joint = lookup.joints.get(target)
    if (verb === "remove" && tie !== undefined) add(`tie:${tie.id}`, tie.count)
    if (verb === "remove" && pad?.isAdhesive === true) add(`pad:${pad.id}`, instances.length || pad.count)
    if (verb === "unscrew" && joint?.surface === "thread-lock") {
      const { designation } = joint.fastener
      const item = fit.box.find(({ fastener, bag }) => fastener?.designation === designation && bag === joint.bag)?.item
      add(item ?? `fastener:${designation}`, joint.count)
    }
  }
  return [...counts].map(([item, count]) => ({ item, count }))
}
