/** Small scenes for the tests of the line engine. */
import { type FlatScene, flattenScene, type Piece } from "../../src/drawing/flatten.ts"
import { type Segments, type TracedLines, traceLines } from "../../src/drawing/hidden-lines.ts"
import { fillItemBuffer } from "../../src/drawing/item-buffer.ts"
import { circle, loftRings } from "../../src/drawing/loft.ts"
import { prepareMesh } from "../../src/drawing/prepare-mesh.ts"
import { cornerViews, type View } from "../../src/drawing/projection.ts"
import type { Mesh, Vec3 } from "../../src/solids/types.ts"

/** Length on paper of 1 mm along an axis in an isometric view: the square root of 2/3 (ISO 5456-3). */
export const isometricShare = Math.sqrt(2 / 3)

/** A closed box from `from` to `to`. */
export function box(from: Vec3, to: Vec3): Mesh {
  const points: number[] = []
  for (const z of [from[2], to[2]]) {
    for (const [x, y] of [
      [from[0], from[1]],
      [to[0], from[1]],
      [to[0], to[1]],
      [from[0], to[1]],
    ] as const) {
      points.push(x, y, z)
    }
  }
  const quads = [
    [0, 3, 2, 1],
    [4, 5, 6, 7],
    [0, 1, 5, 4],
    [1, 2, 6, 5],
    [2, 3, 7, 6],
    [3, 0, 4, 7],
  ]
  const triangles = quads.flatMap(([a = 0, b = 0, c = 0, d = 0]) => [a, b, c, a, c, d])
  return { positions: Float64Array.from(points), triangles: Uint32Array.from(triangles) }
}

/** An upright cylinder of 48 facets. */
export function pin(radiusMm: number, fromMm: number, toMm: number, x = 0, y = 0): Mesh {
  const mesh = loftRings([
    { zMm: fromMm, points: circle(radiusMm) },
    { zMm: toMm, points: circle(radiusMm) },
  ])
  return { ...mesh, positions: mesh.positions.map((value, index) => value + ([x, y, 0][index % 3] ?? 0)) }
}

export function pieceOf(id: string, mesh: Mesh, at: Vec3 = [0, 0, 0]): Piece {
  return { id, mesh: prepareMesh(mesh), pose: { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], at } }
}

export function usualView(): View {
  const [view] = cornerViews
  if (view === undefined) throw new Error("there is no view")
  return view
}

export function trace(
  pieces: readonly Piece[],
  view: View = usualView(),
  longSidePx = 500,
): { flat: FlatScene; lines: TracedLines } {
  const flat = flattenScene(pieces, view)
  return { flat, lines: traceLines(flat, fillItemBuffer(flat, longSidePx)) }
}

/** Length on paper of all stretches, or of those of one piece. */
export function lengthMm({ points, pieces }: Segments, piece?: number): number {
  return pieces.reduce((sum, owner, index) => {
    if (piece !== undefined && owner !== piece) return sum
    const [ax = 0, ay = 0, bx = 0, by = 0] = points.slice(4 * index, 4 * index + 4)
    return sum + Math.hypot(bx - ax, by - ay)
  }, 0)
}

/** Length on paper of all candidate edges. */
export function totalMm({ edges, x, y }: FlatScene): number {
  let sum = 0
  for (let edge = 0; edge < edges.length; edge += 2) {
    const [a = 0, b = 0] = [edges[edge], edges[edge + 1]]
    sum += Math.hypot((x[b] ?? 0) - (x[a] ?? 0), (y[b] ?? 0) - (y[a] ?? 0))
  }
  return sum
}

/** Numbers in [0, 1) that a seed repeats (mulberry32, public domain). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}
