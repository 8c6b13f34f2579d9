import { placeAt } from "../findings/places.ts"
import type { Vec3 } from "../solids/types.ts"
import { atLeast } from "../units/compare.ts"
import { mm } from "../units/print.ts"
import { defineRule } from "./types.ts"

/**
 * Finds routes whose corners leave no room for the least bend radius of the cable. The points of a route are a sketch, so
 * this is a doubt; the arithmetic says what the sketch leaves room for.
 */
export const bendTooTight = defineRule({
  id: "bend-too-tight",
  severity: "warning",
  source: "geometry: an arc of radius r takes r tan(a/2) of the straight on each side of a corner with the turn a",
  check: ({ kit, fit }) =>
    fit.cables.flatMap(({ cable: id, tightest }) => {
      const cable = kit.cables.find((one) => one.id === id)
      const leastMm = cable?.leastBendRadiusMm
      if (cable === undefined || leastMm === undefined || tightest === undefined) return []
      const { innerRadiusMm, from, to, lengthMm, takenPerMm, turnsDeg } = tightest
      if (atLeast(innerRadiusMm, leastMm)) return []
      const halfMm = (cable.diameterMm ?? 0) / 2
      const turns = turnsDeg.map((turn) => `${Math.round(turn)}°`).join(" and ")
      const middle =
        halfMm > 0 ? `${mm(leastMm)} inside, ${mm(leastMm + halfMm)} at the middle of the cable,` : mm(leastMm)
      return [
        {
          message: `the route of \`${id}\` bends to ${mm(Math.floor(innerRadiusMm * 10 + 1e-6) / 10)}, its least bend is ${mm(leastMm)}`,
          where: placeAt(kit.places, cable.path, "route"),
          why: `From ${point(from)} to ${point(to)} there are ${mm(toTenth(lengthMm))} for the ${turnsDeg.length > 1 ? "bends" : "bend"} of ${turns}; with a radius of ${middle} ${turnsDeg.length > 1 ? "they take" : "it takes"} ${mm(toTenth((leastMm + halfMm) * takenPerMm))}.`,
          fix: "Move the points of the route apart, or let the cable turn less at once.",
          related: [{ message: "the least bend radius", where: placeAt(kit.places, cable.path, "least-bend") }],
          subjects: [id],
          scene: { subjects: [id], pointMm: [from[0], from[1], from[2]] },
        },
      ]
    }),
})

function toTenth(valueMm: number): number {
  return Math.round(valueMm * 10) / 10
}

function point(at: Vec3): string {
  return `(${at.map((value) => String(Number(value.toFixed(1)))).join(", ")})`
}
