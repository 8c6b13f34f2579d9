/** Parts of the box and pieces of the units, with their names in order. */
import { quote } from "../spec/tell.ts"
import type { PartSpec } from "../spec/types.ts"
import { called, type Desk, placeOf, report, wordsOf } from "./desk.ts"
import { readMaterial } from "./materials.ts"
import { lookUpOrReport, reportAmbiguous } from "./names.ts"
import { unitVector } from "./pieces.ts"
import type { Shop } from "./shop.ts"
import type { Part } from "./types.ts"

/** A part without its item reference. */
export type PartDraft = Omit<Part, "itemReference">

/** Longer names do not fit beside an item reference or on a label of 62 mm: common practice, no source. */
const longestName = 60

/** What a part can hide. */
const coveredKinds = [
  ...(["socket", "part", "instance", "unit", "tie", "pad", "joint", "own-joint", "bore", "passage"] as const),
  ...(["cable", "end"] as const),
]

/** Resolves a part; `ownedBy` is the unit whose piece it is. */
export function resolvePart(shop: Shop, spec: PartSpec, ownedBy: string | undefined): PartDraft {
  const name = spec.name ?? wordsOf(spec.id)
  if (name.length > longestName) {
    const words = name.trim().split(/\s+/).length
    report(shop, "name-too-long", "warning", {
      message: `${called(spec.path)} has a name of ${words} words, ${name.length} letters; ${longestName} fit a label`,
      where: placeOf(shop, spec.path, "name"),
      why: "the name stands in lists, on labels and in every sentence about the part",
      fix: "write a short name and tell the rest in the text of a step",
      subjects: [spec.id],
    })
  }
  const mirrors =
    spec.mirrors === undefined
      ? undefined
      : lookUpOrReport(shop, ["part"], spec.mirrors, spec.path, placeOf(shop, spec.path, "mirrors"))?.id
  return {
    id: spec.id,
    path: spec.path,
    name,
    material: readMaterial(spec.material, spec.isPlastic),
    massKg: spec.massKg,
    hand: spec.hand,
    mirrors,
    bag: spec.bag,
    instances: shop.placed.get(spec.id)?.instances.map(({ id }) => id) ?? [],
    copies: spec.copies.length,
    spare: spec.spare,
    goes: unitVector(spec.goes),
    covers: resolveCovers(shop, spec),
    holdsItself: spec.holdsItself,
    isFlexible: spec.isFlexible,
    opens: spec.opens,
    hinge: spec.hinge,
    ownedBy,
  }
}

/** Gives the ids of what a part or a unit hides; unknown names are reported. */
export function resolveCovers(
  shop: Shop,
  { path, covers }: { readonly path: string; readonly covers: readonly string[] },
): readonly string[] {
  return covers.flatMap((covered, index) => {
    const where = placeOf(shop, path, "covers", String(index))
    reportAmbiguous(shop, coveredKinds, covered, called(path), where)
    return lookUpOrReport(shop, coveredKinds, covered, path, where)?.id ?? []
  })
}

/**
 * Gives the entries whose ids are free; an id that an earlier unit, frame, part or piece has already is reported and
 * left out, since both would go by one name in every step.
 */
export function withoutDoubles<Thing extends { readonly id: string; readonly path: string }>(
  shop: Desk,
  taken: Map<string, string>,
  things: readonly Thing[],
): readonly Thing[] {
  return things.filter(({ id, path }) => {
    const earlier = taken.get(id)
    if (earlier === undefined) {
      taken.set(id, path)
      return true
    }
    report(shop, "name-taken", "error", {
      message: `${called(path)} has the name of ${called(earlier)}: ${quote(id)}`,
      where: placeOf(shop, path),
      why: "units, frames, parts and pieces of units are named in the same places, so each needs a name of its own",
      fix: "rename one of them",
      related: [{ message: "named first here", where: placeOf(shop, earlier) }],
      subjects: [id],
    })
    return false
  })
}
