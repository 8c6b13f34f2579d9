import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { passesThrough, rectangleFits } from "../../src/fit/openings.ts"
import type { Outline } from "../../src/solids/types.ts"

const rectangle = (widthMm: number, heightMm: number, cornerMm = 0): Outline => ({
  kind: "rectangle",
  widthMm,
  heightMm,
  cornerMm,
})
const circle = (diameterMm: number): Outline => ({ kind: "circle", diameterMm })
const obround = (widthMm: number, heightMm: number): Outline => ({ kind: "obround", widthMm, heightMm })

/** Middles of the corner arcs of an outline and their radius: a circle is one, an obround two, a rectangle four. */
function arcsOf(outline: Outline): {
  readonly middles: readonly (readonly [number, number])[]
  readonly round: number
} {
  if (outline.kind === "circle") return { middles: [[0, 0]], round: outline.diameterMm / 2 }
  const { widthMm, heightMm } = outline
  const round = outline.kind === "obround" ? Math.min(widthMm, heightMm) / 2 : outline.cornerMm
  const [x, y] = [widthMm / 2 - round, heightMm / 2 - round]
  return { middles: [-x, x].flatMap((one) => [-y, y].map((other) => [one, other] as const)), round }
}

/**
 * Second way to the answer: the opening as what lies within flat sides and corner arcs, the envelope as the farthest points of
 * its own arcs; tried at every 0.25 degree, then at 0.0005 degree about the best turns. Gives how far it stands out at best.
 * The envelope's middle is moved about, too, since nothing is taken for granted about the best place.
 */
function bruteExcess(envelope: Outline, opening: Outline): number {
  const { middles, round } = arcsOf(envelope)
  const [halfWide, halfHigh] = halvesOf(opening)
  const arcs = arcsOf(opening)
  const worstAt = (turnDeg: number, [dx, dy]: readonly [number, number]): number => {
    const angle = (turnDeg * Math.PI) / 180
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
    return Math.max(
      ...middles.map(([x, y]) => {
        const [px, py] = [Math.abs(x * cos - y * sin + dx), Math.abs(x * sin + y * cos + dy)]
        const flat = Math.max(px - halfWide, py - halfHigh) + round
        const [cx, cy] = [halfWide - arcs.round, halfHigh - arcs.round]
        // Only an arc that bends more gently than the envelope's own can hold it back.
        const isInCorner = arcs.round > round && px > cx && py > cy
        const room = arcs.round - round
        return isInCorner ? Math.max(flat, Math.hypot(px - cx, py - cy) - room) : flat
      }),
    )
  }
  const shifts = [0, 0.05, -0.05].flatMap((dx) => [0, 0.05, -0.05].map((dy) => [dx, dy] as const))
  const coarse = Array.from({ length: 721 }, (_, step) => ({ turnDeg: step / 4, worst: worstAt(step / 4, [0, 0]) }))
  const best = [...coarse].sort((one, other) => one.worst - other.worst).slice(0, 4)
  const fine = best.flatMap(({ turnDeg }) =>
    Array.from({ length: 1001 }, (_, step) => worstAt(turnDeg + (step - 500) / 2000, [0, 0])),
  )
  const moved = best.flatMap(({ turnDeg }) => shifts.map((shift) => worstAt(turnDeg, shift)))
  return Math.min(...coarse.map(({ worst }) => worst), ...fine, ...moved)
}

function halvesOf(outline: Outline): readonly [number, number] {
  return outline.kind === "circle"
    ? [outline.diameterMm / 2, outline.diameterMm / 2]
    : [outline.widthMm / 2, outline.heightMm / 2]
}

const side = fc.integer({ min: 2, max: 40 }).map((half) => half / 2)
const outline = fc.oneof(
  fc.tuple(side, side).map(([width, height]) => rectangle(width, height)),
  fc.tuple(side, side).map(([width, height]) => rectangle(width, height, Math.min(width, height) / 4)),
  side.map((diameter) => circle(diameter)),
  fc.tuple(side, side).map(([width, height]) => obround(width, height)),
)

