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
  /** Angle between the long sides at which it passes, 0 to 90; 0 when it passes as it lies. Undefined when it does not pass. */
  readonly turnDeg: number | undefined
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
  const turnDeg = findTurnDeg(envelope, opening)
  if (turnDeg !== undefined)
    return { passes: true, turnDeg, neededMm: undefined, why: `${sizes} passes${sayTurn(", turned by", turnDeg)}` }
  const neededMm = neededShortSideMm(envelope, opening)
  const stopped = { passes: false, turnDeg: undefined, neededMm } as const
  if (neededMm === undefined) return { ...stopped, why: `${sizes}: the long side of the opening is too short as well` }
  const most = opening.kind === "circle" ? "diameter" : "short side"
  const upMm = (value: number): number => Math.ceil(value * 100 - 1e-6) / 100
  const missingMm = upMm(neededMm - shortSideMm(opening))
  const turned = sayTurn(", with it turned by", findTurnDeg(envelope, growTo(opening, neededMm)) ?? 0)
  return {
    ...stopped,
    why: `${sizes}: the ${most} would have to be ${mm(upMm(neededMm))}, ${mm(missingMm)} more${turned}`,
  }
}

/** `, turned by 34°`; nothing when it lies straight. */
function sayTurn(words: string, turnDeg: number): string {
  return turnDeg === 0 ? "" : `${words} ${Math.round(turnDeg)}°`
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

/** The angle between the long sides at which an envelope passes, 0 when it can; undefined when it does not pass. */
function findTurnDeg(envelope: Outline, opening: Outline): number | undefined {
  const core = coreOf(envelope)
  const left = roomForDisc(opening, core.roundMm)
  if (left === undefined) return undefined
  const { widthMm, heightMm } = core
  if (left.kind === "circle") return atMost(Math.hypot(widthMm, heightMm), left.diameterMm) ? 0 : undefined
  if (left.kind === "rectangle" && left.cornerMm === 0) {
    if (!rectangleFits(widthMm, heightMm, left.widthMm, left.heightMm)) return undefined
    return atMost(widthMm, left.widthMm) ? 0 : carverTurnDeg(widthMm, heightMm, left.widthMm)
  }
  const best = bestTurn(core, left)
  return best.excessMm <= searchMm ? (best.turnRad * 180) / Math.PI : undefined
}

/** Turn at which a rectangle longer than `a` fills that width: p cos t + q sin t = a, past its diagonal. */
function carverTurnDeg(p: number, q: number, a: number): number {
  const turnRad = Math.atan2(q, p) + Math.acos(Math.min(1, a / Math.hypot(p, q)))
  return (turnRad * 180) / Math.PI
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
export function roomForDisc(opening: Outline, radiusMm: number): Outline | undefined {
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
/** A corner may stand out so far and still counts as inside: the search finds a turn no finer. */
const searchMm = 1e-6

type Turn = { readonly turnRad: number; readonly excessMm: number }

/**
 * The turn at which the corners of the core stand out least, and by how much; 0 or less when it fits. As it lies when it
 * fits so.
 */
function bestTurn(core: Core, opening: Outline): Turn {
  const [x, y] = [core.widthMm / 2, core.heightMm / 2]
  const stepRad = Math.PI / (2 * turnCount)
  const excess = (angle: number): number => {
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)]
    const one = distanceOutsideMm(opening, Math.abs(x * cos - y * sin), Math.abs(x * sin + y * cos))
    const other = distanceOutsideMm(opening, Math.abs(x * cos + y * sin), Math.abs(x * sin - y * cos))
    return Math.max(one, other)
  }
  const tried = Array.from({ length: turnCount + 1 }, (_, index) => excess(index * stepRad))
  let best: Turn = { turnRad: 0, excessMm: tried[0] ?? Number.POSITIVE_INFINITY }
  if (best.excessMm <= searchMm) return best
  for (const [index, value] of tried.entries()) {
    const isDip = value <= (tried[index - 1] ?? value) && value <= (tried[index + 1] ?? value)
    const turnRad = isDip ? lowestBetween(excess, (index - 1) * stepRad, (index + 1) * stepRad) : 0
    const excessMm = isDip ? excess(turnRad) : value
    if (isDip && excessMm < best.excessMm) best = { turnRad: Math.abs(turnRad), excessMm }
  }
  return best
}

/** The turn with the lowest value between two with one dip between them, by thirds. */
function lowestBetween(value: (angle: number) => number, from: number, to: number): number {
  let [low, high] = [from, to]
  while (high - low > 1e-9) {
    const third = (high - low) / 3
    if (value(low + third) < value(high - third)) high -= third
    else low += third
  }
  return (low + high) / 2
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
  const fits = (shortMm: number): boolean => findTurnDeg(envelope, growTo(opening, shortMm)) !== undefined
  const largest = 2 * (core.widthMm + core.heightMm + 2 * core.roundMm)
  if (!fits(largest)) return undefined
  let [low, high] = [shortSideMm(opening), largest]
  for (let round = 0; round < 45; round += 1) {
    const middle = (low + high) / 2
    if (fits(middle)) high = middle
    else low = middle
  }
  return high
}

/** The opening with another short side, or diameter. */
function growTo(opening: Outline, shortMm: number): Outline {
  if (opening.kind === "circle") return { kind: "circle", diameterMm: shortMm }
  return { ...opening, widthMm: sidesOf(opening)[0], heightMm: shortMm }
}

function shortSideMm(opening: Outline): number {
  return opening.kind === "circle" ? opening.diameterMm : sidesOf(opening)[1]
}
