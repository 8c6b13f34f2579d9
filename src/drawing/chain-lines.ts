/** Joins stretches that meet end to end into polylines, so that corners are joined and dashes run on. */

const nodeMm = 0.01
/** Points closer than this to the line through their neighbours are left out. */
const straightMm = 0.012

export type Chain = { readonly points: readonly number[]; readonly isClosed: boolean }

/** Takes stretches as x y x y ...; where three or more meet, the straightest two run on. All in mm on paper. */
export function chainLines(stretches: readonly number[]): readonly Chain[] {
  const count = stretches.length / 4
  const ends = new Map<string, number[]>()
  for (let end = 0; end < 2 * count; end += 1) {
    const key = nodeKey(stretches[2 * end] ?? 0, stretches[2 * end + 1] ?? 0)
    const list = ends.get(key)
    if (list === undefined) ends.set(key, [end])
    else list.push(end)
  }
  const partner = pairEnds(stretches, [...ends.values()])
  const isUsed = new Uint8Array(count)
  const chains: Chain[] = []
  const walk = (startEnd: number): void => {
    const points: number[] = []
    let end = startEnd
    let isClosed = false
    for (;;) {
      const stretch = end >> 1
      if (isUsed[stretch] === 1) {
        isClosed = true
        break
      }
      isUsed[stretch] = 1
      if (points.length === 0) points.push(stretches[2 * end] ?? 0, stretches[2 * end + 1] ?? 0)
      const far = end ^ 1
      points.push(stretches[2 * far] ?? 0, stretches[2 * far + 1] ?? 0)
      const next = partner[far] ?? -1
      if (next < 0) break
      end = next
    }
    if (isClosed) points.splice(-2)
    chains.push({ points: straighten(points, isClosed), isClosed })
  }
  for (let end = 0; end < 2 * count; end += 1) if (isUsed[end >> 1] === 0 && (partner[end] ?? -1) < 0) walk(end)
  for (let end = 0; end < 2 * count; end += 2) if (isUsed[end >> 1] === 0) walk(end)
  return chains
}

function nodeKey(x: number, y: number): string {
  return `${Math.round(x / nodeMm)} ${Math.round(y / nodeMm)}`
}

/** For each end the end it runs on to, -1 for none. */
function pairEnds(stretches: readonly number[], nodes: readonly (readonly number[])[]): Int32Array {
  const partner = new Int32Array(stretches.length / 2).fill(-1)
  for (const node of nodes) {
    const options: { one: number; other: number; bend: number }[] = []
    node.forEach((one, index) => {
      for (const other of node.slice(index + 1)) {
        if (one >> 1 === other >> 1) continue
        const [ux, uy] = outward(stretches, one)
        const [vx, vy] = outward(stretches, other)
        options.push({ one, other, bend: ux * vx + uy * vy })
      }
    })
    options.sort((one, other) => one.bend - other.bend || one.one - other.one || one.other - other.other)
    for (const { one, other } of options) {
      if ((partner[one] ?? -1) >= 0 || (partner[other] ?? -1) >= 0) continue
      partner[one] = other
      partner[other] = one
    }
  }
  return partner
}

/** Direction from an end into its stretch. */
function outward(stretches: readonly number[], end: number): readonly [number, number] {
  const far = end ^ 1
  const dx = (stretches[2 * far] ?? 0) - (stretches[2 * end] ?? 0)
  const dy = (stretches[2 * far + 1] ?? 0) - (stretches[2 * end + 1] ?? 0)
  const length = Math.hypot(dx, dy) || 1
  return [dx / length, dy / length]
}

/** Leaves out points that lie on the line through their neighbours (Douglas and Peucker 1973). */
export function straighten(points: readonly number[], isClosed: boolean, toleranceMm = straightMm): readonly number[] {
  const count = points.length / 2
  if (count < 3) return points
  const isKept = new Uint8Array(count)
  isKept[0] = 1
  isKept[count - 1] = 1
  const stack: (readonly [number, number])[] = []
  if (isClosed) {
    const far = farthest(points, 0, 0, 1, count - 1)
    isKept[far.index] = 1
    stack.push([0, far.index], [far.index, count - 1])
  } else stack.push([0, count - 1])
  for (let range = stack.pop(); range !== undefined; range = stack.pop()) {
    const [from, to] = range
    if (to - from < 2) continue
    const far = farthest(points, from, to, from + 1, to - 1)
    if (far.distanceMm <= toleranceMm) continue
    isKept[far.index] = 1
    stack.push([from, far.index], [far.index, to])
  }
  return points.filter((_, index) => isKept[index >> 1] === 1)
}

function farthest(
  points: readonly number[],
  from: number,
  to: number,
  first: number,
  last: number,
): { index: number; distanceMm: number } {
  const ax = points[2 * from] ?? 0
  const ay = points[2 * from + 1] ?? 0
  const dx = (points[2 * to] ?? 0) - ax
  const dy = (points[2 * to + 1] ?? 0) - ay
  const squared = dx * dx + dy * dy
  let best = { index: first, distanceMm: -1 }
  for (let index = first; index <= last; index += 1) {
    const px = (points[2 * index] ?? 0) - ax
    const py = (points[2 * index + 1] ?? 0) - ay
    const along = squared === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / squared))
    const distanceMm = Math.hypot(px - along * dx, py - along * dy)
    if (distanceMm > best.distanceMm) best = { index, distanceMm }
  }
  return best
}
