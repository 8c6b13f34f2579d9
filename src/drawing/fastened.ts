/** Screws, washers and nuts of a joint in their final places, with the way they come. */
import type { Fastener } from "../fasteners/types.ts"
import type { Fit } from "../fit/types.ts"
import type { BorePoint, Joint } from "../kit/joint-types.ts"
import type { Instance, Kit } from "../kit/types.ts"
import type { Mesh, Vec3 } from "../solids/types.ts"
import { along, dot, lengthOf, scale, subtract, unit } from "../solids/vectors.ts"
import { buildFastenerSolid, type HeadSize, outsideOf } from "./fastener-solid.ts"
import type { PreparedMesh } from "./prepare-mesh.ts"
import type { SolidStore } from "./solid-store.ts"
import { placedPoints } from "./things.ts"
import { poseAlong } from "./vector.ts"

/** One fastener at one point of a pattern. */
export type Fastened = {
  readonly id: string
  readonly kind: "screw" | "washer" | "nut"
  /** Which point of the pattern, from 1. */
  readonly number: number
  readonly mesh: PreparedMesh
  readonly at: Vec3
  /** Unit vector out of the hole, towards the head. */
  readonly out: Vec3
  /** Reach below and above `at`, along `out`. */
  readonly belowMm: number
  readonly aboveMm: number
  /** Width of the head, washer or nut. */
  readonly headMm: number
  /** Instance under the head, which it follows when that is drawn apart. */
  readonly on: string | undefined
  /** Mouth of the bore. */
  readonly mouth: Vec3
  readonly itemReference: number | undefined
}

/** A face that a head or nut bears on, and the instance it belongs to. */
type Seat = { readonly at: Vec3; readonly on: string | undefined }

/** Gives all fasteners of a joint in place. Points stand at the bore or at the hole; the head is found on the mesh. */
export function placeJoint(kit: Kit, fit: Fit, joint: Joint, store: SolidStore): readonly Fastened[] {
  const jointFit = fit.joints.find((candidate) => candidate.joint === joint.id)
  const head = outsideOf(joint.fastener)
  return joint.points.flatMap((point, index) => {
    const out = scale(unit(point.along), -1)
    const seat = findHeadSeat(kit, joint, point, head, jointFit?.gripMm?.value)
    const far = findFarSeat(kit, joint, point, jointFit?.gripMm?.value)
    const mouth = joint.bore.points[index]?.at ?? (joint.pointsAt === "mouth" ? point.at : far.at)
    const number = index + 1
    const list: Fastened[] = []
    let at = seat.at
    if (joint.washer !== undefined) {
      const size = outsideOf(joint.washer)
      const mesh = solidOf(joint.washer, size, store)
      const reference = joint.washerReference
      list.push({
        id: `washer:${joint.id}.${number}`,
        kind: "washer",
        number,
        mesh,
        at,
        out,
        belowMm: 0,
        aboveMm: size.heightMm,
        headMm: size.diameterMm,
        on: seat.on,
        mouth,
        itemReference: reference,
      })
      at = along(at, out, size.heightMm)
    }
    const mesh = solidOf(joint.fastener, head, store)
    const belowMm = joint.fastener.lengthMm ?? 3 * joint.fastener.diameterMm
    const aboveMm = joint.fastener.head === "countersunk" ? 0 : head.heightMm
    list.push({
      id: `screw:${joint.id}.${number}`,
      kind: "screw",
      number,
      mesh,
      at,
      out,
      belowMm,
      aboveMm,
      headMm: head.diameterMm,
      on: seat.on,
      mouth,
      itemReference: joint.itemReference,
    })
    const nut = joint.bore.kind === "nut" ? joint.bore.fastener : undefined
    if (nut !== undefined) {
      const size = outsideOf(nut)
      list.push({
        id: `nut:${joint.id}.${number}`,
        kind: "nut",
        number,
        mesh: solidOf(nut, size, store),
        at: far.at,
        out: scale(out, -1),
        belowMm: 0,
        aboveMm: size.heightMm,
        headMm: size.diameterMm,
        on: far.on,
        mouth,
        itemReference: joint.nutReference,
      })
    }
    return list
  })
}