/** An envelope whose size comes near to what the opening lets pass, where the answer hangs on hundredths. */
const near = fc
  .tuple(outline, fc.integer({ min: -60, max: 60 }), fc.integer({ min: 1, max: 60 }))
  .map(([opening, by, thin]) => {
    const [halfWide, halfHigh] = halvesOf(opening)
    const diagonal = 2 * Math.hypot(halfWide, halfHigh)
    return { opening, envelope: rectangle(diagonal - by / 40, Math.max(0.2, thin / 40), 0) }
  })

test.each([
  ["any pair of outlines", fc.record({ envelope: outline, opening: outline }), 400],
  ["strips nearly as long as the diagonal of the opening", near, 400],
] as const)("agrees with turning by small angles: %s", (_, pairs, numRuns) => {
  let [passed, stopped] = [0, 0]
  fc.assert(
    fc.property(pairs, ({ envelope, opening }) => {
      const excess = bruteExcess(envelope, opening)
      // At 0.0005 degree the search is 40 mm x sin 0.0005 degree = 0.0004 mm coarse at most.
      fc.pre(Math.abs(excess) > 0.0005)
      const { passes, turnDeg } = passesThrough(envelope, opening)
      expect(passes).toBe(excess < 0)
      expect(turnDeg === undefined).toBe(!passes)
      if (passes) passed += 1
      else stopped += 1
    }),
    { seed: 1957, numRuns },
  )
  expect(Math.min(passed, stopped)).toBeGreaterThan(40)
})

/** How far a point stands out of an opening: beyond its flat sides, or beyond the arc of its corner. */
function standsOut(opening: Outline, x: number, y: number): number {
  const [halfWide, halfHigh] = halvesOf(opening)
  const { round } = arcsOf(opening)
  const [outX, outY] = [Math.abs(x) - (halfWide - round), Math.abs(y) - (halfHigh - round)]
  return outX > 0 && outY > 0 ? Math.hypot(outX, outY) - round : Math.max(outX, outY) - round
}

test("at the turn it tells, the corners of a rectangle lie inside", () => {
  let turned = 0
  fc.assert(
    fc.property(near, ({ envelope, opening }) => {
      const { turnDeg } = passesThrough(envelope, opening)
      if (turnDeg === undefined || envelope.kind !== "rectangle") return
      if (turnDeg > 0) turned += 1
      const angle = (turnDeg * Math.PI) / 180
      const [x, y] = [
        Math.max(envelope.widthMm, envelope.heightMm) / 2,
        Math.min(envelope.widthMm, envelope.heightMm) / 2,
      ]
      const long = opening.kind === "circle" || opening.widthMm >= opening.heightMm ? opening : swapSides(opening)
      for (const [px, py] of [
        [x, y],
        [x, -y],
      ] as const) {
        const [atX, atY] = [px * Math.cos(angle) - py * Math.sin(angle), px * Math.sin(angle) + py * Math.cos(angle)]
        expect(standsOut(long, atX, atY)).toBeLessThan(1e-4)
      }
    }),
    { seed: 73, numRuns: 1500 },
  )
  expect(turned).toBeGreaterThan(15)
})

function swapSides(outline: Exclude<Outline, { kind: "circle" }>): Outline {
  return { ...outline, widthMm: outline.heightMm, heightMm: outline.widthMm }
}

test("the needed short side is the smallest that lets it pass", () => {
  fc.assert(
    fc.property(outline, outline, (envelope, opening) => {
      const { passes, neededMm } = passesThrough(envelope, opening)
      if (passes || neededMm === undefined) return
      const grown = (by: number): Outline =>
        opening.kind === "circle"
          ? circle(neededMm + by)
          : { ...opening, widthMm: Math.max(opening.widthMm, opening.heightMm), heightMm: neededMm + by }
      expect(passesThrough(envelope, grown(1e-3)).passes).toBe(true)
      expect(passesThrough(envelope, grown(-0.02)).passes).toBe(false)
    }),
    { seed: 24, numRuns: 400 },
  )
})

