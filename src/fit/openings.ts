/**
 * Whether a connector goes through an opening: rectangles, circles and obrounds, turned as needed. Lengths in mm.
 * All these outlines are convex and symmetric about their centre, so the best place is with the centres together:
 * if the outline fits anywhere it also fits, mirrored, at the mirrored place, and so in the middle of both.
 */

import type { Outline } from "../solids/types.ts"
import { atLeast, atMost } from "../units/compare.ts"
import { mm } from "../units/print.ts"

export type Passing = {
  readonly passes: boolean
  /** Short side (or diameter) that the opening would need; undefined when it passes, or when no short side is enough. */
  readonly neededMm: number | undefined
  readonly why: string
}

/** A round-cornered core: what is left of an outline when a disc is taken off all round. */
type Core = { readonly widthMm: number; readonly heightMm: number; readonly roundMm: number }

/**
 * Tells whether `envelope` passes `opening` straight, without tilting. Rectangles through sharp-cornered rectangles
 * follow Carver (1957) exactly, circles are exact, the others are searched over all turns, to well below 0.001 mm.
 */
export function passesThrough(envelope: Outline, opening: Outline): Passing {
  const sizes = `${nameOutline(envelope)} through ${nameOutline(opening)}`
  if (fits(envelope, opening)) return { passes: true, neededMm: undefined, why: `${sizes} passes` }
  const neededMm = neededShortSideMm(envelope, opening)
  const most = opening.kind === "circle" ? "diameter" : "short side"
  const why =
    neededMm === undefined
      ? `${sizes}: the long side of the opening is too short as well`
      : `${sizes}: the ${most} would have to be ${mm(Math.ceil(neededMm * 100 - 1e-6) / 100)}`
  return { passes: false, neededMm, why }
}

/**
 * Carver's criterion: rectangle p x q fits in rectangle a x b in any turn, with p >= q and a >= b, if and only if
 * q <= b and (p <= a or b (p^2 + q^2) >= 2 p q a + (p^2 - q^2) sqrt(p^2 + q^2 - a^2)). Without `q <= b` it is wrong.
 */
export function rectangleFits(p: number, q: number, a: number, b: number): boolean {
  const [long, short] = [Math.max(p, q), Math.min(p, q)]
  const [wide, high] = [Math.max(a, b), Math.min(a, b)]
  return atMost(short, high) && (atMost(long, wide) || atLeast(high, turnedHeightMm(long, short, wide)))
}

/** Smallest b for p x q in a x b when p > a: Carver's bound. */
export function turnedHeightMm(p: number, q: number, a: number): number {
  const diagonal2 = p ** 2 + q ** 2
  return (2 * p * q * a + (p ** 2 - q ** 2) * Math.sqrt(Math.max(0, diagonal2 - a ** 2))) / diagonal2
}

/** Smallest circular hole for a rectangle with rounded corners: 2 (sqrt((w/2 - r)^2 + (h/2 - r)^2) + r). */
export function circleForRectangleMm(widthMm: number, heightMm: number, cornerMm: number): number {
  return 2 * (Math.hypot(widthMm / 2 - cornerMm, heightMm / 2 - cornerMm) + cornerMm)
}

/** Largest height of a rectangle of that width in a circle; undefined when the width alone is too much. */
export function heightInCircleMm(diameterMm: number, widthMm: number): number | undefined {
  return widthMm > diameterMm ? undefined : Math.sqrt(diameterMm ** 2 - widthMm ** 2)
}

/** Longest width of a rectangle of that height lying along an obround: (L - W) + sqrt(W^2 - h^2). */
export function widthInObroundMm(lengthMm: number, obroundMm: number, heightMm: number): number {
  return lengthMm - obroundMm + Math.sqrt(Math.max(0, obroundMm ** 2 - heightMm ** 2))
}

/** Area of an obround slot: W (L - W) + pi / 4 W^2. */
export function obroundAreaMm2(lengthMm: number, widthMm: number): number {
  return widthMm * (lengthMm - widthMm) + (Math.PI / 4) * widthMm ** 2
}

/** Perimeter of an obround slot: 2 (L - W) + pi W. */
export function obroundPerimeterMm(lengthMm: number, widthMm: number): number {
  return 2 * (lengthMm - widthMm) + Math.PI * widthMm
}

/** `12 x 9`, `round 12`, `obround 20 x 8`: an outline as the maker writes it. */
export function nameOutline(outline: Outline): string {
  const short = (value: number): string => String(Number(value.toFixed(2)))
  if (outline.kind === "circle") return `round ${short(outline.diameterMm)}`
  const size = `${short(outline.widthMm)} x ${short(outline.heightMm)}`
  return outline.kind === "obround" ? `obround ${size}` : size
}

