import { expect, test } from "vitest"
import { prepareMesh } from "../../src/drawing/prepare-mesh.ts"
import { cornerViews } from "../../src/drawing/projection.ts"
import { box, isometricShare, lengthMm, pieceOf, pin, seeded, totalMm, trace, usualView } from "./scenes.ts"

test("a cube shows 9 of its 12 edges, each at its isometric length, from every corner", () => {
  for (const view of cornerViews) {
    const { lines } = trace([pieceOf("cube", box([0, 0, 0], [20, 20, 20]))], view)
    expect(lines.visible.pieces.length, view.name).toBe(9)
    expect(lines.hidden.pieces.length, view.name).toBe(3)
    for (let index = 0; index < 9; index += 1) {
      const [ax = 0, ay = 0, bx = 0, by = 0] = lines.visible.points.slice(4 * index, 4 * index + 4)
      expect(Math.hypot(bx - ax, by - ay)).toBeCloseTo(20 * isometricShare, 9)
    }
  }
})

/**
 * The eye looks along (-1, 1, -1). A cube of 20 at the origin stands behind a plate in the plane y = -30 whose right edge is at x
 * = X. A point (x, y, z) lies behind the plate when it meets y = -30 at x - 30 - y ... worked out: the ray from a point p
 * towards the eye is p + t (1, -1, 1); it reaches y = -30 at t = p.y + 30, so at x = p.x + p.y + 30. The plate reaches from x = -200
 * to 40 and is high enough for every z, so p is hidden when p.x + p.y + 30 < 40, that is p.x + p.y < 10.
 */
test("a cube half behind a plate shows the computed lengths", () => {
  const cube = pieceOf("cube", box([0, 0, 0], [20, 20, 20]))
  const plate = pieceOf("plate", box([-200, -34, -200], [40, -34 + 4, 300]))
  const { lines } = trace([cube, plate])
  // Front bottom and front top edges (y = 0) show from x = 10 on: 10 mm each. The top left edge (x = 0) shows for y from 10
  // to 20: 10 mm. Right face: x = 20, both edges along y and the two uprights are clear: 20 mm each, but the upright at the
  // left (x = 0, y = 0) is hidden. The top back edge (y = 20) is clear: 20 mm.
  const shown = 10 + 10 + 10 + 20 + 20 + 20 + 20 + 20
  expect(lengthMm(lines.visible, 0)).toBeCloseTo(shown * isometricShare, 1)
  expect(Math.abs(lengthMm(lines.visible, 0) - shown * isometricShare)).toBeLessThan(0.05)
})

test("a pin through a plate keeps its lower part", () => {
  // Seen from above: plate z from 0 to 2, pin from -30 to 30. Below the plate the pin shows where the plate does not cover it.
  const plate = pieceOf("plate", box([-10, -10, 0], [10, 10, 2]))
  const through = pieceOf("pin", pin(3, -30, 30))
  const { lines } = trace([plate, through])
  const view = usualView()
  let lowest = Number.NEGATIVE_INFINITY
  let sideMm = 0
  lines.visible.pieces.forEach((piece, index) => {
    if (piece !== 1) return
    const [ax = 0, ay = 0, bx = 0, by = 0] = lines.visible.points.slice(4 * index, 4 * index + 4)
    lowest = Math.max(lowest, ay, by)
    if (Math.abs(ax - bx) < 1e-9 && Math.abs(ay - by) > 1) sideMm += Math.abs(ay - by)
  })
  // The lowest point of the bottom circle on paper: 30 mm down, plus the circle's half height (radius times the sine of its slope).
  const slope = view.from[2]
  const expected = 30 * Math.sqrt(1 - slope * slope) + 3 * slope
  expect(lowest).toBeGreaterThan(expected - 0.05)
  expect(lowest).toBeLessThan(expected + 0.01)
  // Sides of the pin: each 60 mm high on paper times the cosine of the slope, less the parts that the plate covers.
  const upright = Math.sqrt(1 - slope * slope)
  expect(sideMm).toBeLessThan(2 * 60 * upright - 2 * 2 * upright)
  const above = 2 * 28 * upright
  expect(sideMm).toBeGreaterThan(above + 2 * 10 * upright)
})

test("seen and hidden lengths add up to the total, in 200 seeded scenes", () => {
  for (let seed = 1; seed <= 200; seed += 1) {
    const random = seeded(seed)
    const pieces = Array.from({ length: 2 + Math.floor(random() * 5) }, (_, index) => {
      const at = [40 * random(), 40 * random(), 40 * random()] as const
      const size = [4 + 20 * random(), 4 + 20 * random(), 4 + 20 * random()] as const
      if (random() < 0.4) return pieceOf(`pin.${index}`, pin(size[0] / 3, 0, size[2]), at)
      return pieceOf(`box.${index}`, box([0, 0, 0], size), at)
    })
    const view = cornerViews[seed % 8] ?? usualView()
    const { flat, lines } = trace(pieces, view, 200)
    const sum = lengthMm(lines.visible) + lengthMm(lines.hidden)
    expect(Math.abs(sum - totalMm(flat)), `seed ${seed}`).toBeLessThan(1e-6 * totalMm(flat))
    expect(lengthMm(lines.visible), `seed ${seed}`).toBeGreaterThan(0)
  }
})

