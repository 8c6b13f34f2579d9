/** Cable ties and bands as closed loops with a head block, and the loop they follow round tube and seat. */
import type { Frame, Tie } from "../kit/types.ts"
import { moveMesh } from "../solids/poses.ts"
import type { Mesh, Vec3 } from "../solids/types.ts"
import { add, along, cross, dot, scale, subtract, unit } from "../solids/vectors.ts"
import { loftRings, sweepProfile } from "./loft.ts"
import { poseAlong } from "./vector.ts"

export type Loop = {
  readonly at: Vec3
  readonly axis: Vec3
  /** From the tube towards the seat, square to the axis. */
  readonly towards: Vec3
  readonly path: readonly Vec3[]
}

/**
 * The closed line that a tie takes: the hull of the tube's outline and of what it holds, up to the height of its slot or
 * seat. `section` are points of the held part's outline in the plane of the loop; without a slot all of it is embraced.
 */
export function findLoop(
  tie: Tie,
  frame: Frame,
  at: Vec3,
  seatMiddle: Vec3 | undefined,
  section: readonly Vec3[],
): Loop {
  const axis = unit(frame.axis.along)
  const centre = along(frame.axis.at, axis, dot(subtract(at, frame.axis.at), axis))
  const lean: Vec3 = seatMiddle === undefined ? [0, 0, 1] : subtract(seatMiddle, centre)
  const flat = subtract(lean, scale(axis, dot(lean, axis)))
  const towards = unit(Math.hypot(...flat) < 1e-6 ? perpendicular(axis) : flat)
  const across = cross(towards, axis)
  const outline = pairs(tubeOutline(frame))
  const tubeMm = Math.max(...outline.map(([, v]) => v))
  const held = section.map((point): readonly [number, number] => {
    const offset = subtract(point, centre)
    return [dot(offset, across), dot(offset, towards)]
  })
  const topMm =
    tie.slot === undefined && tie.seatHeightMm === undefined
      ? Number.POSITIVE_INFINITY
      : tubeMm + (tie.seatHeightMm ?? 0)
  const points = [...outline, ...held.filter(([, v]) => v <= topMm), ...mouths(held, topMm)]
  const path = offsetHull(convexHull(points), tie.thicknessMm / 2 + 0.05).map(([u, v]) =>
    add(centre, add(scale(across, u), scale(towards, v))),
  )
  return { at: centre, axis, towards, path }
}

/** Where the loop enters and leaves the held part at the height of its slot: the outermost points near that height. */
function mouths(held: readonly (readonly [number, number])[], topMm: number): readonly (readonly [number, number])[] {
  if (!Number.isFinite(topMm) || held.length === 0) return []
  const nearest = Math.min(...held.map(([, v]) => Math.abs(v - topMm)))
  const near = held.filter(([, v]) => Math.abs(v - topMm) <= nearest + 2)
  const reach = near.map(([u]) => u)
  return [
    [Math.min(...reach), topMm],
    [Math.max(...reach), topMm],
  ]
}

/** Strap, head and a stub of tail as separate closed meshes in place. */
export function buildTieSolids(tie: Tie, loop: Loop): readonly Mesh[] {
  const half = tie.widthMm / 2
  const thick = Math.max(tie.thicknessMm, 0.8) / 2
  const strap = sweepProfile([-half, -thick, half, -thick, half, thick, -half, thick], loop.path, true, loop.axis)
  const across = cross(loop.axis, loop.towards)
  const { point, tangent, outward } = locateHead(loop, unit(add(scale(across, 0.8), scale(loop.towards, -1))))
  const headLong = 1.5 * tie.widthMm
  const headHigh = 1.1 * tie.widthMm
  const head = box(along(point, outward, -thick), loop.axis, tangent, outward, 1.4 * tie.widthMm, headLong, headHigh)
  if (tie.kind === "band") return [strap, head]
  const stub = along(along(point, outward, headHigh * 0.5), tangent, headLong / 2)
  return [
    strap,
    head,
    box(along(stub, tangent, tie.widthMm), loop.axis, tangent, outward, tie.widthMm, 2 * tie.widthMm, 2 * thick),
  ]
}

