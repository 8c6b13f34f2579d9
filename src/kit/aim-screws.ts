/** Where each screw of a joint goes: place under its head, mouth of its thread, driving direction. */
import type { Vec3 } from "../solids/types.ts"
import { dot } from "../solids/vectors.ts"
import type { RawBore } from "./bores.ts"
import type { Holes } from "./hole-search.ts"
import type { BorePoint, Joint } from "./joint-types.ts"
import {
  along,
  distanceFromLine,
  endOf,
  fromOtherEnd,
  holesOf,
  isOnLine,
  middleOf,
  type PlacedHole,
} from "./placed-holes.ts"
import type { Shop } from "./shop.ts"
import type { Instance } from "./types.ts"

/** What is known about the places of a joint's screws. */
export type Aim = {
  /** Clamped pieces, head side first. */
  readonly through: readonly string[]
  readonly raw: RawBore
  readonly screwMm: number
  readonly count: number
  /** Own holes of the joint, already as many as screws. */
  readonly holes: Holes | undefined
  /** Walls of the bore, when there are as many as screws. */
  readonly walls: readonly PlacedHole[] | undefined
}

export type Aimed = Pick<Joint, "points" | "pointsAt"> & { readonly borePoints: readonly BorePoint[] }

/**
 * Gives the places of the screws. A thread that goes through is entered from the side where the clamped parts lie.
 * The head sits on the first clamped part where a hole of that part lies on the screw's axis. Where only the joint's
 * holes are known, the mouth of the thread is the far end of the last clamped part's hole. Screws with a nut run from
 * the first clamped part towards the last, or the way their only part goes.
 */
export function aimScrews(shop: Shop, aim: Aim): Aimed {
  const clamped = aim.through.map((id) => shop.placed.get(id)?.instances ?? [])
  const mouths = mouthsOf(shop, aim, clamped.flat())
  const own = aim.holes === undefined ? [] : ownPoints(shop, aim, aim.holes, mouths)
  const bases = own.length > 0 ? own : mouths
  const seats = bases.map((base) => seatOf(shop, clamped[0] ?? [], base, aim.screwMm))
  const points = bases.map((base, index) => seats[index] ?? base)
  const isSeated = own.length > 0 || (seats.length > 0 && seats.every((seat) => seat !== undefined))
  const paired = mouths.length === 0 ? points.map((point) => mouthBehind(shop, clamped.flat(), point)) : mouths
  return {
    points,
    pointsAt: isSeated ? "head" : "mouth",
    borePoints: paired.length === points.length ? inOrderOf(points, paired) : paired,
  }
}

/** Mouths of the thread with their direction. */
function mouthsOf(shop: Shop, { raw, walls, count }: Aim, clamped: readonly Instance[]): readonly BorePoint[] {
  if (raw.walls.length === 0) return raw.bore.points.length === count ? raw.bore.points : []
  if (walls === undefined) return []
  const middle = middleOf(shop.bodies.meshes, clamped)
  return walls.map((wall) => {
    if (raw.isDirected || !wall.through) return plain(wall)
    const clearance = clamped.flatMap((one) => holesOf(shop.finder, one)).find((hole) => isOnLine(hole, wall))
    const headSide = clearance === undefined ? middle : middleOfHole(clearance)
    return plain(headSide === undefined ? wall : awayFrom(wall, headSide))
  })
}

/** Points of the joint's own holes, driven like the thread behind them. */
function ownPoints(shop: Shop, aim: Aim, holes: Holes, mouths: readonly BorePoint[]): readonly BorePoint[] {
  if (holes.found.length === 0) return holes.typed
  const owners = aim.raw.bore.owners.flatMap((id) => shop.placed.get(id)?.instances ?? [])
  // A nut has no owner: then the screw runs from the first clamped piece towards the last.
  const last = aim.through.length > 1 ? (shop.placed.get(aim.through.at(-1) ?? "")?.instances ?? []) : []
  const ownerMiddle = middleOf(shop.bodies.meshes, owners.length > 0 ? owners : last)
  return holes.found.map((hole) => {
    if (holes.isDirected || !hole.through) return plain(hole)
    const mouth = mouths.find((point) => isOnLine(hole, point))
    if (mouth !== undefined) return plain(dot(hole.along, mouth.along) < 0 ? fromOtherEnd(hole) : hole)
    if (ownerMiddle === undefined) return plain(alongTravel(shop, aim.through[0], hole))
    return plain(along(ownerMiddle, middleLine(hole)) < 0 ? fromOtherEnd(hole) : hole)
  })
}

/** The face under the head: the near mouth of the narrowest hole that lets the screw through, in the first clamped part. */
function seatOf(shop: Shop, first: readonly Instance[], base: BorePoint, screwMm: number): BorePoint | undefined {
  const onAxis = first
    .flatMap((instance) => holesOf(shop.finder, instance))
    .filter((hole) => hole.diameterMm >= screwMm - 0.15 && isOnLine(hole, base))
  const narrowestMm = Math.min(...onAxis.map(({ diameterMm }) => diameterMm))
  const ends = onAxis
    .filter(({ diameterMm }) => diameterMm < narrowestMm + 0.05)
    .flatMap((hole) => [hole.at, endOf(hole)])
    .sort((one, other) => along(one, base) - along(other, base))
  const [at] = ends
  return at === undefined ? undefined : { at, along: base.along }
}

/** Far end of the clamped parts' holes on the screw's axis; the point itself when none is there. */
function mouthBehind(shop: Shop, clamped: readonly Instance[], point: BorePoint): BorePoint {
  const ends = clamped
    .flatMap((instance) => holesOf(shop.finder, instance))
    .filter((hole) => isOnLine(hole, point))
    .flatMap((hole) => [hole.at, endOf(hole)])
    .sort((one, other) => along(other, point) - along(one, point))
  const [at] = ends
  return at === undefined || along(at, point) < 0 ? point : { at, along: point.along }
}

/** Mouths in the order of the screws: for each screw the nearest to its axis that is left. */
function inOrderOf(points: readonly BorePoint[], mouths: readonly BorePoint[]): readonly BorePoint[] {
  const left = [...mouths]
  return points.flatMap((point) => {
    const distances = left.map((mouth) => distanceFromLine(mouth.at, point))
    return left.splice(distances.indexOf(Math.min(...distances)), 1)
  })
}

/** The hole seen so that its screw is driven the way its part goes; as it is when that is not told, or goes across. */
function alongTravel(shop: Shop, first: string | undefined, hole: PlacedHole): PlacedHole {
  const of = first === undefined ? undefined : shop.placed.get(first)?.instances[0]?.of
  const goes = shop.spec.parts.find(({ id }) => id === of)?.goes
  return goes !== undefined && dot(hole.along, goes) < -0.5 ? fromOtherEnd(hole) : hole
}

/** The wall seen so that it leads away from a point. */
function awayFrom(wall: PlacedHole, point: Vec3): PlacedHole {
  return along(point, middleLine(wall)) > 0 ? fromOtherEnd(wall) : wall
}

function middleLine(hole: PlacedHole): BorePoint {
  return { at: middleOfHole(hole), along: hole.along }
}

function middleOfHole(hole: PlacedHole): Vec3 {
  const end = endOf(hole)
  return [(hole.at[0] + end[0]) / 2, (hole.at[1] + end[1]) / 2, (hole.at[2] + end[2]) / 2]
}

function plain({ at, along: direction }: BorePoint): BorePoint {
  return { at, along: direction }
}
