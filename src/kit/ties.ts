/** Ties, metal bands and pads. */
import type { PadSpec, TieSpec } from "../spec/types.ts"
import { placeOf, wordsOf } from "./desk.ts"
import { lookUpOrReport, type NameKind } from "./names.ts"
import { placePad, unitVector } from "./pieces.ts"
import type { Shop } from "./shop.ts"
import type { Instance, Pad, Tie } from "./types.ts"

/** Drafts without their item reference. */
export type TieDraft = Omit<Tie, "itemReference">
export type PadDraft = Omit<Pad, "itemReference">

/** Usual thickness of nylon ties by width, for those whose thickness is not told: common practice, no source. */
const usualThicknessMm: readonly (readonly [number, number])[] = [
  [2.6, 1],
  [3.7, 1.1],
  [5, 1.3],
  [Number.POSITIVE_INFINITY, 1.8],
]
/** Usual thickness of steel bands: common practice, no source. */
const usualBandMm = 0.4

/** Resolves a tie; names that are not there are reported and left out. */
export function resolveTie(shop: Shop, spec: TieSpec): TieDraft {
  const named = (kinds: readonly NameKind[], name: string | undefined, ...field: string[]): string | undefined =>
    name === undefined
      ? undefined
      : lookUpOrReport(shop, kinds, name, spec.path, placeOf(shop, spec.path, ...field))?.id
  const holder = named(["part", "instance", "unit"], spec.slot?.in, "slot")
  return {
    id: spec.id,
    path: spec.path,
    name: spec.name ?? wordsOf(spec.id),
    kind: spec.kind,
    count: spec.count,
    spare: spec.spare,
    widthMm: spec.widthMm,
    thicknessMm: spec.thicknessMm ?? usualThickness(spec),
    lengthMm: spec.lengthMm,
    loopStrengthN: spec.loopStrengthN,
    holds: spec.holds.flatMap(
      (name, index) => named(["part", "instance", "unit", "cable"], name, "holds", String(index)) ?? [],
    ),
    frame: named(["frame", "unit", "part", "instance"], spec.round, "round"),
    slot: spec.slot === undefined || holder === undefined ? undefined : { ...spec.slot, in: holder },
    seatHeightMm: spec.seatHeightMm,
    pad: named(["pad"], spec.pad, "pad"),
    until: spec.until,
    bag: spec.bag,
    points: spec.points.map(({ at, along }) => ({ at, along: unitVector(along) ?? [1, 0, 0] })),
  }
}

/** Resolves a pad with its instances; one that is to stick on what is not there is reported and left out. */
export function resolvePad(
  shop: Shop,
  spec: PadSpec,
): { readonly pad: PadDraft; readonly instances: readonly Instance[] } | undefined {
  const where = placeOf(shop, spec.path, "on")
  const on = lookUpOrReport(shop, ["part", "instance", "unit", "frame"], spec.on, spec.path, where)
  if (on === undefined) return undefined
  const { sizeMm } = spec
  const instances = placePad(shop, shop.bodies, spec)
  const pad: PadDraft = {
    id: spec.id,
    path: spec.path,
    name: spec.name ?? wordsOf(spec.id),
    count: spec.count,
    spare: spec.spare,
    sizeMm: sizeMm === undefined ? undefined : [sizeMm[0], sizeMm[1]],
    thicknessMm: sizeMm === undefined || sizeMm[2] <= 0 ? undefined : sizeMm[2],
    on: on.id,
    isAdhesive: spec.isAdhesive,
    bag: spec.bag,
    instances: instances.map(({ id }) => id),
  }
  return { pad, instances }
}

function usualThickness({ kind, widthMm }: TieSpec): number {
  if (kind === "band") return usualBandMm
  return usualThicknessMm.find(([mostMm]) => widthMm <= mostMm)?.[1] ?? usualBandMm
}
