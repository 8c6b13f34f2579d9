/** Clearance and pilot holes: modelled, finished, and the range they should have. All in mm. */
import { pilotHoleMm } from "../fasteners/plastic-joint.ts"
import { findInsert } from "../fasteners/sizes.ts"
import { findClearance } from "../fasteners/tables/iso-273.ts"
import type { Joint } from "../kit/joint-types.ts"
import type { Kit } from "../kit/types.ts"
import { finishedHoleMm, partOf, printingOf } from "./finished.ts"
import type { JointFit, ScrewPath } from "./types.ts"

/** What a diameter that was measured on facets may be off, and what no drill or printer keeps to. */
export const holeToleranceMm = 0.02

/**
 * Clearance hole against ISO 273, fine to coarse: the tightest finished hole of the clamped parts, each as it is in its
 * mesh where a screw is tight there, else as the joint tells it.
 */
export function computeClearance(kit: Kit, joint: Joint, screws: readonly ScrewPath[]): JointFit["clearanceHole"] {
  const { fineMm, coarseMm } = findClearance(joint.fastener.diameterMm)
  const holes = joint.through.flatMap((part) => {
    const found = screws.flatMap(({ clamped }) =>
      clamped.flatMap((one) => (one.part === part ? (one.holeMm ?? []) : [])),
    )
    const told = joint.clearanceMm === undefined ? [] : [joint.clearanceMm]
    const printing = printingOf(kit, part)
    return [...found, ...told].map((modelledMm) => ({ modelledMm, finishedMm: finishedHoleMm(modelledMm, printing) }))
  })
  const [tightest] = holes.sort((one, other) => one.finishedMm - other.finishedMm)
  if (tightest !== undefined) return { ...tightest, neededMm: { min: fineMm, max: coarseMm } }
  const modelledMm = joint.clearanceMm
  return modelledMm === undefined
    ? undefined
    : { modelledMm, finishedMm: modelledMm, neededMm: { min: fineMm, max: coarseMm } }
}

/** Pilot hole in plastic, or hole for an insert, as finished; tapped holes have none, since models draw them anyhow. */
export function computePilot(kit: Kit, joint: Joint): JointFit["pilotHole"] {
  const { bore, fastener } = joint
  if (bore.holeMm === undefined) return undefined
  const owner = partOf(kit, bore.owner)
  const finishedMm = finishedHoleMm(bore.holeMm, printingOf(kit, bore.owner))
  const modelledMm = bore.holeMm
  if (bore.kind === "insert") {
    const diameterMm = bore.thread?.diameterMm ?? fastener.diameterMm
    const insert = bore.fastener === undefined ? undefined : findInsert(bore.fastener)
    const holeMm = insert?.holeMm ?? findInsert({ ...fastener, diameterMm })?.holeMm
    return holeMm === undefined
      ? undefined
      : { modelledMm, finishedMm, neededMm: { min: holeMm - 0.1, max: holeMm + 0.1 } }
  }
  if (bore.kind === "pilot") {
    const plastic = bore.material?.name ?? owner?.material?.name ?? ""
    return { modelledMm, finishedMm, neededMm: pilotHoleMm(plastic, fastener.diameterMm) }
  }
  return undefined
}
