/** A repair in words: what to move, why it cannot be fewer, or what contradicts itself. */
import { describeFact, hasWords } from "../facts.ts"
import type { Chain, Move, MovedSteps, Plan, Repair, Requirement } from "../plan-types.ts"
import type { FactKey } from "../types.ts"

/** Gives the name of a step of the plan by its index, without backticks. */
type NameOf = (step: number) => string

/**
 * Says a repair in sentences, one a line: first the moves in the order in which to make them, then why there cannot be
 * fewer, then whether there are other answers. Names stand in backticks; `nameOf` gives the id of a step unless told
 * otherwise. The reasons within chains use ids.
 */
export function tellRepair(plan: Plan, repair: Repair, nameOf?: NameOf): readonly string[] {
  const name = (step: number): string => `\`${nameOf?.(step) ?? plan.steps[step]?.id ?? ""}\``
  if (repair.kind === "valid") return ["The order is valid; no step needs to move."]
  if (repair.kind === "not-found")
    return [
      `No valid order was found within the limit of the search. At least ${countMoves(repair.atLeast)} needed, if there is one.`,
    ]
  if (repair.kind === "moved")
    return [
      ...tellMoves(repair.moves, name),
      ...repair.chains.map((chain) => tellChain(plan, chain, name)),
      ...tellProof(repair),
      ...tellOthers(repair),
    ]
  return [
    "These requirements contradict each other: no order of the steps meets them all.",
    ...repair.core.map((one) => tellRequirement(plan, one, name)),
    repair.isMinimal
      ? "Without any one of them the others can be met."
      : "Not each of them may be needed for the contradiction: the search came to its limit.",
  ]
}

/** Steps that land behind one another are told together. */
function tellMoves(moves: readonly Move[], name: NameOf): readonly string[] {
  const blocks: Move[][] = []
  for (const move of moves) {
    const block = blocks.at(-1)
    if (block !== undefined && block.at(-1)?.step === move.after) block.push(move)
    else blocks.push([move])
  }
  return blocks.map((block) => {
    const after = block[0]?.after
    const to = after === undefined ? "to the front" : `after step ${name(after)}`
    const names = block.map(({ step }) => name(step))
    return names.length === 1
      ? `Move step ${names.join("")} ${to}.`
      : `Move steps ${joinNames(names)}, in this order, ${to}.`
  })
}

function tellChain(plan: Plan, { steps, reasons }: Chain, name: NameOf): string {
  const why = reasons.join(" ")
  const pinned = steps.filter((step) => plan.steps[step]?.isPinned === true)
  if (steps.length === 2 && pinned.length === 1) {
    const moved = steps.filter((step) => !pinned.includes(step))
    return `Step ${pinned.map(name).join("")} is pinned, so step ${moved.map(name).join("")} must move: ${why}`
  }
  return `Of steps ${joinNames(steps.map(name))} only one can stay where it is: ${why}`
}

function tellProof({ isProved, atLeast, moves, chains }: MovedSteps): readonly string[] {
  if (!isProved) {
    const found = moves.length === 1 ? "this takes one" : `this takes ${moves.length}`
    return [`At least ${countMoves(atLeast)} needed; ${found}. Whether fewer would do was not proved.`]
  }
  const told = chains.reduce((sum, { steps }) => sum + steps.length - 1, 0)
  const how = told < moves.length ? " Every other way to meet the needs was tried." : ""
  return [`No order with fewer moves exists.${how}`]
}

function tellOthers({ others, isLeastFar }: MovedSteps): readonly string[] {
  if (others === "none") return ["There is no other answer with as few moves."]
  if (others === "unknown") return ["There may be other answers with as few moves."]
  return isLeastFar
    ? ["There are other answers with as few moves; none moves steps less far."]
    : ["There are other answers with as few moves; not all were compared, so one may move steps less far."]
}

function tellRequirement(plan: Plan, requirement: Requirement, name: NameOf): string {
  if (requirement.kind === "need") {
    const { fact, why, act } = requirement.need
    return `Step ${name(requirement.step)} ${act} only when ${sayFact(fact)}: ${why}.`
  }
  if (requirement.kind === "goal")
    return `When all is done, ${sayFact(requirement.need.fact)}: ${requirement.need.why}.`
  if (requirement.kind === "declared") {
    const { before, after, why } = requirement.order
    return `Step ${name(after)} comes after step ${name(before)}: ${why}.`
  }
  const { step } = requirement
  const others = plan.steps.flatMap(({ isPinned }, one) => (isPinned && one !== step ? [one] : []))
  return others.length === 0
    ? `Step ${name(step)} is pinned.`
    : `Step ${name(step)} is pinned: it keeps its place before or after each other pinned step.`
}

/** A fact of a plan that comes from no kit has no words of its own. */
function sayFact(fact: FactKey): string {
  return hasWords(fact) ? describeFact(fact) : `\`${fact}\` holds`
}

function countMoves(count: number): string {
  return count === 1 ? "1 move is" : `${count} moves are`
}

function joinNames(names: readonly string[]): string {
  return names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1) ?? ""}`
}
