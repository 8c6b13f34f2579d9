/** Where the ties of a kit lie. */
import type { Frame, Instance, Kit, Tie } from "../kit/types.ts"
import { moveMesh } from "../solids/poses.ts"
import type { Mesh, Vec3 } from "../solids/types.ts"
import { along, dot, subtract, unit } from "../solids/vectors.ts"
import type { PreparedMesh } from "./prepare-mesh.ts"
import type { SolidStore } from "./solid-store.ts"
import { extentAlong, middleOf } from "./things.ts"
import { buildTieSolids, findLoop } from "./tie-solid.ts"

/**
 * Gives the solids of a tie, several with one id for each loop; none when its frame is not known. Loops stand where the kit
 * says, else they are shared out evenly over the pieces that they hold.
 */
export function placeTies(kit: Kit, tie: Tie, store: SolidStore): readonly { id: string; mesh: PreparedMesh }[] {
  const frame = kit.frames.find(({ id }) => id === tie.frame)
  if (frame === undefined) return []
  return placesOf(kit, tie, frame).flatMap(({ at, holder }, index) => {
    const mesh = holder?.mesh === undefined ? undefined : kit.meshes[holder.mesh]
    const middle = holder === undefined || mesh === undefined ? undefined : middleOf(mesh, holder.pose)
    const section =
      holder === undefined || mesh === undefined
        ? []
        : sectionAt(moveMesh(mesh, holder.pose), unit(frame.axis.along), at)
    const loop = findLoop(tie, frame, at, middle, section)
    const id = `tie:${tie.id}.${index + 1}`
    const key = `${id} ${at.join(" ")}`
    const solids = buildTieSolids(tie, loop)
    return solids.map((solid, part) => ({ id, mesh: store.get(`${key} ${part}`, () => solid) }))
  })
}

function placesOf(kit: Kit, tie: Tie, frame: Frame): readonly { at: Vec3; holder: Instance | undefined }[] {
  const axis = unit(frame.axis.along)
  const holders = kit.instances.filter(({ of, id }) => tie.holds.includes(of) || tie.holds.includes(id))
  if (tie.points.length > 0) {
    return tie.points.flatMap(({ at }, index) => {
      const holder = nearest(kit, holders, axis, at)
      const mesh = holder?.mesh === undefined ? undefined : kit.meshes[holder.mesh]
      const reach = holder === undefined || mesh === undefined ? undefined : extentAlong(mesh, holder.pose, axis)
      const roomMm = reach === undefined ? Number.POSITIVE_INFINITY : reach.max - reach.min
      return sideBySide(tie, index, roomMm).map((awayMm) => ({ at: along(at, axis, awayMm), holder }))
    })
  }
  if (holders.length === 0) return []
  return Array.from({ length: tie.count }, (_, index) => {
    const holder = holders[index % holders.length]
    const mesh = holder?.mesh === undefined ? undefined : kit.meshes[holder.mesh]
    if (holder === undefined || mesh === undefined) return { at: frame.axis.at, holder: undefined }
    const perHolder = Math.ceil(tie.count / holders.length)
    const reach = extentAlong(mesh, holder.pose, axis)
    const share = (Math.floor(index / holders.length) + 0.5) / perHolder
    const place = reach.min + (reach.max - reach.min) * (perHolder === 1 ? 0.5 : share)
    return { at: along(frame.axis.at, axis, place - dot(frame.axis.at, axis)), holder }
  })
}

/**
 * Places along the frame of the loops at one of the told points: side by side when there are fewer points than loops, close
 * together when what they hold is narrow.
 */
function sideBySide(tie: Tie, index: number, roomMm: number): readonly number[] {
  const pointCount = tie.points.length
  const loopCount = Math.max(1, Math.floor(tie.count / pointCount) + (index < tie.count % pointCount ? 1 : 0))
  const pitchMm = Math.max(
    tie.widthMm + 0.2,
    Math.min(1.4 * tie.widthMm + 2, (roomMm - 1) / Math.max(1, loopCount - 1)),
  )
  return Array.from({ length: loopCount }, (_, loop) => (loop - (loopCount - 1) / 2) * pitchMm)
}

function nearest(kit: Kit, holders: readonly Instance[], axis: Vec3, at: Vec3): Instance | undefined {
  let best: Instance | undefined
  let bestMm = Number.POSITIVE_INFINITY
  for (const holder of holders) {
    const mesh = holder.mesh === undefined ? undefined : kit.meshes[holder.mesh]
    if (mesh === undefined) continue
    const awayMm = Math.abs(dot(subtract(middleOf(mesh, holder.pose), at), axis))
    if (awayMm < bestMm) {
      bestMm = awayMm
      best = holder
    }
  }
  return best
}

/** Points in which the sides of a mesh cross the plane square to the axis through `at`. */
function sectionAt({ positions, triangles }: Mesh, axis: Vec3, at: Vec3): readonly Vec3[] {
  const level = dot(axis, at)
  const pointAt = (vertex: number): Vec3 => [
    positions[3 * vertex] ?? 0,
    positions[3 * vertex + 1] ?? 0,
    positions[3 * vertex + 2] ?? 0,
  ]
  const points: Vec3[] = []
  for (let side = 0; side < triangles.length; side += 1) {
    const from = pointAt(triangles[side] ?? 0)
    const to = pointAt(triangles[side % 3 === 2 ? side - 2 : side + 1] ?? 0)
    const one = dot(from, axis) - level
    const other = dot(to, axis) - level
    if (one > 0 === other > 0 || one === other) continue
    points.push(along(from, subtract(to, from), one / (one - other)))
  }
  return points
}
