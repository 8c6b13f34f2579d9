/** Which cable end passes which opening. */
import type { Cable, Kit, Passage } from "../kit/types.ts"
import type { Outline } from "../solids/types.ts"
import { finishedHoleMm, printingOf } from "./finished.ts"
import { passesThrough } from "./openings.ts"
import type { PassageFit } from "./types.ts"

/**
 * Computes every pair of a passage and an end of a cable that goes through it (`via:` or an act that names both).
 * Ends and passages without a told size are left out. The opening is the finished one.
 */
export function computePassages(kit: Kit): readonly PassageFit[] {
  return kit.passages.flatMap((passage) => {
    if (passage.opening === undefined) return []
    const opening = finishedOpening(kit, passage, passage.opening)
    return kit.cables
      .filter((cable) => goesThrough(kit, cable, passage.id))
      .flatMap(({ ends }) => ends)
      .flatMap((end): readonly PassageFit[] => {
        if (end.envelope === undefined) return []
        const passing = passesThrough(end.envelope, opening)
        return [{ passage: passage.id, end: end.id, envelope: end.envelope, opening, ...passing }]
      })
  })
}

function goesThrough(kit: Kit, cable: Cable, passage: string): boolean {
  if (cable.via.includes(passage)) return true
  const ends = cable.ends.map(({ id }) => id)
  const acts = [...kit.arrives, ...kit.steps.flatMap((step) => step.acts)]
  return acts.some((act) => act.through === passage && (ends.includes(act.target) || act.target === cable.id))
}

function finishedOpening(kit: Kit, passage: Passage, opening: Outline): Outline {
  const printing = printingOf(kit, passage.part)
  const finished = (sizeMm: number): number => finishedHoleMm(sizeMm, printing)
  if (opening.kind === "circle") return { kind: "circle", diameterMm: finished(opening.diameterMm) }
  return { ...opening, widthMm: finished(opening.widthMm), heightMm: finished(opening.heightMm) }
}
