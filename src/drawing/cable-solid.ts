/** Cables as round tubes along their route, with the corners rounded to the least bend radius. */
import type { Cable } from "../kit/types.ts"
import type { Mesh, Vec3 } from "../solids/types.ts"
import { add, along, dot, lengthOf, scale, subtract, unit } from "../solids/vectors.ts"
import { circle, sweepProfile } from "./loft.ts"

/** Drawn when the kit does not tell the diameter. */
const usualDiameterMm = 5

/** Gives the tube of a cable; undefined when its route has fewer than two points. */
export function buildCableSolid(cable: Cable): Mesh | undefined {
  const diameterMm = cable.diameterMm ?? usualDiameterMm
  const path = roundRoute(cable.route, Math.max(cable.leastBendRadiusMm ?? 0, 2 * diameterMm))
  return path.length < 2 ? undefined : sweepProfile(circle(diameterMm / 2, 24), path, false)
}

/** Replaces each corner by an arc; the radius shrinks where the straight pieces are too short for it. */
function roundRoute(route: readonly Vec3[], radiusMm: number): readonly Vec3[] {
  const points = route.filter(
    (point, index) => index === 0 || lengthOf(subtract(point, route[index - 1] ?? point)) > 1e-6,
  )
  const smooth: Vec3[] = []
  points.forEach((corner, index) => {
    const before = points[index - 1]
    const after = points[index + 1]
    if (before === undefined || after === undefined) {
      smooth.push(corner)
      return
    }
    const into = unit(subtract(corner, before))
    const out = unit(subtract(after, corner))
    const angle = Math.acos(Math.max(-1, Math.min(1, dot(into, out))))
    if (angle < 1e-3) return
    const room = 0.5 * Math.min(lengthOf(subtract(corner, before)), lengthOf(subtract(after, corner)))
    const setback = Math.min(radiusMm * Math.tan(angle / 2), room)
    const start = along(corner, into, -setback)
    const end = along(corner, out, setback)
    const stepCount = Math.max(2, Math.ceil(angle / 0.17))
    // A quadratic curve through start and end, tangent at both: near enough to the arc for a picture.
    for (let step = 0; step <= stepCount; step += 1) {
      const t = step / stepCount
      smooth.push(add(add(scale(start, (1 - t) ** 2), scale(corner, 2 * t * (1 - t))), scale(end, t * t)))
    }
  })
  return smooth.filter((point, index) => index === 0 || lengthOf(subtract(point, smooth[index - 1] ?? point)) > 1e-6)
}