function tubeOutline({ profile }: Frame): readonly number[] {
  if (profile.kind === "round") {
    const radius = profile.diameterMm / 2
    return Array.from({ length: 48 }, (_, index) => {
      const angle = (2 * Math.PI * index) / 48
      return [radius * Math.cos(angle), radius * Math.sin(angle)]
    }).flat()
  }
  const corner = Math.max(profile.cornerMm, 0.8)
  const x = profile.widthMm / 2 - corner
  const y = profile.heightMm / 2 - corner
  return [
    [x, y, 0],
    [-x, y, 90],
    [-x, -y, 180],
    [x, -y, 270],
  ].flatMap(([cx = 0, cy = 0, start = 0]) =>
    [0, 22.5, 45, 67.5, 90].flatMap((turn) => {
      const angle = ((start + turn) * Math.PI) / 180
      return [cx + corner * Math.cos(angle), cy + corner * Math.sin(angle)]
    }),
  )
}

function perpendicular(axis: Vec3): Vec3 {
  return cross(axis, Math.abs(axis[2]) < 0.9 ? cross([0, 0, 1], axis) : [1, 0, 0])
}

function pairs(values: readonly number[]): readonly (readonly [number, number])[] {
  return Array.from({ length: values.length / 2 }, (_, index) => [values[2 * index] ?? 0, values[2 * index + 1] ?? 0])
}

/** Counter-clockwise hull (Andrew 1979). */
function convexHull(points: readonly (readonly [number, number])[]): readonly (readonly [number, number])[] {
  const sorted = [...points].sort((one, other) => one[0] - other[0] || one[1] - other[1])
  const half = (list: readonly (readonly [number, number])[]): (readonly [number, number])[] => {
    const chain: (readonly [number, number])[] = []
    for (const point of list) {
      for (
        let a = chain.at(-2), b = chain.at(-1);
        a !== undefined && b !== undefined;
        a = chain.at(-2), b = chain.at(-1)
      ) {
        if ((b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0]) > 1e-9) break
        chain.pop()
      }
      chain.push(point)
    }
    return chain.slice(0, -1)
  }
  return [...half(sorted), ...half(sorted.toReversed())]
}

/** Moves a convex outline outward and rounds its corners, so that no corner turns by more than about 20 degrees. */
function offsetHull(
  hull: readonly (readonly [number, number])[],
  byMm: number,
): readonly (readonly [number, number])[] {
  return hull.flatMap((point, index) => {
    const before = hull[(index - 1 + hull.length) % hull.length] ?? point
    const after = hull[(index + 1) % hull.length] ?? point
    const start = Math.atan2(-(point[0] - before[0]), point[1] - before[1])
    const end = Math.atan2(-(after[0] - point[0]), after[1] - point[1])
    const turn = (end - start + 4 * Math.PI) % (2 * Math.PI)
    const stepCount = Math.max(0, Math.ceil(turn / 0.3) - 1)
    return Array.from({ length: stepCount + 1 }, (_, step) => {
      // The angles are those of the outward normals of both edges.
      const angle = stepCount === 0 ? start + turn / 2 : start + (turn * step) / stepCount
      return [point[0] + byMm * Math.cos(angle), point[1] + byMm * Math.sin(angle)] as const
    })
  })
}

function locateHead(loop: Loop, wanted: Vec3): { point: Vec3; tangent: Vec3; outward: Vec3 } {
  let best = 0
  loop.path.forEach((point, index) => {
    const value = dot(subtract(point, loop.at), wanted)
    if (value > dot(subtract(loop.path[best] ?? point, loop.at), wanted)) best = index
  })
  const count = loop.path.length
  const point = loop.path[best] ?? loop.at
  const before = loop.path[(best - 1 + count) % count] ?? point
  const after = loop.path[(best + 1) % count] ?? point
  const tangent = unit(subtract(after, before))
  const side = cross(tangent, loop.axis)
  const outward = dot(side, subtract(point, loop.at)) < 0 ? scale(side, -1) : side
  return { point, tangent, outward }
}

/** A box that stands on `foot`: width along `x`, length along `y`, height along `z`. */
function box(foot: Vec3, x: Vec3, y: Vec3, z: Vec3, width: number, length: number, height: number): Mesh {
  const [w, l] = [width / 2, length / 2]
  const points = [w, l, -w, l, -w, -l, w, -l]
  const mesh = loftRings([
    { zMm: 0, points },
    { zMm: height, points },
  ])
  const right = dot(cross(x, y), z) < 0 ? scale(x, -1) : x
  const rotation = [right[0], y[0], z[0], right[1], y[1], z[1], right[2], y[2], z[2]] as const
  return moveMesh(mesh, { ...poseAlong(foot, z), rotation })
}
