/** Other orders of the steps of a proved variant: drawn at random, judged by the checker and by a simulation of our own. */

import type { Proof } from "../../src/document/types.ts"
import type { Kit } from "../../src/kit/types.ts"
import { proveSequence } from "../../src/sequence/index.ts"
import type { OrderFault, Sequence } from "../../src/sequence/types.ts"

/** The kit with its steps in another order: `order[place]` is the index of a step. */
export function reorder(kit: Kit, order: readonly number[]): Kit {
  return { ...kit, steps: order.flatMap((index) => kit.steps[index] ?? []) }
}

/** What the checker finds wrong about another order of the steps. */
export function judgeOrder({ kit, fit }: Proof, order: readonly number[]): readonly OrderFault[] {
  return proveSequence(reorder(kit, order), fit).faults
}

/**
 * Simulates the acts of the clean kit in another order, without anything of the checker but their facts: true when every
 * need holds when its act begins, every goal at the end, and every `needs-after` is kept.
 */
export function simulate({ kit, sequence }: Proof, order: readonly number[]): boolean {
  const holds = new Set(sequence.initial)
  const places = new Map(order.map((index, place) => [kit.steps[index]?.id ?? "", place]))
  for (const index of order) if (!doStep(sequence, holds, index)) return false
  const isKept = kit.steps.every(({ id, needsAfter }) =>
    needsAfter.every(({ step }) => (places.get(step) ?? -1) < (places.get(id) ?? 0)),
  )
  return isKept && sequence.goals.every(({ fact }) => holds.has(fact))
}

/** Does all acts of a step; false when a need of one does not hold. */
function doStep({ actions }: Sequence, holds: Set<string>, index: number): boolean {
  for (const { stepIndex, needs, gives, takes } of actions) {
    if (stepIndex !== index) continue
    if (needs.some(({ fact }) => !holds.has(fact))) return false
    for (const fact of takes) holds.delete(fact)
    for (const fact of gives) holds.add(fact)
  }
  return true
}

/** An order that keeps all links between the steps, drawn at random. */
export function drawLinked({ kit, sequence }: Proof, random: () => number): readonly number[] {
  const indexOf = new Map(kit.steps.map(({ id }, index) => [id, index]))
  const before = kit.steps.map(() => new Set<number>())
  for (const { from, to } of sequence.links) before[indexOf.get(to) ?? -1]?.add(indexOf.get(from) ?? -1)
  const order: number[] = []
  const left = new Set(kit.steps.keys())
  while (left.size > 0) {
    const free = [...left].filter((index) => [...(before[index] ?? [])].every((one) => !left.has(one)))
    const next = free[Math.floor(random() * free.length)]
    if (next === undefined) throw new Error("the links of a valid order run in a circle")
    order.push(next)
    left.delete(next)
  }
  return order
}

/** Any step that can be done, again and again; undefined when none can and some are left. */
export function drawDoable({ kit, sequence }: Proof, random: () => number): readonly number[] | undefined {
  const order: number[] = []
  const left = new Set(kit.steps.keys())
  let holds = new Set(sequence.initial)
  while (left.size > 0) {
    const tries = [...left].sort(() => random() - 0.5)
    const next = tries.find((index) => {
      const after = new Set(holds)
      const isDone = doStep(sequence, after, index)
      if (isDone) holds = after
      return isDone
    })
    if (next === undefined) return undefined
    order.push(next)
    left.delete(next)
  }
  return order
}

/** The present order with a few steps lifted out and put in elsewhere. */
export function drawNear(count: number, moves: number, random: () => number): readonly number[] {
  const order = Array.from({ length: count }, (_, index) => index)
  for (let move = 0; move < moves; move += 1) {
    const [lifted = 0] = order.splice(Math.floor(random() * order.length), 1)
    order.splice(Math.floor(random() * (order.length + 1)), 0, lifted)
  }
  return order
}
