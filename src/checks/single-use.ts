/**
 * Things that serve once: a tie is cut to be opened, an adhesive pad does not stick twice, and a locked thread needs new
 * lock. Each time they are put in counts; everything else counts net of what came off before.
 */
import type { Act, Kit } from "../kit/types.ts"
import { type ActIndex, actsOn, countPieces, indexActs, padVerbs } from "./uses.ts"

/** How many pieces of one thing the acts use, and how many the box has, spares included. */
export type Use = {
  /** As in the lines of the box: `tie:clamp`, `pad:grip`, `fastener:ISO 4762 - M4 x 14`. */
  readonly item: string
  readonly id: string
  readonly name: "tie" | "pad" | "joint"
  readonly path: string
  /** What an act without a count takes. */
  readonly whole: number
  readonly had: number
  readonly used: number
  /** Acts that use it. */
  readonly acts: readonly Act[]
  /** Why a piece that was used is not used again; undefined for what may be. */
  readonly why: string | undefined
}

/** Ties, pads, and joints with locked screws that are driven more than once. */
export function listUses(kit: Kit): readonly Use[] {
  const index = indexActs(kit)
  return [
    ...kit.ties.map(({ id, path, count, spare }): Use => {
      const acts = actsOn(index, ["strap"], [id])
      const why = "a tie that was cut open cannot be closed again"
      const used = countPieces(acts, count)
      return { item: `tie:${id}`, id, name: "tie", path, whole: count, had: count + spare, used, acts, why }
    }),
    ...kit.pads.map(({ id, path, count, spare, isAdhesive }): Use => {
      const verbs = padVerbs(index, id)
      const acts = actsOn(index, verbs, [id])
      const used = isAdhesive ? countPieces(acts, count) : countNet(index, verbs, id, count)
      const why = isAdhesive ? "an adhesive pad that was pulled off does not stick again" : undefined
      return { item: `pad:${id}`, id, name: "pad", path, whole: count, had: count + spare, used, acts, why }
    }),
    ...kit.joints
      .filter(({ id, surface }) => surface === "thread-lock" && actsOn(index, ["unscrew"], [id]).length > 0)
      .map(({ id, path, count, spare, fastener }): Use => {
        const acts = actsOn(index, ["start"], [id])
        const why = "a screw with thread lock that was taken out does not lock again"
        const item = `fastener:${fastener.designation}`
        const used = countPieces(acts, count)
        return { item, id, name: "joint", path, whole: count, had: count + spare, used, acts, why }
      }),
  ]
}

/** The most pieces that are on at one time. */
function countNet(index: ActIndex, verbs: readonly Act["verb"][], id: string, whole: number): number {
  let [now, most] = [0, 0]
  for (const { verb, count } of actsOn(index, [...verbs, "remove"], [id])) {
    if (verb === "remove") now = Math.max(0, now - (count ?? whole))
    if (verbs.includes(verb)) now += count ?? whole
    most = Math.max(most, now)
  }
  return most
}
