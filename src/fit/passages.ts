/** Which cable end passes which opening. */
import type { Kit, Passage } from "../kit/types.ts"
import type { Outline } from "../solids/types.ts"
import { finishedHoleMm, printingOf } from "./finished.ts"
import { passesThrough } from "./openings.ts"
import type { PassageFit } from "./types.ts"

/**
 * Computes every pair of a passage and an end of a cable that goes through it (`via:` or an act that names both).
 * Ends and passages without a told size are left out. The opening is the finished one.
 */
export function computePassages(kit: Kit): readonly PassageFit[] {
  const byPassage = indexCables(kit)
  return kit.passages.flatMap((passage) => {
    const cables = byPassage.get(passage.id)
    if (passage.opening === undefined || cables === undefined) return []
    const opening = finishedOpening(kit, passage, passage.opening)
    return kit.cables
      .filter((cable) => cables.has(cable.id))
      .flatMap(({ ends }) => ends)
      .flatMap((end): readonly PassageFit[] => {
        if (end.envelope === undefined) return []
        const passing = passesThrough(end.envelope, opening)
        return [{ passage: passage.id, end: end.id, envelope: end.envelope, opening, ...passing }]
      })
  })
}

/** Ids of the cables that go through each passage. */
function indexCables(kit: Kit): ReadonlyMap<string, ReadonlySet<string>> {
  const byPassage = new Map<string, Set<string>>()
  const add = (passage: string, cable: string): void => {
    const known = byPassage.get(passage)
    if (known === undefined) byPassage.set(passage, new Set([cable]))
    else known.add(cable)
  }
  for (const { id, via } of kit.cables) for (const passage of via) add(passage, id)
  const cableOf = new Map(
    kit.cables.flatMap(({ id, ends }) => [id, ...ends.map((end) => end.id)].map((name) => [name, id])),
  )
  for (const { through, target } of [...kit.arrives, ...kit.steps.flatMap((step) => step.acts)]) {
    const cable = cableOf.get(target)
    if (through !== undefined && cable !== undefined) add(through, cable)
  }
  return byPassage
}

function finishedOpening(kit: Kit, passage: Passage, opening: Outline): Outline {
  const printing = printingOf(kit, passage.part)
  const finished = (sizeMm: number): number => finishedHoleMm(sizeMm, printing)
  if (opening.kind === "circle") return { kind: "circle", diameterMm: finished(opening.diameterMm) }
  return { ...opening, widthMm: finished(opening.widthMm), heightMm: finished(opening.heightMm) }
}
