/** Removes lines drawn twice: collinear stretches that overlap or touch become one. */

/** Stretches whose directions differ less, and whose offsets differ less, lie on one line. */
const angleRad = 2e-3
const offsetMm = 0.02
/** Gaps up to this are closed. */
const joinMm = 0.01

type Line = {
  readonly dx: number
  readonly dy: number
  readonly offset: number
  /** Covered stretches along the direction, sorted, apart from each other. */
  spans: (readonly [number, number])[]
}

export type LineSet = {
  /** Adds a stretch and gives back those parts of it that were not covered before, as x y x y ... */
  readonly add: (ax: number, ay: number, bx: number, by: number) => readonly number[]
}

/** An empty set of covered lines, in mm on paper. */
export function makeLineSet(): LineSet {
  const buckets = new Map<string, Line[]>()
  return {
    add: (ax, ay, bx, by) => {
      const lengthMm = Math.hypot(bx - ax, by - ay)
      if (lengthMm < 1e-9) return []
      const isFlipped = bx < ax || (bx === ax && by < ay)
      const dx = ((bx - ax) / lengthMm) * (isFlipped ? -1 : 1)
      const dy = ((by - ay) / lengthMm) * (isFlipped ? -1 : 1)
      const offset = ((ay + by) / 2) * dx - ((ax + bx) / 2) * dy
      const line = findLine(buckets, dx, dy, offset, ax, ay, bx, by)
      const one = ax * line.dx + ay * line.dy
      const other = bx * line.dx + by * line.dy
      return cover(line, Math.min(one, other), Math.max(one, other)).flatMap(([from, to]) => {
        const start = (from - one) / (other - one)
        const end = (to - one) / (other - one)
        return [ax + (bx - ax) * start, ay + (by - ay) * start, ax + (bx - ax) * end, ay + (by - ay) * end]
      })
    },
  }
}

/** The known line on which both ends lie, or a new one. */
function findLine(
  buckets: Map<string, Line[]>,
  dx: number,
  dy: number,
  offset: number,
  ax: number,
  ay: number,
  bx: number,
  by: number,
): Line {
  const angleCell = Math.round(Math.atan2(dy, dx) / angleRad)
  const offsetCell = Math.round(offset / offsetMm)
  for (let angle = angleCell - 1; angle <= angleCell + 1; angle += 1) {
    for (let place = offsetCell - 1; place <= offsetCell + 1; place += 1) {
      for (const line of buckets.get(`${angle} ${place}`) ?? []) {
        if (Math.abs(ay * line.dx - ax * line.dy - line.offset) > offsetMm) continue
        if (Math.abs(by * line.dx - bx * line.dy - line.offset) <= offsetMm) return line
      }
    }
  }
  const line: Line = { dx, dy, offset, spans: [] }
  const key = `${angleCell} ${offsetCell}`
  const bucket = buckets.get(key)
  if (bucket === undefined) buckets.set(key, [line])
  else bucket.push(line)
  return line
}

/** Marks a stretch as covered; gives those parts that were not. */
function cover(line: Line, from: number, to: number): readonly (readonly [number, number])[] {
  const fresh: (readonly [number, number])[] = []
  const spans: (readonly [number, number])[] = []
  let at = from
  let low = from
  let high = to
  for (const span of line.spans) {
    if (span[1] < from - joinMm || span[0] > to + joinMm) {
      spans.push(span)
      continue
    }
    if (span[0] - at > joinMm) fresh.push([at, span[0]])
    at = Math.max(at, span[1])
    low = Math.min(low, span[0])
    high = Math.max(high, span[1])
  }
  // A remainder shorter than the gap that is closed anyway is dropped, unless nothing covered the stretch at all.
  if (to - at > joinMm || at === from) if (to > at) fresh.push([at, to])
  spans.push([low, high])
  line.spans = spans.sort((one, other) => one[0] - other[0])
  return fresh
}
