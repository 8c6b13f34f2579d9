/** What lies on the table when all is done. */
import type { LeftOver } from "../advice-types.ts"
import { fact } from "../facts.ts"
import type { Walked } from "./index.ts"

/**
 * Spares by line of the box, then the unit's own screws that stay out, the buyer's pieces that stay off, and the tools. What
 * was thrown away is not on the table.
 */
export function listLeftOver({ lookup, fit, initial, walk }: Walked): readonly LeftOver[] {
  const { kit } = lookup
  const { final } = walk
  const had = new Set(initial)
  const isThrownAway = (...ids: readonly string[]): boolean => ids.some((id) => final.has(fact("discarded", id)))
  const spares = new Map<string, number>()
  for (const { item, spare } of fit.box) if (spare > 0) spares.set(item, (spares.get(item) ?? 0) + spare)
  const screws = kit.ownJoints.filter(({ id }) => final.has(fact("out", id)) && !isThrownAway(id))
  const pieces = kit.parts
    .filter(({ ownedBy }) => ownedBy !== undefined)
    .flatMap(({ id, instances }) => {
      const off = instances.filter(
        (one) => had.has(fact("on", one)) && final.has(fact("off", one)) && !isThrownAway(one, id),
      )
      return off.length === 0 ? [] : [{ item: id, count: off.length }]
    })
  const cables = kit.cables.filter(({ id }) => final.has(fact("kept", id)))
  return [
    ...[...spares].map(([item, count]): LeftOver => ({ kind: "spare", item, count })),
    ...screws.map(({ id, count }): LeftOver => ({ kind: "own-screws", item: id, count })),
    ...[...pieces, ...cables.map(({ id }) => ({ item: id, count: 1 }))].map(
      (off): LeftOver => ({ kind: "taken-off", ...off }),
    ),
    ...fit.tools.map(({ id }): LeftOver => ({ kind: "tool", item: id, count: 1 })),
  ]
}