describe("worked cases", () => {
  test.each([
    // Wetzel, Rectangles in Rectangles, Mathematics Magazine 73 (2000): 9 x 4 does not fit 8 x 6 though its area and diagonal do.
    ["9 x 4 in 8 x 6", [9, 4, 8, 6], false],
    ["a square in a smaller square, where the formula without q <= b says yes", [10, 10, 8, 8], false],
    ["a long thin strip on the diagonal", [10, 1, 9, 6.2], true],
    ["the same strip in a slightly lower window", [10, 1, 9, 6.1], false],
    ["sides swapped", [8.36, 11.68, 9, 12], true],
  ] as const)("%s", (_, [p, q, a, b], fits) => {
    expect(rectangleFits(p, q, a, b)).toBe(fits)
    expect(rectangleFits(q, p, b, a)).toBe(fits)
  })

  test("a plug of 12.35 x 6.5 needs a round hole of 13.96 mm", () => {
    expect(passesThrough(rectangle(12.35, 6.5), circle(13.97)).passes).toBe(true)
    const stopped = passesThrough(rectangle(12.35, 6.5), circle(13.95))
    expect(stopped.passes).toBe(false)
    expect(stopped.neededMm).toBeCloseTo(Math.hypot(12.35, 6.5), 6)
    expect(stopped.why).toBe(
      "12.35 x 6.5 through round 13.95: the diameter would have to be 13.96\u00a0mm, 0.01\u00a0mm more",
    )
  })

  test("5 mm high and 18.245 mm wide lies along an obround of 20 x 8", () => {
    expect(passesThrough(rectangle(18.24, 5), obround(20, 8)).passes).toBe(true)
    expect(passesThrough(rectangle(18.26, 5), obround(20, 8)).passes).toBe(false)
  })

  test("no area, diagonal or half perimeter tells that a rectangle fits", () => {
    // Wetzel (2000): 9 x 4 has less of each than 8 x 6 and the smaller short side.
    expect(9 * 4 <= 8 * 6 && 9 ** 2 + 4 ** 2 <= 8 ** 2 + 6 ** 2 && 9 + 4 <= 8 + 6 && 4 <= 6).toBe(true)
    expect(passesThrough(rectangle(9, 4), rectangle(8, 6)).passes).toBe(false)
  })

  test("a circle passes an obround as wide as itself", () => {
    expect(passesThrough(circle(8), obround(20, 8)).passes).toBe(true)
    expect(passesThrough(circle(8.01), obround(20, 8)).passes).toBe(false)
  })

  test("says which turn passes, and how much is missing", () => {
    // Carver's turn for 13 x 1 in a width of 12: atan(1/13) + acos(12/sqrt(170)) = 4.40 + 23.03 degrees.
    const passing = passesThrough(rectangle(13, 1), rectangle(12, 6.88))
    expect(passing.turnDeg).toBeCloseTo(27.43, 1)
    expect(passing.why).toBe("13 x 1 through 12 x 6.88 passes, turned by 27°")
    expect(passesThrough(rectangle(1, 13), rectangle(6.8, 12)).why).toBe(
      "1 x 13 through 6.8 x 12: the short side would have to be 6.88\u00a0mm, 0.08\u00a0mm more, with it turned by 27°",
    )
    expect(passesThrough(rectangle(8, 4), rectangle(8, 6)).turnDeg).toBe(0)
  })

  test("no short side helps when the long side is too short", () => {
    expect(passesThrough(circle(12), rectangle(10, 4))).toMatchObject({ passes: false, neededMm: undefined })
  })
})
