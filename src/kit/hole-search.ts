/** The places that a `holes:` of the spec means: typed, or found in the meshes of the pieces that it names. */

import { isTold } from "../findings/places.ts"
import { quote } from "../spec/tell.ts"
import type { HolesSpec } from "../spec/types.ts"
import { mm, trimmed } from "../units/print.ts"
import { allParts, called, placeOf, report } from "./desk.ts"
import type { BorePoint } from "./joint-types.ts"
import { lookUpOrReport } from "./names.ts"
import { unitVector } from "./pieces.ts"
import { fromOtherEnd, holesOf, type PlacedHole } from "./placed-holes.ts"
import type { Shop } from "./shop.ts"

/** How far the typed diameter may be from the one in the mesh. */
const sameDiameterMm = 0.15

/**
 * What a `holes:` came to. `found` are walls in the meshes (their directions still to be chosen where they go
 * through and `isDirected` is false), `typed` are places that stand as they are. `owners` are the named pieces.
 */
export type Holes = {
  readonly found: readonly PlacedHole[]
  readonly typed: readonly BorePoint[]
  readonly owners: readonly string[]
  readonly isDirected: boolean
  /** What was found instead, for the finding of a wrong count. */
  readonly others: string
}

/** Finds the places of a `holes:`; undefined when they cannot be known, which is then reported, or was before. */
export function searchHoles(shop: Shop, holes: HolesSpec, path: string): Holes | undefined {
  if (holes.kind === "typed") {
    const typed = holes.points.map(({ at, along }) => ({ at, along: unitVector(along) ?? ([0, 0, -1] as const) }))
    return { found: [], typed, owners: [], isDirected: true, others: "" }
  }
  const where = placeOf(shop, holes.path)
  const named = holes.in.map((name) => lookUpOrReport(shop, ["part", "instance", "unit", "frame"], name, path, where))
  const owners = named.flatMap((one) => (one === undefined ? [] : [one.id]))
  if (owners.length < named.length) return undefined
  const placed = owners.map((id) => shop.placed.get(id))
  const instances = placed.flatMap((one) => one?.instances ?? [])
  if (placed.some((one) => one === undefined || !one.isWhole)) return undefined
  // A body at fault has other holes than it was meant to have.
  const paths = [...shop.spec.hosts, ...allParts(shop.spec)].filter(({ id }) =>
    placed.some((one) => one?.instances.some(({ of }) => of === id)),
  )
  if (isTold(shop.spec.told, ...paths.flatMap((one) => [`${one.path}/shape`, `${one.path}/model`]))) return undefined
  const bare = owners.find((_, index) => placed[index]?.instances.some(({ mesh }) => mesh === undefined))
  if (bare !== undefined) {
    report(shop, "holes-without-shape", "error", {
      message: `${called(path)} looks for holes in ${quote(bare)}, which has no model and no shape`,
      where,
      fix: `give ${quote(bare)} a \`model:\` or a \`shape:\`, or type the places of the holes`,
      subjects: [bare],
    })
    return undefined
  }
  const all = instances.flatMap((instance) => holesOf(shop.finder, instance))
  const wanted = unitVector(holes.along)
  const fitting = all.filter(({ diameterMm }) => Math.abs(diameterMm - holes.diameterMm) <= sameDiameterMm + 1e-6)
  const found = wanted === undefined ? fitting : fitting.flatMap((hole) => directed(hole, wanted))
  const others = tellHoles(all)
  if (found.length === 0) {
    const isOfDirection = fitting.length > 0
    report(shop, "hole-not-found", "error", {
      message: `${called(path)}: ${owners.map((id) => quote(id)).join(", ")} has no round hole of ${mm(holes.diameterMm)}${isOfDirection ? " in this direction" : ""}`,
      where,
      why: others === "" ? "there is no round hole in it at all" : `round holes in it: ${others}`,
      fix: "write the diameter as it is in the model; `kitleaf measure FILE` lists all holes",
      subjects: owners,
    })
    return undefined
  }
  return { found, typed: [], owners, isDirected: wanted !== undefined, others }
}

/** Counts holes by diameter, for a sentence: `2 of 3.3 mm, 4 of 4.5 mm`. */
export function tellHoles(holes: readonly PlacedHole[]): string {
  const counts = new Map<string, number>()
  for (const { diameterMm } of holes) counts.set(trimmed(diameterMm), (counts.get(trimmed(diameterMm)) ?? 0) + 1)
  const sorted = [...counts].sort(([one], [other]) => Number(one) - Number(other))
  const shown = sorted.slice(0, 8).map(([diameter, count]) => `${count} of ${mm(Number(diameter))}`)
  return [...shown, ...(sorted.length > 8 ? ["…"] : [])].join(", ")
}

/** The hole when it runs in the wanted direction (within 10 degrees); one that goes through is turned into it. */
function directed(hole: PlacedHole, wanted: readonly [number, number, number]): readonly PlacedHole[] {
  const cosine = hole.along[0] * wanted[0] + hole.along[1] * wanted[1] + hole.along[2] * wanted[2]
  if (cosine > 0.985) return [hole]
  return cosine < -0.985 && hole.through ? [fromOtherEnd(hole)] : []
}
