import { expect, test } from "vitest"
import { assignLeastCost } from "../../src/drawing/assign.ts"
import { makePaperGrid } from "../../src/drawing/free-space.ts"
import { measureLettering, strokeLettering } from "../../src/drawing/glyphs.ts"
import { type Candidate, labelWidthMm, placeReferences, referenceHeightMm } from "../../src/drawing/references.ts"
import { seeded } from "./scenes.ts"

/** All ways to give rows columns of their own. */
function leastByTrying(costs: readonly (readonly number[])[], row = 0, taken: readonly number[] = []): number {
  if (row === costs.length) return 0
  return Math.min(
    ...(costs[row] ?? []).flatMap((cost, column) =>
      taken.includes(column) ? [] : [cost + leastByTrying(costs, row + 1, [...taken, column])],
    ),
  )
}

test("the assignment is as cheap as the cheapest of all assignments, in 200 seeded tables", () => {
  for (let seed = 1; seed <= 200; seed += 1) {
    const random = seeded(seed)
    const rowCount = 1 + Math.floor(random() * 4)
    const columnCount = rowCount + Math.floor(random() * 3)
    const costs = Array.from({ length: rowCount }, () =>
      Array.from({ length: columnCount }, () => Math.floor(random() * 50)),
    )
    const found = assignLeastCost(costs)
    expect(found?.cost, `seed ${seed}`).toBe(leastByTrying(costs))
    expect(new Set(found?.columns).size).toBe(rowCount)
  }
})

test("a forbidden pair is not taken, and too few columns give nothing", () => {
  const never = Number.POSITIVE_INFINITY
  expect(
    assignLeastCost([
      [never, 5],
      [1, 2],
    ])?.columns,
  ).toEqual([1, 0])
  expect(assignLeastCost([[never], [1]])).toBeUndefined()
  expect(
    assignLeastCost([
      [never, never],
      [1, 2],
    ]),
  ).toBeUndefined()
})

/** Paper of 120 x 90 mm with a picture of 60 x 40 mm in the middle, all of it one thing. */
function paperWithPicture(): ReturnType<typeof makePaperGrid> {
  const size = 61
  const item = new Int32Array(size * size).fill(-1)
  for (let row = 0; row < 40; row += 1) for (let column = 0; column < 60; column += 1) item[row * size + column] = 0
  const buffer = {
    widthPx: size,
    heightPx: size,
    pxPerMm: 1,
    leftMm: 0,
    topMm: 0,
    depth: new Float32Array(size * size),
    item,
  }
  return makePaperGrid(
    { left: -30, top: -25, right: 90, bottom: 65 },
    buffer,
    { scale: 1, leftMm: 0, topMm: 0 },
    () => true,
  )
}

test("references stand outside the picture, and no two leaders cross, in 150 seeded drawings", () => {
  const grid = paperWithPicture()
  for (let seed = 1; seed <= 150; seed += 1) {
    const random = seeded(seed)
    const candidates: Candidate[] = Array.from({ length: 2 + Math.floor(random() * 5) }, (_, index) => ({
      itemReference: index + 1,
      count: random() < 0.5 ? 1 : 2 + Math.floor(random() * 12),
      anchors: Array.from({ length: 1 + Math.floor(random() * 3) }, () => ({
        x: 3 + 54 * random(),
        y: 3 + 34 * random(),
        item: 0,
        roomMm: 1,
      })),
    }))
    const placed = placeReferences(candidates, grid)
    if (placed === undefined) throw new Error(`no room, seed ${seed}`)
    expect(placed.map(({ candidate }) => candidate).sort()).toEqual(candidates.map((_, index) => index))
    for (const one of placed) {
      const candidate = candidates[one.candidate]
      const half = labelWidthMm(candidate?.itemReference ?? 0, candidate?.count ?? 1) / 2
      const isOutside =
        one.x + half < 0 || one.x - half > 60 || one.y + referenceHeightMm / 2 < 0 || one.y - referenceHeightMm / 2 > 40
      expect(isOutside, `seed ${seed}`).toBe(true)
      for (const other of placed)
        if (one.candidate < other.candidate) expect(meet(one, other), `seed ${seed}`).toBe(false)
    }
    // ISO 6433: in rows or columns; two of them hold all numbers.
    const rails = placed.flatMap(({ x, y }) => [
      (one: Placed) => Math.abs(one.x - x) < 1e-9,
      (one: Placed) => Math.abs(one.y - y) < 1e-9,
    ])
    const isLinedUp = rails.some((first) => rails.some((second) => placed.every((one) => first(one) || second(one))))
    expect(isLinedUp, `seed ${seed}`).toBe(true)
  }
})

type Placed = NonNullable<ReturnType<typeof placeReferences>>[number]

/** Solves the two lines for their common point. */
function meet(one: Placed, other: Placed): boolean {
  const [ux, uy] = [one.anchor.x - one.x, one.anchor.y - one.y]
  const [vx, vy] = [other.anchor.x - other.x, other.anchor.y - other.y]
  const area = ux * vy - uy * vx
  if (Math.abs(area) < 1e-12) return false
  const s = ((other.x - one.x) * vy - (other.y - one.y) * vx) / area
  const t = ((other.x - one.x) * uy - (other.y - one.y) * ux) / area
  return s > 0 && s < 1 && t > 0 && t < 1
}

test("no room gives undefined", () => {
  const grid = paperWithPicture()
  const full = { ...grid, isTaken: new Uint8Array(grid.isTaken.length).fill(1) }
  expect(
    placeReferences([{ itemReference: 1, count: 1, anchors: [{ x: 5, y: 5, item: 0, roomMm: 1 }] }], full),
  ).toBeUndefined()
})

test("digits fill their height and do not run into each other", () => {
  for (const digit of "0123456789") {
    const points = strokeLettering(digit, 5, 0, 0).flat()
    const ys = points.filter((_, index) => index % 2 === 1)
    const xs = points.filter((_, index) => index % 2 === 0)
    // ISO 3098: the height is that of the capital letters; y goes down on paper.
    expect(Math.min(...ys), digit).toBeCloseTo(-5, 1)
    expect(Math.max(...ys), digit).toBeCloseTo(0, 1)
    expect(Math.min(...xs), digit).toBeGreaterThanOrEqual(-0.11)
    expect(Math.max(...xs), digit).toBeLessThanOrEqual(measureLettering(digit, 5) + 0.11)
  }
  // ISO 3098 type B: at least 2/10 of the height between characters.
  const second = strokeLettering("88", 10, 0, 0)
    .slice(2)
    .flat()
    .filter((_, index) => index % 2 === 0)
  expect(Math.min(...second) - measureLettering("8", 10)).toBeGreaterThanOrEqual(2)
})
