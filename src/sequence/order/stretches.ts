/** Stretches of the present order, for plans too large to count as a whole. */
import { cutPiece, type NumberedPlan, type Piece } from "./piece.ts"

const stretchSteps = 40

/**
 * Cuts a piece into stretches of its present order. Each must leave behind the facts that it leaves in the present order
 * and that still matter: then the stretches can be ordered apart. Undefined where the present order breaks something that
 * no order within the stretches can mend.
 */
export function cutStretches(plan: NumberedPlan, piece: Piece): readonly Piece[] | undefined {
  const stretchOf = new Map(piece.steps.map((step, index) => [step, Math.floor(index / stretchSteps)]))
  if (piece.arcs.some(([from, to]) => (stretchOf.get(from) ?? 0) > (stretchOf.get(to) ?? 0))) return undefined
  const factOf = new Map(piece.facts.map((fact) => [fact.fact, fact]))
  const value = new Map(piece.facts.map(({ fact, holds }) => [fact, holds]))
  const lastNeeder = new Map(piece.facts.map(({ fact, needers }) => [fact, needers.at(-1) ?? -1]))
  const pieces: Piece[] = []
  for (let from = 0; from < piece.steps.length; from += stretchSteps) {
    const steps = piece.steps.slice(from, from + stretchSteps)
    const before = new Map(touchedFacts(plan, steps).map((fact) => [fact, value.get(fact) ?? true]))
    for (const step of steps) {
      for (const fact of plan.takes[step] ?? []) if (factOf.has(fact)) value.set(fact, false)
      for (const fact of plan.gives[step] ?? []) if (factOf.has(fact)) value.set(fact, true)
    }
    const last = steps.at(-1) ?? 0
    const isGoal = (fact: number): boolean => {
      const matters = (lastNeeder.get(fact) ?? -1) > last || factOf.get(fact)?.isGoal === true
      return matters && value.get(fact) === true
    }
    const one = cutPiece(plan, steps, (fact) => before.get(fact) ?? true, isGoal)
    if (one === undefined) return undefined
    if (one.steps.length > 1 || one.facts.length > 0) pieces.push(one)
  }
  return piece.facts.some(({ fact, isGoal }) => isGoal && value.get(fact) !== true) ? undefined : pieces
}

function touchedFacts(plan: NumberedPlan, steps: readonly number[]): readonly number[] {
  return steps.flatMap((step) => [
    ...(plan.needs[step] ?? []),
    ...(plan.gives[step] ?? []),
    ...(plan.takes[step] ?? []),
  ])
}
