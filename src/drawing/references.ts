/**
 * Places of item references (ISO 6433): numbers outside the picture in one or two rows or columns, each joined to its thing by
 * a straight leader. Rows and columns are tried all over the free paper; on each the numbers are given out by an
 * optimal assignment, whose leaders never cross; where penalties break that, the next best is taken.
 */
import { assignLeastCost } from "./assign.ts"
import { countTaken, type PaperGrid, walkLine } from "./free-space.ts"
import { measureLettering } from "./glyphs.ts"

/** Height of an item reference (ISO 3098 series; ISO 6433: clearly larger than other lettering). */
export const referenceHeightMm = 5
/** Height of the count before it. */
export const countHeightMm = 3.5
const countGapMm = 1.2
/** Free paper round a number. */
const clearMm = 2
/** Spacing of places on a row and on a column. */
const columnPitchMm = 9
const railStepMm = 4
/** A millimetre of leader costs this much more over the face of another thing, and over its lines or a new thing. */
const overFaceCost = 0.6
const overLineCost = 2.5
const secondRailCost = 8

export type Candidate = {
  readonly itemReference: number
  readonly count: number
  /** Places on paper at which the leader may end. */
  readonly anchors: readonly PaperAnchor[]
}

/** A place with the index of the thing there, and how far its nearest line is. */
type PaperAnchor = { readonly x: number; readonly y: number; readonly item: number; readonly roomMm: number }

export type PlacedReference = {
  readonly candidate: number
  readonly anchor: PaperAnchor
  /** Middle of the whole label and its half sizes. */
  readonly x: number
  readonly y: number
}

/** Width of `2× 14` in mm. */
export function labelWidthMm(itemReference: number, count: number): number {
  const number = measureLettering(String(itemReference), referenceHeightMm)
  return count > 1 ? number + countGapMm + measureLettering(`${count}×`, countHeightMm) : number
}

/** Offset of the number's left edge within the label. */
export function numberOffsetMm(count: number): number {
  return count > 1 ? measureLettering(`${count}×`, countHeightMm) + countGapMm : 0
}

type Port = { readonly x: number; readonly y: number }
type Choice = { readonly port: Port; readonly anchor: PaperAnchor; readonly cost: number }

/** Gives a place to every candidate; undefined when there is no room for all of them. */
export function placeReferences(
  candidates: readonly Candidate[],
  grid: PaperGrid,
): readonly PlacedReference[] | undefined {
  if (candidates.length === 0) return []
  const widest = Math.max(...candidates.map(({ itemReference, count }) => labelWidthMm(itemReference, count)))
  const rails = findRails(grid, widest).map((ports) => ({
    ports,
    choices: candidates.map((one) => ports.map((port) => choose(one, port, grid))),
  }))
  const ranked = rails
    .map((rail) => ({
      ...rail,
      promise: rail.choices.reduce((sum, row) => sum + Math.min(80, ...row.map(({ cost }) => cost)), 0),
    }))
    .sort((one, other) => one.promise - other.promise)
    .slice(0, 40)
  const best: { cost: number; placed: readonly PlacedReference[] }[] = []
  ranked.forEach((rail, index) => {
    const single = solve(rail.choices)
    if (single !== undefined) best.push(single)
    if (candidates.length < 2) return
    for (const other of ranked.slice(index + 1)) {
      const joined = rail.choices.map((row, candidate) => [...row, ...(other.choices[candidate] ?? [])])
      const pair = solve(joined)
      if (pair !== undefined) best.push({ ...pair, cost: pair.cost + secondRailCost })
    }
  })
  best.sort((one, other) => one.cost - other.cost)
  return best.find(({ placed }) => isClear(placed, candidates))?.placed
}

function solve(
  choices: readonly (readonly Choice[])[],
): { cost: number; placed: readonly PlacedReference[] } | undefined {
  const solution = assignLeastCost(choices.map((row) => row.map(({ cost }) => cost)))
  if (solution === undefined) return undefined
  const placed = solution.columns.flatMap((column, candidate) => {
    const choice = choices[candidate]?.[column]
    return choice === undefined ? [] : [{ candidate, anchor: choice.anchor, x: choice.port.x, y: choice.port.y }]
  })
  return { cost: solution.cost, placed }
}