function fits(envelope: Outline, opening: Outline): boolean {
  const core = coreOf(envelope)
  const left = shrink(opening, core.roundMm)
  if (left === undefined) return false
  const { widthMm, heightMm } = core
  if (left.kind === "circle") return atMost(Math.hypot(widthMm, heightMm), left.diameterMm)
  if (left.kind === "rectangle" && left.cornerMm === 0)
    return rectangleFits(widthMm, heightMm, left.widthMm, left.heightMm)
  return smallestExcessMm(core, left) <= 1e-6
}

/** An envelope as a core with a disc round it: a circle is a point, an obround a line, a rectangle a smaller one. */
function coreOf(outline: Outline): Core {
  if (outline.kind === "circle") return { widthMm: 0, heightMm: 0, roundMm: outline.diameterMm / 2 }
  const [long, short] = sidesOf(outline)
  const roundMm = outline.kind === "obround" ? short / 2 : Math.min(outline.cornerMm, short / 2)
  return { widthMm: long - 2 * roundMm, heightMm: short - 2 * roundMm, roundMm }
}

function sidesOf(outline: { readonly widthMm: number; readonly heightMm: number }): readonly [number, number] {
  return [Math.max(outline.widthMm, outline.heightMm), Math.min(outline.widthMm, outline.heightMm)]
}

/** Where the centre of a disc may be inside an opening; undefined when the disc itself is too large. */
function shrink(opening: Outline, radiusMm: number): Outline | undefined {
  if (opening.kind === "circle") {
    const diameterMm = opening.diameterMm - 2 * radiusMm
    return atLeast(diameterMm, 0) ? { kind: "circle", diameterMm: Math.max(0, diameterMm) } : undefined
  }
  const [long, short] = sidesOf(opening).map((side) => side - 2 * radiusMm) as [number, number] // two sides give two
  if (!atLeast(short, 0)) return undefined
  const sizes = { widthMm: Math.max(0, long), heightMm: Math.max(0, short) }
  if (opening.kind === "obround") return { kind: "obround", ...sizes }
  const half = Math.min(opening.widthMm, opening.heightMm) / 2
  return { kind: "rectangle", ...sizes, cornerMm: Math.max(0, Math.min(opening.cornerMm, half) - radiusMm) }
}

/** Turns that are tried over a quarter turn before the best ones are narrowed down. */
const turnCount = 90

/** Smallest distance, over all turns, by which a corner of the core stands outside; 0 or less when it fits. */
function smallestExcessMm(core: Core, opening: Outline): number {
  const [x, y] = [core.widthMm / 2, core.heightMm / 2]
  const stepRad = Math.PI / (2 * turnCount)
  const excess = (angle: number): number => {
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
    const one = distanceOutsideMm(opening, Math.abs(x * cos - y * sin), Math.abs(x * sin + y * cos))
    const other = distanceOutsideMm(opening, Math.abs(x * cos + y * sin), Math.abs(x * sin - y * cos))
    return Math.max(one, other)
  }
  const tried = Array.from({ length: turnCount + 1 }, (_, index) => excess(index * stepRad))
  let best = Number.POSITIVE_INFINITY
  for (const [index, value] of tried.entries()) {
    const isDip = value <= (tried[index - 1] ?? value) && value <= (tried[index + 1] ?? value)
    if (isDip) best = Math.min(best, lowestBetween(excess, (index - 1) * stepRad, (index + 1) * stepRad))
  }
  return best
}

/** Lowest value between two turns with one dip between them, by thirds. */
function lowestBetween(value: (angle: number) => number, from: number, to: number): number {
  let [low, high] = [from, to]
  while (high - low > 1e-9) {
    const third = (high - low) / 3
    if (value(low + third) < value(high - third)) high -= third
    else low += third
  }
  return value((low + high) / 2)
}

/** Distance of a point of the first quadrant from an obround or round-cornered rectangle; negative inside. */
function distanceOutsideMm(opening: Outline, x: number, y: number): number {
  if (opening.kind === "circle") return Math.hypot(x, y) - opening.diameterMm / 2
  const [long, short] = sidesOf(opening)
  const round = opening.kind === "obround" ? short / 2 : opening.cornerMm
  const [outX, outY] = [x - (long / 2 - round), y - (short / 2 - round)]
  return Math.hypot(Math.max(0, outX), Math.max(0, outY)) + Math.min(0, Math.max(outX, outY)) - round
}

/** Smallest short side, or diameter, that lets the envelope through while the long side stays. */
function neededShortSideMm(envelope: Outline, opening: Outline): number | undefined {
  const core = coreOf(envelope)
  if (opening.kind === "circle") return Math.hypot(core.widthMm, core.heightMm) + 2 * core.roundMm
  const [long, short] = sidesOf(opening)
  const withShort = (heightMm: number): Outline => ({ ...opening, widthMm: long, heightMm })
  const largest = 2 * (core.widthMm + core.heightMm + 2 * core.roundMm)
  if (!fits(envelope, withShort(largest))) return undefined
  let [low, high] = [short, largest]
  for (let round = 0; round < 45; round += 1) {
    const middle = (low + high) / 2
    if (fits(envelope, withShort(middle))) high = middle
    else low = middle
  }
  return high
}
