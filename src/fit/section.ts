/** A frame seen along its axis: sections of parts on it as flat points. x and y are the tube's own width and height. */
import type { Disc } from "../fasteners/loops.ts"
import { roundedBox } from "../fasteners/loops.ts"
import type { Frame, Instance, Kit } from "../kit/types.ts"
import { cornersOf, moveMesh, turnDirection } from "../solids/index.ts"
import type { TubeProfile, Vec3 } from "../solids/types.ts"

export type Flat = readonly [x: number, y: number]

/** A triangle in the section: its corners, its outward normal (flat part), and how much of it points along the axis. */
export type FlatTriangle = { readonly corners: readonly Flat[]; readonly normal: Flat; readonly alongAxis: number }

/** The two directions across the axis of a frame, in which a square tube has its width and its height. */
export type Section = { readonly at: Vec3; readonly x: Vec3; readonly y: Vec3; readonly axis: Vec3 }

/** Gives the section of a frame through the middle of its axis. */
export function sectionOf(kit: Kit, frame: Frame): Section {
  const pose = kit.instances.find(({ of }) => of === frame.id)?.pose
  const { at, along } = frame.axis
  if (pose === undefined) return { at, axis: along, ...acrossOf(along) }
  return {
    at,
    x: turnDirection(pose, [0, 1, 0]),
    y: turnDirection(pose, [0, 0, 1]),
    axis: turnDirection(pose, [1, 0, 0]),
  }
}

/** All triangles of an instance in its place, seen along the axis; none when it has no mesh. */
export function flatten(kit: Kit, section: Section, instance: Instance): readonly FlatTriangle[] {
  const mesh = instance.mesh === undefined ? undefined : kit.meshes[instance.mesh]
  if (mesh === undefined) return []
  const placed = moveMesh(mesh, instance.pose)
  return Array.from({ length: placed.triangles.length / 3 }, (_, triangle) => {
    const [a, b, c] = cornersOf(placed, triangle)
    const normal = unit(cross(subtract(b, a), subtract(c, a)))
    return {
      corners: [a, b, c].map((corner): Flat => {
        const offset = subtract(corner, section.at)
        return [dot(offset, section.x), dot(offset, section.y)]
      }),
      normal: [dot(normal, section.x), dot(normal, section.y)],
      alongAxis: Math.abs(dot(normal, section.axis)),
    }
  })
}

/** Outline of a tube as discs, for loops round it. */
export function discsOf(profile: TubeProfile): readonly Disc[] {
  return profile.kind === "round"
    ? [{ x: 0, y: 0, radiusMm: profile.diameterMm / 2 }]
    : roundedBox(profile.widthMm, profile.heightMm, profile.cornerMm)
}

/** How far a tube reaches from its axis in a direction. */
export function reachOf(profile: TubeProfile, [x, y]: Flat): number {
  if (profile.kind === "round") return profile.diameterMm / 2
  const { widthMm, heightMm, cornerMm } = profile
  return Math.abs(x) * (widthMm / 2 - cornerMm) + Math.abs(y) * (heightMm / 2 - cornerMm) + cornerMm
}

/** Instances of a part, or the one instance, that an id names. */
export function instancesOf(kit: Kit, id: string): readonly Instance[] {
  return kit.instances.filter((instance) => instance.of === id || instance.id === id)
}

function acrossOf(along: Vec3): { readonly x: Vec3; readonly y: Vec3 } {
  const other: Vec3 = Math.abs(along[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]
  const x = unit(cross(other, along))
  return { x, y: cross(along, x) }
}

function subtract(one: Vec3, other: Vec3): Vec3 {
  return [one[0] - other[0], one[1] - other[1], one[2] - other[2]]
}

function dot(one: Vec3, other: Vec3): number {
  return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]
}

function cross(one: Vec3, other: Vec3): Vec3 {
  return [
    one[1] * other[2] - one[2] * other[1],
    one[2] * other[0] - one[0] * other[2],
    one[0] * other[1] - one[1] * other[0],
  ]
}

function unit(vector: Vec3): Vec3 {
  const length = Math.hypot(...vector)
  return length === 0 ? vector : [vector[0] / length, vector[1] / length, vector[2] / length]
}
