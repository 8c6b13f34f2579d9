/** What the precedence links leave free: shared by the rules that judge an order which is valid already. */
import type { Kit } from "../kit/types.ts"
import type { Sequence } from "../sequence/types.ts"

/**
 * True when the proof found nothing and all names were resolved: advice about a good order is only noise while the order
 * is wrong, or while it is not known what the acts are about.
 */
export function isOrderSound({ kit, sequence }: { readonly kit: Kit; readonly sequence: Sequence }): boolean {
  return sequence.faults.length === 0 && kit.told.length === 0
}

/**
 * Prepares the question whether two steps, by index, could stand side by side: nothing between them both waits for the first
 * and is needed by the second, by way of any number of links. Each answer looks at the links between the two steps only.
 */
export function buildNeighbourTest({ steps, links }: Sequence): (first: number, second: number) => boolean {
  const indexes = new Map(steps.map(({ step }, index) => [step, index]))
  const after: number[][] = steps.map(() => [])
  for (const { from, to } of links) {
    const [start = -1, end = -1] = [indexes.get(from), indexes.get(to)]
    if (start < end) after[start]?.push(end)
  }
  return (first, second) => {
    const reached = new Set<number>([first])
    for (let index = first; index < second; index += 1) {
      if (!reached.has(index)) continue
      for (const next of after[index] ?? []) {
        if (next === second && index !== first) return false
        if (next < second) reached.add(next)
      }
    }
    return true
  }
}