/** For a point on a seen stretch no triangle may stand before it; for one on a hidden stretch some triangle must. */
test("each stretch is what a ray test of every triangle says, in 60 seeded scenes", () => {
  let checkedCount = 0
  for (let seed = 1; seed <= 60; seed += 1) {
    const random = seeded(1000 + seed)
    const pieces = Array.from({ length: 4 }, (_, index) => {
      const at = [30 * random(), 30 * random(), 30 * random()] as const
      return random() < 0.5
        ? pieceOf(`pin.${index}`, pin(3 + 4 * random(), 0, 8 + 10 * random()), at)
        : pieceOf(`box.${index}`, box([0, 0, 0], [6 + 12 * random(), 6 + 12 * random(), 6 + 12 * random()]), at)
    })
    const { flat, lines } = trace(pieces)
    const edgeDepths = indexEdges(flat)
    for (const [segments, isHidden] of [
      [lines.visible, false],
      [lines.hidden, true],
    ] as const) {
      for (let index = 0; index < segments.pieces.length; index += 1) {
        const [ax = 0, ay = 0, bx = 0, by = 0] = segments.points.slice(4 * index, 4 * index + 4)
        if (Math.hypot(bx - ax, by - ay) < 0.5) continue
        const [x, y] = [ax + (bx - ax) * 0.37, ay + (by - ay) * 0.37]
        const depth = edgeDepths(
          x,
          y,
          segments.pieces[index] ?? 0,
          (bx - ax) / Math.hypot(bx - ax, by - ay),
          (by - ay) / Math.hypot(bx - ax, by - ay),
        )
        if (depth === undefined) continue
        const before = nearestDepth(flat, x, y) - depth
        // Within the engine's own tolerance (0.05 mm) either answer is right; a thin edge of the own body hides, too.
        if (before > 1e-6 && before < 0.08) continue
        checkedCount += 1
        expect(
          before > 0.05,
          `seed ${seed}, ${isHidden ? "hidden" : "seen"} at ${x.toFixed(3)} ${y.toFixed(3)}, ${before} mm behind`,
        ).toBe(isHidden)
      }
    }
  }
  expect(checkedCount).toBeGreaterThan(3000)
})

test("touching faces hide nothing and flush edges are seen", () => {
  // Two boxes side by side make one of 40 x 20 x 20; the joint between them shows as a line on top and in front.
  const { lines } = trace([
    pieceOf("one", box([0, 0, 0], [20, 20, 20])),
    pieceOf("other", box([20, 0, 0], [40, 20, 20])),
  ])
  // Each box keeps its top and front faces; the left box loses its right face to the other one.
  const one = 20 * 9 - 20 * 2
  expect(lengthMm(lines.visible, 0)).toBeCloseTo(one * isometricShare, 6)
  expect(lengthMm(lines.visible, 1)).toBeCloseTo(20 * 9 * isometricShare, 6)
  // A cube on a plate: its lower edges lie in the plate's top face and are seen.
  const standing = trace([
    pieceOf("plate", box([-40, -40, -5], [60, 60, 0])),
    pieceOf("cube", box([0, 0, 0], [20, 20, 20])),
  ])
  expect(lengthMm(standing.lines.visible, 1)).toBeCloseTo(20 * 9 * isometricShare, 6)
})

test("open meshes are drawn: a box without its top shows its inside, and no length is lost", () => {
  const whole = box([0, 0, 0], [20, 20, 20])
  // The third and fourth triangle are the top.
  const triangles = Uint32Array.from([...whole.triangles.slice(0, 6), ...whole.triangles.slice(12)])
  const { flat, lines } = trace([pieceOf("tray", { positions: whole.positions, triangles })])
  expect(lengthMm(lines.visible) + lengthMm(lines.hidden)).toBeCloseTo(totalMm(flat), 6)
  // Beside the nine outer edges the far upright shows through the open top: the ray from (0, 20, z) along (1, -1, 1) reaches
  // the height 20 at (20 - z, z), inside the rim. From the far edges of the floor it meets a near wall first.
  expect(lengthMm(lines.visible)).toBeCloseTo(10 * 20 * isometricShare, 1)
  const torn = trace([pieceOf("scrap", { positions: whole.positions, triangles: whole.triangles.slice(0, 3) })])
  expect(lengthMm(torn.lines.visible)).toBeCloseTo(totalMm(torn.flat), 6)
})

