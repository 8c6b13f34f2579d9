/** Why steps stand in each other's way, as sentences with names. */
import type { Chain, Plan } from "../plan-types.ts"
import { listBits } from "./bits.ts"
import { type Closure, isBefore } from "./closure.ts"
import type { ReasonedArc } from "./forced.ts"
import type { Stay } from "./stay.ts"

/** A way through more links than this is told by the names of its steps alone. */
const mostLinksTold = 3

/**
 * Groups of steps of which only one each can stay: chains of the matching, and pairs of a step with a pinned one.
 * They follow from links that no order can do without; the sum of their lengths less one each is a proved number of moves.
 */
export function tellChains(
  plan: Plan,
  {
    arcs,
    closure,
    stay,
    pinned,
  }: {
    readonly arcs: readonly ReasonedArc[]
    readonly closure: Closure
    readonly stay: Stay
    readonly pinned: readonly number[]
  },
): readonly Chain[] {
  const next = indexArcs(closure.count, arcs)
  const tell = (steps: readonly number[]): Chain => {
    const reasons = steps.slice(1).map((later, index) => tellWay(plan, closure, next, later, steps[index] ?? 0))
    return { steps, reasons }
  }
  const pushed = listBits(stay.pushed, 0, closure.words).map((step) => {
    const fixed = pinned.find((one) => isInTheWay(closure, step, one)) ?? step
    return tell(step < fixed ? [step, fixed] : [fixed, step])
  })
  const isLater = new Set(stay.next)
  const chains: Chain[] = []
  stay.next.forEach((partner, start) => {
    if (partner < 0 || isLater.has(start)) return
    const steps = [start]
    for (let step = partner; step >= 0; step = stay.next[step] ?? -1) steps.push(step)
    chains.push(tell(steps))
  })
  return [...pushed, ...chains].sort((one, other) => (one.steps[0] ?? 0) - (other.steps[0] ?? 0))
}

/** Two steps whose present order is the wrong one. */
function isInTheWay(closure: Closure, one: number, other: number): boolean {
  return one < other ? isBefore(closure, other, one) : isBefore(closure, one, other)
}

function indexArcs(count: number, arcs: readonly ReasonedArc[]): readonly (readonly ReasonedArc[])[] {
  const next: ReasonedArc[][] = Array.from({ length: count }, () => [])
  for (const arc of arcs) next[arc.from]?.push(arc)
  return next
}

/** Why `from` must come before `to`: the sentences of the shortest way from one to the other. */
function tellWay(
  plan: Plan,
  closure: Closure,
  next: readonly (readonly ReasonedArc[])[],
  from: number,
  to: number,
): string {
  const way = findWay(closure, next, from, to)
  if (way.length <= mostLinksTold) return way.map((arc) => tellArc(plan, arc)).join(" ")
  const names = way.slice(0, -1).map(({ to: step }) => nameStep(plan, step))
  return `Step ${nameStep(plan, to)} comes after step ${nameStep(plan, from)} by way of ${names.join(", ")}.`
}

/** Breadth first; only steps between the two are entered. */
function findWay(
  closure: Closure,
  next: readonly (readonly ReasonedArc[])[],
  from: number,
  to: number,
): readonly ReasonedArc[] {
  const cameBy = new Map<number, ReasonedArc>()
  const open = [from]
  for (let index = 0; index < open.length && !cameBy.has(to); index += 1)
    for (const arc of next[open[index] ?? 0] ?? []) {
      if (cameBy.has(arc.to) || (arc.to !== to && !isBefore(closure, arc.to, to))) continue
      cameBy.set(arc.to, arc)
      open.push(arc.to)
    }
  const way: ReasonedArc[] = []
  for (let arc = cameBy.get(to); arc !== undefined; arc = arc.from === from ? undefined : cameBy.get(arc.from))
    way.push(arc)
  return way.reverse()
}

/** One link as a sentence: why `to` comes after `from`. */
function tellArc(plan: Plan, { from, to, kind, condition: { requirement } }: ReasonedArc): string {
  const [earlier, later] = [`step ${nameStep(plan, from)}`, nameStep(plan, to)]
  if (requirement.kind === "declared") return `Step ${later} comes after ${earlier}: ${requirement.order.why}.`
  if (requirement.kind === "pinned") return `Step ${later} stays behind ${earlier}: both are pinned.`
  if (requirement.kind === "goal") return `Step ${later} comes after ${earlier}: at the end ${requirement.need.why}.`
  const { act, why } = requirement.need
  if (kind === "gives") return `Step ${later} ${act} only after ${earlier}: ${why}.`
  if (kind === "takes") return `Step ${later} comes only after ${earlier} ${act}: ${why}.`
  const user = nameStep(plan, requirement.step)
  return `Step ${later} comes after ${earlier} and before step ${user} ${act}: ${why}.`
}

/** The id of a step in backticks. */
function nameStep(plan: Plan, step: number): string {
  return `\`${plan.steps[step]?.id ?? ""}\``
}
