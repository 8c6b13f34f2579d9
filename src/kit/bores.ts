/** Bores of units and parts, and those written inside a joint. */
import { movePoint, turnDirection } from "../solids/index.ts"
import { quote } from "../spec/tell.ts"
import type { BoreSpec } from "../spec/types.ts"
import { readFastener, readThread } from "./designations.ts"
import { allParts, called, placeOf, report } from "./desk.ts"
import { type Holes, searchHoles } from "./hole-search.ts"
import type { Bore, BorePoint } from "./joint-types.ts"
import { readMaterial } from "./materials.ts"
import type { PlacedHole } from "./placed-holes.ts"
import type { Shop } from "./shop.ts"
import type { Material } from "./types.ts"

/** A bore before its direction is chosen: `walls` are the holes found for it, empty when its places are typed or not known. */
export type RawBore = {
  readonly bore: Bore
  readonly walls: readonly PlacedHole[]
  readonly isDirected: boolean
  /** False when its holes could not be found, which was reported. */
  readonly isKnown: boolean
  /** Path of its `holes:`, when there is one. */
  readonly holesPath: string | undefined
  readonly others: string
}

/**
 * Resolves a bore. `owner` is the part or unit it is written in (then typed places are in the coordinates of that
 * piece and repeat with each of its copies), undefined for a bore written inside a joint (typed places are in the
 * assembly). A thread that cannot be read gives undefined and a finding.
 */
export function resolveBore(
  shop: Shop,
  spec: BoreSpec,
  id: string,
  owner: { readonly id: string; readonly material: Material | undefined } | undefined,
): RawBore | undefined {
  const fastener =
    spec.fastener === undefined
      ? undefined
      : readFastener(shop, spec.fastener, spec.kind === "insert" ? "insert" : "nut")
  if (spec.fastener !== undefined && fastener === undefined) return undefined
  const typedThread = spec.thread === undefined ? undefined : readThread(spec.thread)
  if (spec.thread !== undefined && typedThread === undefined) {
    report(shop, "unreadable-thread", "error", {
      message: `${called(spec.path)} has the thread ${quote(spec.thread)}, which is not known`,
      where: placeOf(shop, spec.path, "thread"),
      why: "metric threads with their usual pitch are known from M1.6 to M24; others need their pitch",
      fix: "write for example `M4`, or `M4x0.5` with its pitch",
    })
    return undefined
  }
  const thread =
    typedThread ?? (fastener === undefined ? undefined : { diameterMm: fastener.diameterMm, pitchMm: fastener.pitchMm })
  const holes = spec.holes === undefined ? undefined : searchHoles(shop, spec.holes, spec.path)
  const owners = holes !== undefined && holes.owners.length > 0 ? holes.owners : owner === undefined ? [] : [owner.id]
  const points = holes === undefined ? [] : pointsOf(shop, holes, owner?.id)
  const walls = holes?.found ?? []
  const blindMm = walls.filter(({ through }) => !through).map(({ depthMm }) => depthMm)
  const isThrough = spec.isThrough || (walls.length > 0 && blindMm.length === 0)
  const bore: Bore = {
    id,
    path: spec.path,
    owner: owners[0],
    owners,
    kind: spec.kind,
    thread,
    material: readMaterial(spec.material) ?? owner?.material ?? materialOf(shop, owners[0]),
    depthMm: spec.depthMm ?? (blindMm.length > 0 ? Math.min(...blindMm) : undefined),
    isThrough,
    holeMm: spec.holeMm ?? meanDiameterMm(walls),
    bossMm: spec.bossMm,
    count: points.length,
    points,
    fastener,
  }
  return {
    bore,
    walls,
    isDirected: holes?.isDirected ?? true,
    isKnown: spec.holes === undefined || holes !== undefined,
    holesPath: spec.holes?.path,
    others: holes?.others ?? "",
  }
}

/** Mean of the diameters found, to 0.01 mm. */
export function meanDiameterMm(walls: readonly PlacedHole[]): number | undefined {
  if (walls.length === 0) return undefined
  const mean = walls.reduce((sum, { diameterMm }) => sum + diameterMm, 0) / walls.length
  return Math.round(mean * 100) / 100
}

function pointsOf(shop: Shop, holes: Holes, owner: string | undefined): readonly BorePoint[] {
  if (holes.found.length > 0) return holes.found.map(({ at, along }) => ({ at, along }))
  const instances = owner === undefined ? [] : (shop.placed.get(owner)?.instances ?? [])
  if (instances.length === 0) return holes.typed
  return instances.flatMap(({ pose }) =>
    holes.typed.map(({ at, along }) => ({ at: movePoint(pose, at), along: turnDirection(pose, along) })),
  )
}

/** Material of the part that an id (of a part or of one of its copies) belongs to. */
function materialOf(shop: Shop, id: string | undefined): Material | undefined {
  const of = id === undefined ? undefined : shop.placed.get(id)?.instances[0]?.of
  const part = allParts(shop.spec).find((one) => one.id === of)
  return part === undefined ? undefined : readMaterial(part.material, part.isPlastic)
}
