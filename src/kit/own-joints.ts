/** Screws that sit in a unit when it arrives. */

import { quote } from "../spec/tell.ts"
import type { UnitSpec } from "../spec/types.ts"
import type { RawBore } from "./bores.ts"
import { readFastener } from "./designations.ts"
import { called, placeOf, report } from "./desk.ts"
import type { Joint, OwnJoint } from "./joint-types.ts"
import { lookUpOrReport } from "./names.ts"
import type { Shop } from "./shop.ts"

/** Resolves the screws of a unit. They sit in the bore that is named, else in the one of the same name, if there is one. */
export function resolveOwnJoints(
  shop: Shop,
  unit: UnitSpec,
  bores: ReadonlyMap<string, RawBore>,
  joints: readonly Joint[],
): readonly OwnJoint[] {
  return unit.screwedIn.flatMap((spec) => {
    const id = `${unit.id}.${spec.id}`
    const fastener = readFastener(shop, spec.screws.fastener, "screw")
    const raw = bores.get(boreName(shop, unit, spec) ?? "")
    if (fastener === undefined) return []
    const { count } = spec.screws
    const found = raw?.bore.points.length ?? 0
    // The same number of new screws in the same bore was compared with its holes already.
    const isTold = joints.some((joint) => joint.bore.id === raw?.bore.id && joint.count === count)
    if (raw?.holesPath !== undefined && raw.isKnown && found !== count && !isTold) {
      report(shop, "hole-count-differs", "error", {
        message: `${called(spec.path)} are ${count}, but ${quote(raw.bore.id)} has ${found} ${found === 1 ? "hole" : "holes"}`,
        where: placeOf(shop, spec.screws.path),
        why: "each screw sits in a hole of its own",
        fix: `write ${found} screws, or name the right holes by their diameter or direction`,
        related: [{ message: "holes of the bore", where: placeOf(shop, raw.holesPath) }],
        subjects: [id],
      })
    }
    const points = raw !== undefined && found === count ? raw.bore.points : []
    const { alsoHolds } = spec
    return [{ id, path: spec.path, unit: unit.id, fastener, count, bore: raw?.bore.id, alsoHolds, points }]
  })
}

function boreName(shop: Shop, unit: UnitSpec, spec: UnitSpec["screwedIn"][number]): string | undefined {
  if (spec.into === undefined) return shop.names.bore.get(`${unit.id}.${spec.id}`)
  const own = shop.names.bore.get(`${unit.id}.${spec.into}`)
  return own ?? lookUpOrReport(shop, ["bore"], spec.into, spec.path, placeOf(shop, spec.path, "into"))?.id
}
