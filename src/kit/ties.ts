/** Ties, metal bands and pads. */
import type { PadSpec, TieSpec } from "../spec/types.ts"
import { mm, trimmed } from "../units/print.ts"
import { called, placeOf, report, wordsOf } from "./desk.ts"
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
  const isSwapped = spec.widthMm > spec.lengthMm
  if (isSwapped) reportSwapped(shop, spec)
  const [widthMm, lengthMm] = isSwapped ? [spec.lengthMm, spec.widthMm] : [spec.widthMm, spec.lengthMm]
  return {
    id: spec.id,
    path: spec.path,
    name: spec.name ?? wordsOf(spec.id),
    kind: spec.kind,
    count: spec.count,
    spare: spec.spare,
    widthMm,
    thicknessMm: spec.thicknessMm ?? usualThickness(spec.kind, widthMm),
    lengthMm,
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
    cureMinutes: spec.cureMinutes,
    bag: spec.bag,
    instances: instances.map(({ id }) => id),
  }
  return { pad, instances }
}

/** A tie wider than long: the two are taken the other way round from here on, so that nothing else is told. */
function reportSwapped(shop: Shop, { id, path, kind, count, widthMm, lengthMm }: TieSpec): void {
  report(shop, "width-above-length", "error", {
    message: `${called(path)} is ${mm(widthMm)} wide and ${mm(lengthMm)} long; width and length are swapped`,
    where: placeOf(shop, path, kind === "band" ? "bands" : "ties"),
    why: "the order is count, width, length",
    fix: `write \`${count} x ${trimmed(lengthMm)}x${trimmed(widthMm)}\``,
    subjects: [id],
  })
}

function usualThickness(kind: TieSpec["kind"], widthMm: number): number {
  if (kind === "band") return usualBandMm
  return usualThicknessMm.find(([mostMm]) => widthMm <= mostMm)?.[1] ?? usualBandMm
}