/** Gives the screws a unit arrives with. Their heads lie on the mouth of the bore. */
export function placeOwnJoint(kit: Kit, id: string, store: SolidStore): readonly Fastened[] {
  const own = kit.ownJoints.find((candidate) => candidate.id === id)
  if (own === undefined) return []
  const head = outsideOf(own.fastener)
  const mesh = solidOf(own.fastener, head, store)
  const belowMm = own.fastener.lengthMm ?? 3 * own.fastener.diameterMm
  const aboveMm = own.fastener.head === "countersunk" ? 0 : head.heightMm
  return own.points.map((point, index) => ({
    id: `screw:${own.id}.${index + 1}`,
    kind: "screw",
    number: index + 1,
    mesh,
    at: point.at,
    out: scale(unit(point.along), -1),
    belowMm,
    aboveMm,
    headMm: head.diameterMm,
    on: undefined,
    mouth: point.at,
    itemReference: undefined,
  }))
}

/** Pose of a fastener, shifted along its axis. */
export function fastenedPose(fastened: Fastened, shift: Vec3): ReturnType<typeof poseAlong> {
  return poseAlong([fastened.at[0] + shift[0], fastened.at[1] + shift[1], fastened.at[2] + shift[2]], fastened.out)
}

function solidOf(fastener: Fastener, head: HeadSize, store: SolidStore): PreparedMesh {
  const key = `fastener ${fastener.designation} ${fastener.lengthMm} ${head.diameterMm} ${head.heightMm}`
  return store.get(key, () => buildFastenerSolid(fastener, head))
}

function findHeadSeat(kit: Kit, joint: Joint, point: BorePoint, head: HeadSize, gripMm: number | undefined): Seat {
  const radiusMm = joint.fastener.head === "countersunk" ? 0.56 * head.diameterMm : 0.75 * joint.fastener.diameterMm
  const out = scale(unit(point.along), -1)
  const rim = nearestRim(kit, joint.through[0], point, out, radiusMm)
  if (joint.pointsAt === "head" && joint.fastener.head !== "countersunk") return { at: point.at, on: rim?.on }
  const topMm = rim?.topMm ?? (joint.pointsAt === "head" ? 0 : (gripMm ?? 0))
  return { at: along(point.at, out, topMm), on: rim?.on }
}

/** Where a nut bears: the far end of the hole in the last part clamped. */
function findFarSeat(kit: Kit, joint: Joint, point: BorePoint, gripMm: number | undefined): Seat {
  const out = scale(unit(point.along), -1)
  const rim = nearestRim(kit, joint.through.at(-1), point, out, 0.75 * joint.fastener.diameterMm)
  const bottomMm = rim?.bottomMm ?? (joint.pointsAt === "head" ? -(gripMm ?? 0) : 0)
  return { at: along(point.at, out, bottomMm), on: rim?.on }
}

type Rim = { readonly topMm: number; readonly bottomMm: number; readonly awayMm: number; readonly on: string }

/** The hole of a part's copy that is nearest to a joint's point on its axis. */
function nearestRim(
  kit: Kit,
  part: string | undefined,
  point: BorePoint,
  out: Vec3,
  radiusMm: number,
): Rim | undefined {
  if (part === undefined) return undefined
  const rims = kit.instances
    .filter(({ of, id }) => of === part || id === part)
    .flatMap((instance) => rimOf(kit, instance, point, out, radiusMm))
  return rims.sort((one, other) => one.awayMm - other.awayMm)[0]
}

/** Reach along `out` of the vertices of an instance round a joint's axis: where its hole begins and ends. */
function rimOf(kit: Kit, instance: Instance, point: BorePoint, out: Vec3, radiusMm: number): readonly Rim[] {
  const mesh: Mesh | undefined = instance.mesh === undefined ? undefined : kit.meshes[instance.mesh]
  if (mesh === undefined) return []
  let topMm = Number.NEGATIVE_INFINITY
  let bottomMm = Number.POSITIVE_INFINITY
  let awayMm = Number.POSITIVE_INFINITY
  for (const vertex of placedPoints(mesh, instance.pose)) {
    const offset = subtract(vertex, point.at)
    const reachMm = dot(offset, out)
    if (lengthOf(subtract(offset, scale(out, reachMm))) > radiusMm) continue
    topMm = Math.max(topMm, reachMm)
    bottomMm = Math.min(bottomMm, reachMm)
    awayMm = Math.min(awayMm, Math.abs(reachMm))
  }
  return Number.isFinite(topMm) ? [{ topMm, bottomMm, awayMm, on: instance.id }] : []
}
