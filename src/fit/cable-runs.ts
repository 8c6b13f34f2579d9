/** Length, bends and fall of the cables along their routes. All in mm. */
import type { Cable, Kit, Passage } from "../kit/types.ts"
import type { Vec3 } from "../solids/types.ts"
import { along, dot, lengthOf, scale, subtract } from "../solids/vectors.ts"
import type { CableEntry, CableFit, TightBend } from "./types.ts"

/** Points of a route nearer than this are one. */
const samePlaceMm = 0.01
/** A route passes an opening when it comes so near to its middle; rough, since routes are drawn by eye. */
const nearOpeningMm = 15
/** So far a route rises or falls before water runs one way rather than the other. */
const levelMm = 3

/** Gives one result for each cable with a route of two points or more. */
export function computeCableRuns(kit: Kit): readonly CableFit[] {
  return kit.cables.flatMap((cable): readonly CableFit[] => {
    const route = dropRepeats(cable.route)
    if (route.length < 2) return []
    const routeMm = stretchesOf(route).reduce((sum, { lengthMm }) => sum + lengthMm, 0)
    return [
      {
        cable: cable.id,
        routeMm,
        neededMm: routeMm + (cable.slackMm ?? 0),
        tightest: findTightestBend(route, cable.diameterMm ?? 0),
        entries: cable.via.flatMap((id) => {
          const passage = kit.passages.find((one) => one.id === id)
          return passage === undefined ? [] : findEntry(kit, cable, route, passage)
        }),
      },
    ]
  })
}

function dropRepeats(route: readonly Vec3[]): readonly Vec3[] {
  const kept: Vec3[] = []
  for (const point of route) {
    const last = kept.at(-1)
    if (last === undefined || lengthOf(subtract(point, last)) > samePlaceMm) kept.push(point)
  }
  return kept
}

type Stretch = { readonly from: Vec3; readonly to: Vec3; readonly lengthMm: number; readonly direction: Vec3 }

function stretchesOf(route: readonly Vec3[]): readonly Stretch[] {
  return route.slice(1).map((to, index) => {
    // A point with a next one is there.
    const from = route[index] ?? to
    const lengthMm = lengthOf(subtract(to, from))
    return { from, to, lengthMm, direction: scale(subtract(to, from), 1 / lengthMm) }
  })
}

/**
 * The largest radius that every corner of the route can be rounded with at once. An arc of radius r takes r tan(a / 2) of
 * the straight on each side of a corner with the turn a, and two corners share the straight between them; beyond the ends
 * nothing is taken. The route is the middle of the cable, so the inner radius is half a diameter less, at least 0. Gives the
 * straight that allows least; undefined for a route without corners.
 */
function findTightestBend(route: readonly Vec3[], diameterMm: number): TightBend | undefined {
  const stretches = stretchesOf(route)
  const corners = stretches.map((one, index) => {
    const next = stretches[index + 1]
    return next === undefined ? 0 : Math.acos(Math.min(1, Math.max(-1, dot(one.direction, next.direction))))
  })
  let tightest: TightBend | undefined
  for (const [index, { from, to, lengthMm }] of stretches.entries()) {
    const turnsRad = [index === 0 ? 0 : (corners[index - 1] ?? 0), corners[index] ?? 0] as const
    const takenPerMm = turnsRad.reduce((sum, turn) => sum + Math.tan(turn / 2), 0)
    if (takenPerMm < 1e-9) continue
    const innerRadiusMm = Math.max(0, lengthMm / takenPerMm - diameterMm / 2)
    if (tightest !== undefined && innerRadiusMm >= tightest.innerRadiusMm) continue
    const turnsDeg = turnsRad.map((turn) => (turn * 180) / Math.PI).filter((turn) => turn > 0)
    tightest = { innerRadiusMm, from, to, lengthMm, takenPerMm, turnsDeg }
  }
  return tightest
}

/**
 * How the cable comes in through a passage, seen from outside: where one of its two ends lies inside, behind the part, and
 * the other does not. Nothing when that is not told, or the route does not come near the passage.
 */
function findEntry(kit: Kit, cable: Cable, route: readonly Vec3[], passage: Passage): readonly CableEntry[] {
  const [first, last] = [cable.ends[0], cable.ends.at(-1)]
  if (passage.at === undefined || first === undefined || last === undefined || first === last) return []
  const [isFirstIn, isLastIn] = [first, last].map(({ id }) => liesInside(kit, cable, id, passage))
  if (isFirstIn === isLastIn) return []
  const outside = isFirstIn === true ? last : first
  // Seen from the passage towards the outer end.
  const way = isFirstIn === true ? route : [...route].reverse()
  const place = nearestPlace(way, passage.at.at)
  if (place === undefined) return []
  const beyond = way.slice(place.next).map(([, , z]) => z - place.at[2])
  const riseMm = beyond.find((height) => Math.abs(height) > levelMm)
  return riseMm === undefined ? [] : [{ passage: passage.id, outside: outside.id, riseMm }]
}

/**
 * Behind the part with the passage: that part covers the end or its socket, or is the unit that has the socket. A gland sits
 * in a wall, so any part may be the cover there.
 */
function liesInside(kit: Kit, cable: Cable, end: string, { part, clamps }: Passage): boolean {
  const isCover = (id: string, instances: readonly string[]): boolean =>
    clamps !== undefined || id === part || instances.includes(part)
  const covers = kit.parts.flatMap(({ id, instances, covers: hidden }) => (isCover(id, instances) ? hidden : []))
  const acts = [...kit.arrives, ...kit.steps.flatMap((step) => step.acts)]
  const arrival = cable.ends.find(({ id }) => id === end)?.arrival
  const sockets = [
    ...acts.flatMap(({ verb, target, to }) => (verb === "connect" && target === end ? (to ?? []) : [])),
    ...(arrival?.state === "connected" ? [arrival.socket] : []),
    ...kit.sockets.flatMap(({ id, takes }) => (takes === end ? id : [])),
  ]
  const owners = kit.sockets.flatMap(({ id, owner }) => (sockets.includes(id) ? owner : []))
  return covers.includes(end) || [...sockets, ...owners].some((id) => covers.includes(id)) || owners.includes(part)
}

/** The point of a route nearest to a place, and the index of the first route point behind it; undefined when none is near. */
function nearestPlace(route: readonly Vec3[], place: Vec3): { readonly at: Vec3; readonly next: number } | undefined {
  let best: { readonly at: Vec3; readonly next: number; readonly distanceMm: number } | undefined
  for (const [index, { from, lengthMm, direction }] of stretchesOf(route).entries()) {
    const byMm = Math.min(lengthMm, Math.max(0, dot(subtract(place, from), direction)))
    const at = along(from, direction, byMm)
    const distanceMm = lengthOf(subtract(place, at))
    if (best === undefined || distanceMm < best.distanceMm) best = { at, next: index + 1, distanceMm }
  }
  return best !== undefined && best.distanceMm <= nearOpeningMm ? best : undefined
}
