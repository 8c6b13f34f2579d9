/** Holes that a joint's screws must go through when neither the joint nor its bore tells their places. */
import { findClearance } from "../fasteners/tables/iso-273.ts"
import { quote } from "../spec/tell.ts"
import type { JointSpec } from "../spec/types.ts"
import { mm } from "../units/print.ts"
import { called, placeOf, report } from "./desk.ts"
import { type Holes, tellHoles } from "./hole-search.ts"
import { holesOf, joinWalls } from "./placed-holes.ts"
import type { Shop } from "./shop.ts"

/** How far a hole may be outside the series and still be meant for the screw. */
const outsideMm = 0.15

/**
 * Gives the round holes of the first clamped piece that let the screw through: between fine and coarse of ISO 273, or
 * of the declared clearance. They are taken when they are as many as the screws; else that is a note, and the screws
 * are not drawn. A piece whose shape could not be had was reported before.
 */
export function guessHoles(shop: Shop, spec: JointSpec, first: string | undefined, screwMm: number): Holes | undefined {
  const placed = first === undefined ? undefined : shop.placed.get(first)
  if (first === undefined || placed === undefined || !placed.isWhole) return undefined
  const { fineMm, coarseMm } = findClearance(screwMm)
  const [leastMm, mostMm] = spec.clearanceMm === undefined ? [fineMm, coarseMm] : [spec.clearanceMm, spec.clearanceMm]
  const all = placed.instances.flatMap((instance) => holesOf(shop.finder, instance))
  const fitting = all.filter(
    ({ diameterMm }) => diameterMm >= leastMm - outsideMm - 1e-6 && diameterMm <= mostMm + outsideMm + 1e-6,
  )
  const { count } = spec.screws
  const others = tellHoles(all)
  for (const found of [fitting, joinWalls(fitting)]) {
    if (found.length === count) return { found, typed: [], owners: [first], isDirected: false, others }
  }
  const range = leastMm === mostMm ? mm(leastMm) : `${mm(leastMm)} to ${mm(mostMm)}`
  report(shop, "joint-without-places", "note", {
    message: `${called(spec.path)} does not say where its screws go, so they are not drawn`,
    where: placeOf(shop, spec.path),
    why: `${quote(first)} has ${fitting.length} round holes of ${range} for ${count} screws${others === "" ? "" : `; its round holes: ${others}`}`,
    fix: "write `holes: 5.5 in plate` with diameter and part, or the places of the screws",
    subjects: [spec.id],
  })
  return undefined
}
