/** Links that the order of the steps breaks, and needs that nobody meets. */
import type { Kit } from "../kit/types.ts"
import type { Action, FactKey, Need } from "./types.ts"
import type { Miss, Walk } from "./walk.ts"

/** `late` must stand before `early` but comes after it, in order of the steps. Both are indexes of steps. */
export type Broken = {
  readonly early: number
  readonly late: number
} & (
  | {
      readonly kind: "needs-later" | "taken-away"
      readonly need: Need
      /** Index of the act that needs, and of the act that gives too late or took away too soon. */
      readonly action: number
      readonly other: number
      /** The act whose move would mend it as well: it gives the fact again, or took it before. */
      readonly alternative: number | undefined
    }
  | { readonly kind: "declared-later"; readonly why: string | undefined; readonly path: string }
)

/** A `needs-after` of a step with the indexes of both steps; `other` must come first. */
export type Declared = {
  readonly step: number
  readonly other: number
  readonly why: string | undefined
  readonly path: string
}

/** Every `needs-after` whose step exists. */
export function findDeclared(kit: Kit): readonly Declared[] {
  const indexById = new Map(kit.steps.map(({ id }, index) => [id, index]))
  return kit.steps.flatMap(({ needsAfter }, step) =>
    needsAfter.flatMap((after) => {
      const other = indexById.get(after.step)
      return other === undefined ? [] : [{ step, other, why: after.why, path: after.path }]
    }),
  )
}

/**
 * Sorts the unmet needs: broken links between two acts, and needs that no act meets. A fact that was taken away for good
 * and is a goal is told as a missed goal: an end disconnected and never connected again.
 */
export function findBroken(
  actions: readonly Action[],
  walk: Walk,
  declared: readonly Declared[],
  goals: ReadonlySet<FactKey>,
): { readonly broken: readonly Broken[]; readonly unmet: readonly Miss[] } {
  const broken: Broken[] = []
  const unmet: Miss[] = []
  const stepOf = (index: number): number => actions[index]?.stepIndex ?? -1
  for (const miss of walk.misses) {
    const { action, need, taker, giver } = miss
    if (giver === undefined && taker !== undefined && goals.has(need.fact) && !walk.final.has(need.fact)) continue
    const isLater = giver !== undefined && (taker === undefined || prefersGiver(stepOf, miss, taker, giver))
    if (isLater) {
      const place = { early: stepOf(action), late: stepOf(giver) }
      broken.push({ kind: "needs-later", need, action, other: giver, alternative: taker, ...place })
    } else if (taker !== undefined) {
      const place = { early: stepOf(taker), late: stepOf(action) }
      broken.push({ kind: "taken-away", need, action, other: taker, alternative: giver, ...place })
    } else unmet.push(miss)
  }
  for (const { step, other, why, path } of declared)
    if (other > step) broken.push({ kind: "declared-later", early: step, late: other, why, path })
  return { broken, unmet }
}

/** Where both moves would mend it, the nearer step is the likelier cause; a loose piece is fastened, not taken off. */
function prefersGiver(stepOf: (index: number) => number, miss: Miss, taker: number, giver: number): boolean {
  if (miss.need.fact.startsWith("held:")) return true
  return stepOf(giver) - stepOf(miss.action) <= stepOf(miss.action) - stepOf(taker)
}
