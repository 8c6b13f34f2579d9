/** Judges whether each tool can stay in the hand. */
import { placeAt } from "../findings/places.ts"
import type { Report } from "../findings/types.ts"
import type { Act } from "../kit/types.ts"
import { buildNeighbourTest, isOrderSound } from "./order-freedom.ts"
import { defineRule, type Subject } from "./types.ts"

/**
 * Finds tools that are put down for another one and picked up again, though the order proof would let both steps stand side by
 * side. A torque driver takes all bits and is passed over; so is work on two sides that the kit tells apart.
 */
export const toolPickedUpAgain = defineRule({
  id: "tool-picked-up-again",
  severity: "note",
  source: "practice: work with one tool is done in one go",
  check: (subject) => {
    const { kit, sequence } = subject
    if (!isOrderSound({ kit, sequence })) return []
    const couldBeNeighbours = buildNeighbourTest(sequence)
    const used = listTools(subject)
    const sides = listSides(subject)
    const lastUse = new Map<string, number>()
    const reported = new Set<string>()
    const found: Report[] = []
    for (const [index, tools] of used.entries()) {
      for (const tool of tools) {
        const before = lastUse.get(tool)
        lastUse.set(tool, index)
        if (before === undefined || reported.has(tool)) continue
        const other = used.slice(before + 1, index).flatMap((between) => [...between].filter((one) => one !== tool))[0]
        const [first, second] = [kit.steps[before], kit.steps[index]]
        if (other === undefined || first === undefined || second === undefined) continue
        if (isOtherSide(sides[before], sides[index]) || !couldBeNeighbours(before, index)) continue
        reported.add(tool)
        found.push({
          message: `step \`${second.id}\` needs tool \`${tool}\` again, after \`${other}\` was taken in between`,
          where: placeAt(kit.places, second.path),
          why: `Step \`${first.id}\` uses \`${tool}\` too, and nothing between the two steps needs to stand there.`,
          fix: `Move step \`${second.id}\` next to step \`${first.id}\`.`,
          related: [{ message: "used here before", where: placeAt(kit.places, first.path) }],
          subjects: [second.id, first.id],
        })
      }
    }
    return found
  },
})

/** Tools that each step takes into the hand: for screws that it turns, ties that it trims, and those that it names. */
function listTools({ kit, fit }: Subject): readonly ReadonlySet<string>[] {
  const toolsOf = new Map<string, string[]>()
  for (const { id, kind, uses } of fit.tools) {
    if (kind === "torque-driver" || kind === "declared") continue
    for (const use of uses) toolsOf.set(use, [...(toolsOf.get(use) ?? []), id])
  }
  const isTurned = ({ verb }: Act): boolean => verb === "tighten" || verb === "unscrew" || verb === "trim"
  return kit.steps.map(
    ({ acts, tools }) =>
      new Set([...acts.filter(isTurned).flatMap(({ target }) => toolsOf.get(target) ?? []), ...tools]),
  )
}

/** The sides of the joints that each step works on. */
function listSides({ kit }: Subject): readonly ReadonlySet<string>[] {
  const sideOf = new Map(kit.joints.map(({ id, side }) => [id, side]))
  return kit.steps.map(({ acts }) => new Set(acts.flatMap(({ target }) => sideOf.get(target) ?? [])))
}

/** Work on different sides is better done side by side, each in one go. */
function isOtherSide(one: ReadonlySet<string> | undefined, other: ReadonlySet<string> | undefined): boolean {
  if (one === undefined || other === undefined || one.size === 0 || other.size === 0) return false
  return ![...one].some((side) => other.has(side))
}
