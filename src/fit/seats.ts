/** Seats: how the parts that ties hold lie on the frame, measured on the meshes in the section of the frame. */
import type { Frame, Kit, Pad, Tie } from "../kit/types.ts"
import { partOf } from "./finished.ts"
import { type Flat, type FlatTriangle, flatten, instancesOf, sectionOf } from "./section.ts"
import type { Known, SeatFit } from "./types.ts"

/** Faces this far off the section (sine) are ends and chamfers, no seat. */
const leastAcross = 0.2
/** A face counts as facing the axis from this cosine on. */
const leastFacing = 0.2

/** Computes the seat of each part that a tie holds to a frame; one result for each pair of part and frame. */
export function computeSeats(kit: Kit): readonly SeatFit[] {
  const seats = new Map<string, SeatFit>()
  for (const tie of kit.ties) {
    const frame = kit.frames.find(({ id }) => id === tie.frame)
    for (const id of frame === undefined ? [] : tie.holds) {
      const part = partOf(kit, id)
      if (frame !== undefined && part !== undefined) {
        seats.set(JSON.stringify([part.id, frame.id]), computeSeat(kit, part.id, frame, padUnder(kit, tie, part.id)))
      }
    }
  }
  return [...seats.values()]
}

/** Pad between part and frame: the one the tie names, else one that sticks on the part or on the frame. */
export function padUnder(kit: Kit, tie: Tie, part: string): Pad | undefined {
  return (
    kit.pads.find(({ id }) => id === tie.pad) ??
    kit.pads.find(({ on }) => partOf(kit, on)?.id === part || on === tie.frame)
  )
}

function computeSeat(kit: Kit, part: string, frame: Frame, pad: Pad | undefined): SeatFit {
  const section = sectionOf(kit, frame)
  const [instance] = instancesOf(kit, part)
  const facing = instance === undefined ? [] : facesTowardsAxis(flatten(kit, section, instance))
  const padMm = pad?.thicknessMm ?? 0
  const { profile } = frame
  if (profile.kind === "round") {
    const seat = measureRoundSeat(facing, profile.diameterMm)
    const neededMm = profile.diameterMm + 2 * padMm
    const gapMm = seat === undefined ? undefined : (seat.diameterMm - neededMm) / 2
    return {
      part,
      frame: frame.id,
      seatMm: known(seat?.diameterMm, part),
      neededMm,
      gapMm,
      contactDeg: seat?.contactDeg,
      isRoundOnSquare: false,
    }
  }
  const channel = measureChannel(facing)
  const tubeMm = channel?.axis === 1 ? profile.heightMm : profile.widthMm
  const neededMm = tubeMm + 2 * padMm
  const gapMm = channel === undefined ? undefined : (channel.widthMm - neededMm) / 2
  const hollow = channel === undefined ? measureHollow(facing, tubeMm) : undefined
  return {
    part,
    frame: frame.id,
    seatMm: known(channel?.widthMm ?? hollow?.diameterMm, part),
    neededMm,
    gapMm,
    contactDeg: hollow?.contactDeg,
    isRoundOnSquare: hollow !== undefined,
  }
}

function known(value: number | undefined, part: string): Known | undefined {
  return value === undefined
    ? undefined
    : { value: Math.round(value * 1000) / 1000, origin: "measured", from: `measured on ${part}` }
}

/** A flat strip of the seat, seen along the axis as a line from one end to the other, with the normal off the material. */
type Strip = { readonly ends: readonly [Flat, Flat]; readonly normal: Flat }

/** Strips that face the axis; triangles of one plane become one strip. */
function facesTowardsAxis(triangles: readonly FlatTriangle[]): readonly Strip[] {
  const planes = new Map<string, Strip>()
  for (const { corners, normal, alongAxis } of triangles) {
    const [nx, ny] = normal
    if (alongAxis > leastAcross || Math.hypot(nx, ny) === 0) continue
    const offset = corners.reduce((sum, [x, y]) => sum + x * nx + y * ny, 0) / corners.length
    const distance = corners.reduce((sum, [x, y]) => sum + Math.hypot(x, y), 0) / corners.length
    // The normal points out of the material; towards the axis means against the way from the axis to the face.
    if (-offset < leastFacing * distance) continue
    const key = [Math.round((Math.atan2(ny, nx) * 1800) / Math.PI), Math.round(offset * 50)].join(",")
    const along: Flat = [-ny, nx]
    const points = [...(planes.get(key)?.ends ?? []), ...corners]
    const sorted = [...points].sort(
      (one, other) => one[0] * along[0] + one[1] * along[1] - other[0] * along[0] - other[1] * along[1],
    )
    const [first, last] = [sorted[0], sorted.at(-1)]
    if (first !== undefined && last !== undefined) planes.set(key, { ends: [first, last], normal })
  }
  return [...planes.values()].filter(
    ({ ends: [one, other] }) => Math.hypot(one[0] - other[0], one[1] - other[1]) > 1e-3,
  )
}

type Circle = { readonly x: number; readonly y: number; readonly radiusMm: number }

/** Angles between neighbouring strips of one curve, in degrees: coarse facets up to 12 sides for a full turn. */
const [leastStepDeg, largestStepDeg] = [0.2, 30]
/** From here on an arc is a closed hole. */
const closedDeg = 340
/** Ends of strips on one circle, in mm: the rounding of binary STL and of sampled circles. */
const onCircleMm = 0.05

