/** The two ends of a round wall: where they are, and whether they are open. */
import { vertexAt } from "./bounds.ts"
import type { Facets } from "./facets.ts"
import { nextHalf } from "./topology.ts"
import type { Mesh, Vec3 } from "./types.ts"
import { cross, dot, subtract, unit } from "./vectors.ts"

/** One end, `atMm` along the axis (mean over the rim); closed where a floor or a cone narrows the hole. */
export type WallEnd = { readonly atMm: number; readonly isOpen: boolean }

/**
 * Follows the rim of the wall made of the facets `strips` round the axis through `centre` and gives its two ends, the
 * one lower along the axis first. Rims that do not go round the axis (a hole drilled across) are passed over. Gives
 * undefined when there are not two that go round: the wall is no simple tube.
 */
export function endsOfWall(
  mesh: Mesh,
  facets: Facets,
  strips: ReadonlySet<number>,
  axis: Vec3,
  centre: Vec3,
): { readonly low: WallEnd; readonly high: WallEnd } | undefined {
  const rims = followRims(mesh, facets, strips)
  const ends = rims.flatMap((rim) => {
    let [turned, heightTurned, hollowTurned] = [0, 0, 0]
    for (const half of rim) {
      const from = subtract(vertexAt(mesh, mesh.triangles[half] ?? 0), centre)
      const to = subtract(vertexAt(mesh, mesh.triangles[nextHalf(half)] ?? 0), centre)
      const angle = angleRound(axis, from, to)
      turned += angle
      heightTurned += (angle * (dot(from, axis) + dot(to, axis))) / 2
      if (isHollow(mesh, facets, half)) hollowTurned += angle
    }
    if (Math.abs(Math.abs(turned) - 2 * Math.PI) > 0.1) return []
    return [{ atMm: heightTurned / turned, isOpen: hollowTurned / turned < 0.5 }]
  })
  const [low, high, ...others] = ends.sort((one, other) => one.atMm - other.atMm)
  return low === undefined || high === undefined || others.length > 0 ? undefined : { low, high }
}

/** Closed chains of half edges that belong to the wall and have something else across. */
function followRims(mesh: Mesh, facets: Facets, strips: ReadonlySet<number>): readonly (readonly number[])[] {
  const isWall = (half: number): boolean => strips.has(facets.facetOf[Math.floor(half / 3)] ?? -1)
  const startingAt = new Map<number, number[]>()
  const rimHalves: number[] = []
  const triangles = [...strips].flatMap((facet) => facets.trianglesOf[facet] ?? [])
  for (const half of triangles.flatMap((triangle) => [triangle * 3, triangle * 3 + 1, triangle * 3 + 2])) {
    const across = facets.neighbours[half] ?? -1
    if (across < 0 || isWall(across)) continue
    rimHalves.push(half)
    const vertex = mesh.triangles[half] ?? 0
    startingAt.set(vertex, [...(startingAt.get(vertex) ?? []), half])
  }
  const isUsed = new Set<number>()
  const rims: number[][] = []
  for (const start of rimHalves) {
    if (isUsed.has(start)) continue
    const rim: number[] = []
    for (let half: number | undefined = start; half !== undefined; ) {
      isUsed.add(half)
      rim.push(half)
      const end: number = mesh.triangles[nextHalf(half)] ?? 0
      half = startingAt.get(end)?.find((next) => !isUsed.has(next))
    }
    rims.push(rim)
  }
  return rims
}

/** Angle in rad by which `to` is further round the axis than `from`. */
function angleRound(axis: Vec3, from: Vec3, to: Vec3): number {
  const turn = dot(cross(from, to), axis)
  const flat = dot(from, to) - dot(from, axis) * dot(to, axis)
  return Math.atan2(turn, flat)
}

/** True when the surface bends inward at this edge, so that the hole does not open here. */
function isHollow(mesh: Mesh, facets: Facets, half: number): boolean {
  const across = facets.neighbours[half] ?? 0
  const here = facets.normals[facets.facetOf[Math.floor(half / 3)] ?? 0]
  const there = facets.normals[facets.facetOf[Math.floor(across / 3)] ?? 0]
  if (here === undefined || there === undefined) return false
  const from = vertexAt(mesh, mesh.triangles[half] ?? 0)
  const to = vertexAt(mesh, mesh.triangles[nextHalf(half)] ?? 0)
  return dot(cross(there, here), unit(subtract(to, from))) > 0
}