/** Rows and columns of free places over the paper, each in three phases. */
function findRails(grid: PaperGrid, widestMm: number): readonly (readonly Port[])[] {
  const taken = countTaken(grid)
  const rails: Port[][] = []
  const right = grid.leftMm + grid.columns * grid.cellMm
  const bottom = grid.topMm + grid.rows * grid.cellMm
  const half = widestMm / 2
  const high = referenceHeightMm / 2
  const isFree = ({ x, y }: Port): boolean =>
    x - half >= grid.leftMm + 0.5 &&
    x + half <= right - 0.5 &&
    y - high >= grid.topMm + 0.5 &&
    y + high <= bottom - 0.5 &&
    taken(x - half - clearMm, y - high - clearMm, x + half + clearMm, y + high + clearMm) === 0
  const rowPitchMm = widestMm + 5
  for (let x = grid.leftMm + half + 1; x < right; x += railStepMm) {
    for (let phase = 0; phase < 3; phase += 1) {
      const ports: Port[] = []
      for (let y = grid.topMm + 4 + (phase * columnPitchMm) / 3; y < bottom; y += columnPitchMm) ports.push({ x, y })
      rails.push(ports.filter(isFree))
    }
  }
  for (let y = grid.topMm + high + 1; y < bottom; y += railStepMm) {
    for (let phase = 0; phase < 3; phase += 1) {
      const ports: Port[] = []
      for (let x = grid.leftMm + half + 1 + (phase * rowPitchMm) / 3; x < right; x += rowPitchMm) ports.push({ x, y })
      rails.push(ports.filter(isFree))
    }
  }
  return rails.filter((ports) => ports.length > 0)
}

/** The cheapest end of a leader from a place: short, and not across other things. */
function choose(candidate: Candidate, port: Port, grid: PaperGrid): Choice {
  let best: Choice | undefined
  for (const anchor of candidate.anchors) {
    const lengthMm = Math.hypot(anchor.x - port.x, anchor.y - port.y)
    if (best !== undefined && lengthMm >= best.cost) continue
    let over = 0
    let sampleCount = 0
    walkLine(grid, anchor.x, anchor.y, port.x, port.y, (cell) => {
      sampleCount += 1
      const seen = grid.item[cell] ?? -1
      if (seen === anchor.item || grid.isTaken[cell] !== 1) return
      over += grid.weight[cell] === 4 ? overLineCost : overFaceCost
    })
    const cost = lengthMm * (1 + over / Math.max(1, sampleCount))
    if (best === undefined || cost < best.cost) best = { port, anchor, cost }
  }
  return best ?? { port, anchor: { x: port.x, y: port.y, item: -1, roomMm: 0 }, cost: Number.POSITIVE_INFINITY }
}

/** Numbers beside each other stand further apart than those above each other: they would read as one. */
const besideMm = 3

/** No two leaders cross, and no leader or number runs into another number. */
function isClear(placed: readonly PlacedReference[], candidates: readonly Candidate[]): boolean {
  return placed.every((one, index) =>
    placed.every((other, place) => {
      if (index === place) return true
      if (index < place && crosses(one, other)) return false
      const size = candidates[other.candidate]
      const half = labelWidthMm(size?.itemReference ?? 0, size?.count ?? 1) / 2 + 1.5
      const high = referenceHeightMm / 2 + 1.5
      const own = candidates[one.candidate]
      const ownHalf = labelWidthMm(own?.itemReference ?? 0, own?.count ?? 1) / 2
      const isApart =
        Math.abs(one.x - other.x) > half + ownHalf + besideMm ||
        Math.abs(one.y - other.y) > high + referenceHeightMm / 2
      return isApart && !hitsBox(one, other.x - half, other.y - high, other.x + half, other.y + high)
    }),
  )
}

function crosses(one: PlacedReference, other: PlacedReference): boolean {
  const side = (ax: number, ay: number, bx: number, by: number, px: number, py: number): number =>
    (bx - ax) * (py - ay) - (by - ay) * (px - ax)
  const a = side(one.x, one.y, one.anchor.x, one.anchor.y, other.x, other.y)
  const b = side(one.x, one.y, one.anchor.x, one.anchor.y, other.anchor.x, other.anchor.y)
  const c = side(other.x, other.y, other.anchor.x, other.anchor.y, one.x, one.y)
  const d = side(other.x, other.y, other.anchor.x, other.anchor.y, one.anchor.x, one.anchor.y)
  return a * b <= 0 && c * d <= 0
}

function hitsBox({ x, y, anchor }: PlacedReference, left: number, top: number, right: number, bottom: number): boolean {
  for (let step = 0; step <= 60; step += 1) {
    const px = x + ((anchor.x - x) * step) / 60
    const py = y + ((anchor.y - y) * step) / 60
    if (px > left && px < right && py > top && py < bottom) return true
  }
  return false
}