/**
 * Finds the concave cylinder that most of the facing strips lie on. Each pair of neighbouring strips gives a circle
 * (where their middle normals meet); the one with the longest arc wins. Undefined under 4 strips or 20 degrees.
 */
function measureRoundSeat(
  strips: readonly Strip[],
  tubeMm: number,
): { readonly diameterMm: number; readonly contactDeg: number } | undefined {
  const sorted = [...strips].sort((one, other) => angleOf(one.normal) - angleOf(other.normal))
  let best: { readonly diameterMm: number; readonly contactDeg: number; readonly arcMm: number } | undefined
  for (const [index, strip] of sorted.entries()) {
    const next = sorted[(index + 1) % sorted.length]
    const circle = next === undefined ? undefined : circleThrough(strip, next)
    if (circle === undefined || !couldBeSeat(circle, tubeMm)) continue
    const members = sorted.filter((member) => isOnCircle(member, circle))
    const lengths = members.map(({ ends: [one, other] }) => Math.hypot(one[0] - other[0], one[1] - other[1]))
    const contactDeg = lengths.reduce(
      (sum, length) => sum + (360 / Math.PI) * Math.asin(Math.min(1, length / 2 / circle.radiusMm)),
      0,
    )
    const arcMm = lengths.reduce((sum, length) => sum + length, 0)
    // A closed hole that the tube does not go through is a hole for something else.
    const isOtherHole = contactDeg > closedDeg && circle.radiusMm < tubeMm / 2
    if (members.length < 4 || contactDeg < 20 || isOtherHole) continue
    if (best === undefined || arcMm > best.arcMm)
      best = { diameterMm: 2 * circle.radiusMm, contactDeg: Math.min(360, contactDeg), arcMm }
  }
  return best
}

/** Play of a seat against its place on the axis, in mm: a pad, a lifted part. */
const playMm = 4

/**
 * A seat is neither a fillet nor a flat, and it lies on the tube: its middle is off the axis by the difference of the
 * radii (the tube touches it somewhere) and a little play. Other hollows of the part are no seat.
 */
function couldBeSeat({ x, y, radiusMm }: Circle, tubeMm: number): boolean {
  const tubeRadiusMm = tubeMm / 2
  if (radiusMm < 0.4 * tubeRadiusMm || radiusMm > 4 * tubeRadiusMm) return false
  return Math.hypot(x, y) <= Math.abs(radiusMm - tubeRadiusMm) + playMm
}

/** True for a strip with both ends on the circle that is a short chord of it and looks at its middle. */
function isOnCircle({ ends, normal }: Strip, { x, y, radiusMm }: Circle): boolean {
  const [first, last] = ends
  const isOnIt = ends.every(([endX, endY]) => Math.abs(Math.hypot(endX - x, endY - y) - radiusMm) < onCircleMm)
  const isShort =
    Math.hypot(first[0] - last[0], first[1] - last[1]) < 2 * radiusMm * Math.sin((largestStepDeg / 2) * (Math.PI / 180))
  const towards = (x - (first[0] + last[0]) / 2) * normal[0] + (y - (first[1] + last[1]) / 2) * normal[1]
  return isOnIt && isShort && towards > 0.9 * radiusMm
}

function angleOf([x, y]: Flat): number {
  return (Math.atan2(y, x) * 180) / Math.PI
}

function circleThrough(one: Strip, other: Strip): Circle | undefined {
  const turn = one.normal[0] * other.normal[1] - one.normal[1] * other.normal[0]
  const stepDeg = (Math.asin(Math.min(1, Math.abs(turn))) * 180) / Math.PI
  if (stepDeg < leastStepDeg || stepDeg > largestStepDeg) return undefined
  const middle = ({ ends: [first, last] }: Strip): Flat => [(first[0] + last[0]) / 2, (first[1] + last[1]) / 2]
  const [from, to] = [middle(one), middle(other)]
  // Where the line from one middle along its normal meets that of the other.
  const by = ((to[0] - from[0]) * other.normal[1] - (to[1] - from[1]) * other.normal[0]) / turn
  if (by <= 0) return undefined
  const [x, y] = [from[0] + one.normal[0] * by, from[1] + one.normal[1] * by]
  return { x, y, radiusMm: Math.hypot(one.ends[0][0] - x, one.ends[0][1] - y) }
}

/** The round seat of a part on a square tube: no fillet of a flat seat, which is smaller and shorter. */
function measureHollow(strips: readonly Strip[], tubeMm: number): ReturnType<typeof measureRoundSeat> {
  const seat = measureRoundSeat(strips, tubeMm)
  return seat !== undefined && seat.diameterMm > 0.8 * tubeMm && seat.contactDeg > 60 ? seat : undefined
}

/** Width of the channel that a square tube lies in: the nearest pair of walls that face each other across the axis. */
function measureChannel(strips: readonly Strip[]): { readonly widthMm: number; readonly axis: 0 | 1 } | undefined {
  for (const axis of [0, 1] as const) {
    const walls = strips.filter(({ normal }) => Math.abs(normal[axis]) > 0.999)
    const offsets = walls.map(({ ends: [end] }) => end[axis])
    const [below, above] = [offsets.filter((one) => one < 0), offsets.filter((one) => one > 0)]
    if (below.length > 0 && above.length > 0) return { widthMm: Math.min(...above) - Math.max(...below), axis }
  }
  return undefined
}
