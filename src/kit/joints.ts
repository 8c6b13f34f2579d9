/** Joints: their fasteners, the parts they clamp, their bore, and where each screw goes. */

import type { Fastener } from "../fasteners/types.ts"
import type { JointSpec } from "../spec/types.ts"
import { aimScrews } from "./aim-screws.ts"
import { meanDiameterMm, type RawBore, resolveBore } from "./bores.ts"
import { readFastener } from "./designations.ts"
import { called, placeOf, report, wordsOf } from "./desk.ts"
import { guessHoles } from "./guess-holes.ts"
import { reportCounts } from "./hole-counts.ts"
import { searchHoles } from "./hole-search.ts"
import type { Bore, Joint } from "./joint-types.ts"
import { lookUpOrReport } from "./names.ts"
import type { Shop } from "./shop.ts"

/** A joint without its item references, which are counted when all steps are known. */
export type JointDraft = Omit<Joint, "itemReference" | "washerReference" | "nutReference">

/**
 * Resolves a joint. Undefined when its screw, its bore or its nut is not known, each reported. `bores` holds the bores
 * written in units and parts; one that goes through gets its direction from the joint.
 */
export function resolveJoint(shop: Shop, spec: JointSpec, bores: ReadonlyMap<string, RawBore>): JointDraft | undefined {
  const fastener = readFastener(shop, spec.screws.fastener, "screw")
  const washer = spec.washer === undefined ? undefined : readFastener(shop, spec.washer, "washer")
  const nut = spec.nut === undefined ? undefined : readFastener(shop, spec.nut, "nut")
  const through = spec.through.flatMap((name, index) => {
    const where = placeOf(shop, spec.path, "through", String(index))
    return lookUpOrReport(shop, ["part", "instance", "unit", "frame"], name, spec.path, where)?.id ?? []
  })
  const raw = boreOf(shop, spec, nut, bores)
  const typed = spec.holes === undefined ? undefined : searchHoles(shop, spec.holes, spec.path)
  if (fastener === undefined || raw === undefined || (spec.nut !== undefined && nut === undefined)) return undefined
  const isPlaceless = spec.holes === undefined && raw.holesPath === undefined && through.length === spec.through.length
  const holes = typed ?? (isPlaceless ? guessHoles(shop, spec, through[0], fastener.diameterMm) : undefined)
  const areKnown = spec.holes === undefined || holes !== undefined
  const agreed = areKnown && raw.isKnown ? reportCounts(shop, spec, holes, raw) : undefined
  const aimed = aimScrews(shop, {
    through,
    raw,
    screwMm: fastener.diameterMm,
    count: spec.screws.count,
    holes: agreed?.holes,
    walls: agreed?.boreWalls,
  })
  return {
    id: spec.id,
    path: spec.path,
    name: spec.name ?? wordsOf(spec.id),
    fastener,
    count: spec.screws.count,
    spare: spec.spare,
    washer,
    through,
    bore: { ...raw.bore, count: raw.bore.count === 0 ? spec.screws.count : raw.bore.count, points: aimed.borePoints },
    bag: spec.bag,
    side: spec.side,
    makerTorqueNm: spec.torqueNm,
    tried: spec.tried,
    declaredGripMm: spec.gripMm,
    clearanceMm: spec.clearanceMm ?? meanDiameterMm(holes?.found ?? []),
    surface: spec.surface,
    cureMinutes: spec.cureMinutes,
    points: aimed.points,
    pointsAt: aimed.pointsAt,
  }
}

function boreOf(
  shop: Shop,
  spec: JointSpec,
  nut: Fastener | undefined,
  bores: ReadonlyMap<string, RawBore>,
): RawBore | undefined {
  if (spec.into !== undefined && spec.nut !== undefined) {
    report(shop, "keys-exclude-each-other", "error", {
      message: `${called(spec.path)} has both \`into\` and \`nut\``,
      where: placeOf(shop, spec.path, "nut"),
      why: "a screw has one thread: the bore it goes into, or a nut",
      fix: "keep one of the two; a nut that sits in a part is a bore of that part: `{ nut: ISO 4032 M4, … }`",
      subjects: [spec.id],
    })
  }
  if (typeof spec.into === "string") {
    const where = placeOf(shop, spec.path, "into")
    const named = lookUpOrReport(shop, ["bore"], spec.into, spec.path, where)
    return named === undefined ? undefined : bores.get(named.id)
  }
  if (spec.into !== undefined) return resolveBore(shop, spec.into, spec.id, undefined)
  if (nut !== undefined) return unfound(nutBore(spec, nut))
  // One that is written but faulty was told when it was read.
  const isWritten = ["into", "nut"].some((key) => Object.hasOwn(shop.spec.places, `${spec.path}/${key}`))
  if (!isWritten) {
    report(shop, "joint-without-thread", "error", {
      message: `${called(spec.path)} has neither \`into\` nor \`nut\``,
      where: placeOf(shop, spec.path),
      why: "a screw needs a thread: a bore of a part or of the unit, or a nut",
      fix: "add `into: …` with the name of a bore, or `nut: ISO 4032 M4`",
      subjects: [spec.id],
    })
  }
  return undefined
}

function nutBore(spec: JointSpec, nut: Fastener): Bore {
  return {
    id: spec.id,
    path: spec.path,
    owner: undefined,
    owners: [],
    kind: "nut",
    thread: { diameterMm: nut.diameterMm, pitchMm: nut.pitchMm },
    material: undefined,
    depthMm: undefined,
    isThrough: true,
    holeMm: undefined,
    bossMm: undefined,
    count: spec.screws.count,
    points: [],
    fastener: nut,
  }
}

function unfound(bore: Bore): RawBore {
  return { bore, walls: [], isDirected: true, isKnown: true, holesPath: undefined, others: "" }
}
