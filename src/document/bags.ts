/** Which bag to open at a step, and which to put away first, so that few lie open side by side. */
import type { Context } from "./context.ts"

/** One sentence or two for the step of this index; undefined where no bag is opened, or where the kit has one bag only. */
export function sayBagsToOpen({ kit, sequence, words }: Context, index: number): string | undefined {
  const isOpen = (bag: string, at: number): boolean => sequence.steps[at]?.openBags.includes(bag) === true
  const packed = kit.bags.filter(({ id }) => sequence.steps.some(({ openBags }) => openBags.includes(id)))
  const opened = packed.filter(({ id }) => isOpen(id, index) && !isOpen(id, index - 1))
  if (opened.length === 0 || packed.length < 2) return undefined
  // Bags are put away where the next one is opened: at each of the steps since then nothing was taken from them.
  const lastOpening = findLastOpening(packed, isOpen, index)
  const done = packed.filter(
    ({ id }) =>
      !isOpen(id, index) &&
      sequence.steps.slice(lastOpening, index).some((_, offset) => isOpen(id, lastOpening + offset)),
  )
  const ids = (bags: readonly { readonly id: string }[]): readonly string[] => bags.map(({ id }) => id)
  return words.steps.openBags(ids(opened), ids(done))
}

/** The last step before this one that opens a bag; 0 when none does. */
function findLastOpening(
  bags: readonly { readonly id: string }[],
  isOpen: (bag: string, at: number) => boolean,
  index: number,
): number {
  for (let at = index - 1; at > 0; at -= 1) if (bags.some(({ id }) => isOpen(id, at) && !isOpen(id, at - 1))) return at
  return 0
}