test("two runs give equal lines", () => {
  const make = (): unknown =>
    trace([pieceOf("plate", box([-10, -10, 0], [10, 10, 2])), pieceOf("pin", pin(3, -30, 30))]).lines
  expect(make()).toEqual(make())
})

test("a sliver neither makes nor hides a crease", () => {
  // A square split in two triangles, and the same with a third, flat triangle along its diagonal whose corner is off by 1e-7 mm.
  const flat = {
    positions: Float64Array.of(0, 0, 0, 10, 0, 0, 10, 10, 0, 0, 10, 0, 5, 5, 1e-7),
    triangles: Uint32Array.of(0, 1, 2, 0, 4, 3, 4, 2, 3, 0, 2, 4),
  }
  expect([...prepareMesh(flat).kinds].filter((kind) => kind === 1)).toEqual([])
  // Folded along the diagonal by 90 degrees, exactly one side of the sliver is a crease all along.
  const folded = {
    positions: Float64Array.of(0, 0, 0, 10, 0, 0, 10, 10, 0, 5, 5, 7, 5, 5, 1e-7),
    triangles: Uint32Array.of(0, 1, 2, 0, 4, 3, 4, 2, 3, 0, 2, 4),
  }
  const prepared = prepareMesh(folded)
  let creaseMm = 0
  prepared.kinds.forEach((kind, edge) => {
    if (kind !== 1) return
    const [a = 0, b = 0] = prepared.edges.slice(2 * edge, 2 * edge + 2)
    const at = (vertex: number): number[] => [...folded.positions.slice(3 * vertex, 3 * vertex + 3)]
    const [p, q] = [at(a), at(b)]
    creaseMm += Math.hypot((p[0] ?? 0) - (q[0] ?? 0), (p[1] ?? 0) - (q[1] ?? 0), (p[2] ?? 0) - (q[2] ?? 0))
  })
  expect(creaseMm).toBeCloseTo(10 * Math.SQRT2, 5)
})

type Flat = ReturnType<typeof trace>["flat"]

/** Finds the depth of the edge of a piece that runs through a point in a direction; undefined when two do. */
function indexEdges(flat: Flat): (x: number, y: number, piece: number, dx: number, dy: number) => number | undefined {
  return (px, py, piece, dx, dy) => {
    const found: number[] = []
    for (let edge = 0; edge < flat.edgePiece.length; edge += 1) {
      if (flat.edgePiece[edge] !== piece) continue
      const [a = 0, b = 0] = [flat.edges[2 * edge], flat.edges[2 * edge + 1]]
      const [ax, ay, bx, by] = [flat.x[a] ?? 0, flat.y[a] ?? 0, flat.x[b] ?? 0, flat.y[b] ?? 0]
      const length = Math.hypot(bx - ax, by - ay)
      if (length < 1e-9) continue
      const along = ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / length / length
      const aside = Math.abs((px - ax) * (by - ay) - (py - ay) * (bx - ax)) / length
      const isParallel = Math.abs((dx * (by - ay) - dy * (bx - ax)) / length) < 1e-6
      if (along < 0 || along > 1 || aside > 1e-7 || !isParallel) continue
      found.push((flat.depth[a] ?? 0) + ((flat.depth[b] ?? 0) - (flat.depth[a] ?? 0)) * along)
    }
    return found.length === 1 ? found[0] : undefined
  }
}

/** Greatest depth of all triangles over a point, each tested. */
function nearestDepth(flat: Flat, px: number, py: number): number {
  let nearest = Number.NEGATIVE_INFINITY
  for (let triangle = 0; triangle < flat.triangles.length; triangle += 3) {
    const [a = 0, b = 0, c = 0] = flat.triangles.slice(triangle, triangle + 3)
    const [ax, ay, bx, by, cx, cy] = [
      flat.x[a] ?? 0,
      flat.y[a] ?? 0,
      flat.x[b] ?? 0,
      flat.y[b] ?? 0,
      flat.x[c] ?? 0,
      flat.y[c] ?? 0,
    ]
    const area = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)
    if (Math.abs(area) < 1e-9) continue
    const u = ((px - ax) * (cy - ay) - (py - ay) * (cx - ax)) / area
    const v = ((bx - ax) * (py - ay) - (by - ay) * (px - ax)) / area
    if (u < 0 || v < 0 || u + v > 1) continue
    const [da, db, dc] = [flat.depth[a] ?? 0, flat.depth[b] ?? 0, flat.depth[c] ?? 0]
    nearest = Math.max(nearest, da + u * (db - da) + v * (dc - da))
  }
  return nearest
}
