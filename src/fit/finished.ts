/** Sizes as they come off the printer: the modelled size with the kit's `printing` block applied. All in mm. */
import type { Kit, Part, Printing } from "../kit/types.ts"

/** Printing block of a part's plastic; undefined for metal, or when the kit tells nothing about the plastic. */
export function printingOf(kit: Kit, partId: string | undefined): Printing | undefined {
  const { material } = partOf(kit, partId) ?? {}
  if (material?.kind !== "plastic") return undefined
  return kit.printing.find((one) => one.material.toLowerCase() === material.name.toLowerCase())
}

/**
 * Finished diameter or width of a hole. Holes come out `holeMm` off and shrunk, whether or not the model was drawn
 * larger to make up for it; only a slicer that compensates gives the size as modelled.
 */
export function finishedHoleMm(modelledMm: number, printing: Printing | undefined): number {
  if (printing === undefined || printing.compensatedIn === "slicer") return modelledMm
  return Math.max(0, modelledMm * (1 - printing.shrinkagePercent / 100) + printing.holeMm)
}

/** Part by its id or by the id of one of its instances. */
export function partOf(kit: Kit, id: string | undefined): Part | undefined {
  const of = kit.instances.find((instance) => instance.id === id)?.of ?? id
  return kit.parts.find((part) => part.id === of)
}
