/**
 * Counts the orders of a piece that falls apart without a few steps: switching the power off and on ties all the work in
 * between, but what is done here has nothing to do with what is done there.
 */
import { walkStates } from "./count-states.ts"
import type { NumberedPlan, Piece } from "./piece.ts"

/** Smaller pieces are counted at once; a lane longer than this is not worth the trouble. */
const leastSteps = 5
const longestLane = 20
const mostHubs = 3
/** So many pairs of profiles are multiplied. */
const mostMerges = 4_000_000

/**
 * In how many ways a lane, or several mixed ones, can be ordered with so many of its steps before the first hub, between
 * it and the next one, and so on, by these numbers packed into one; the number behind the last hub follows from the rest.
 * Ways are divided by the orders within each gap and multiplied by `scale`, which keeps them whole: then lanes mix by
 * plain multiplication.
 */
type Profiles = { readonly ways: ReadonlyMap<number, bigint>; readonly total: number; readonly scale: bigint }

/**
 * Chooses up to three hubs, the steps with most neighbours, without which the piece falls into short lanes. For each order
 * of the hubs the orders of every lane are counted by how many of its steps stand in which gap between hubs; lanes then
 * mix freely within each gap. Exact; undefined where there are no such hubs or where it would take too long.
 */
export function countByHubs(
  plan: NumberedPlan,
  piece: Piece,
  cap: number,
): { readonly count: bigint; readonly states: number; readonly isExact: true } | undefined {
  if (piece.steps.length < leastSteps) return undefined
  const found = chooseHubs(piece)
  if (found === undefined) return undefined
  const { hubs, lanes } = found
  let states = 0
  let count = 0n
  let merges = 0
  const radix = piece.steps.length + 1
  const factorial = makeFactorial(piece.steps.length)
  for (const order of ordersOf(hubs)) {
    let mixed: Profiles = { ways: new Map([[0, 1n]]), total: 0, scale: 1n }
    for (const lane of lanes) {
      const found = profilesOf(plan, piece, lane, order, cap - states)
      if (found === undefined) return undefined
      states += found.states
      merges += mixed.ways.size * found.ends.size
      if (merges > mostMerges) return undefined
      mixed = mixProfiles(mixed, scaleProfiles(found.ends, lane.length, order.length + 1, radix, factorial))
    }
    count += countMixed(mixed, radix, order.length, factorial)
  }
  return { count, states, isExact: true }
}

/** Steps that hang together by arcs or by facts whose arcs do not say all; with and without some steps. */
function chooseHubs(
  piece: Piece,
): { readonly hubs: readonly number[]; readonly lanes: readonly (readonly number[])[] } | undefined {
  const neighbours = new Map(piece.steps.map((step) => [step, new Set<number>()]))
  for (const [from, to] of piece.arcs) {
    neighbours.get(from)?.add(to)
    neighbours.get(to)?.add(from)
  }
  const ranked = [...piece.steps].sort(
    (one, other) => (neighbours.get(other)?.size ?? 0) - (neighbours.get(one)?.size ?? 0) || one - other,
  )
  for (let count = 1; count <= mostHubs; count += 1) {
    const hubs = ranked.slice(0, count)
    const lanes = findLanes(piece, new Set(hubs))
    if (lanes.length > 1 && lanes.every(({ length }) => length <= longestLane)) return { hubs, lanes }
  }
  return undefined
}

function findLanes({ steps, arcs, facts }: Piece, hubs: ReadonlySet<number>): readonly (readonly number[])[] {
  const laneOf = new Map(steps.filter((step) => !hubs.has(step)).map((step) => [step, [step]]))
  const join = (one: number, other: number): void => {
    const [lane, gone] = [laneOf.get(one), laneOf.get(other)]
    if (lane === undefined || gone === undefined || lane === gone) return
    for (const step of gone) {
      lane.push(step)
      laneOf.set(step, lane)
    }
  }
  for (const [from, to] of arcs) join(from, to)
  for (const { isInArcs, needers, givers, takers } of facts) {
    const [first, ...rest] = isInArcs ? [] : [...needers, ...givers, ...takers].filter((step) => !hubs.has(step))
    for (const step of rest) if (first !== undefined) join(first, step)
  }
  return [...new Set(laneOf.values())]
}

/** All orders of a few steps. */
function ordersOf(steps: readonly number[]): readonly (readonly number[])[] {
  let orders: readonly (readonly number[])[] = [[]]
  for (const step of steps)
    orders = orders.flatMap((order) =>
      Array.from({ length: order.length + 1 }, (_, place) => [...order.slice(0, place), step, ...order.slice(place)]),
    )
  return orders
}

/** Numbers of steps in each gap, the last one included, and the orders that have them. */
type Ending = { readonly sizes: readonly number[]; readonly ways: bigint }

/** The orders of one lane and the hubs; each fact is judged with the lane that touches it, one of hubs alone with every lane. */
function profilesOf(
  plan: NumberedPlan,
  piece: Piece,
  lane: readonly number[],
  hubs: readonly number[],
  cap: number,
): { readonly ends: ReadonlyMap<string, Ending>; readonly states: number } | undefined {
  const members = new Set([...lane, ...hubs])
  const isOwn = (step: number): boolean => members.has(step)
  const chain = hubs.slice(1).map((hub, index): readonly [number, number] => [hubs[index] ?? hub, hub])
  const walked = walkStates(
    plan,
    {
      steps: [...members].sort((one, other) => one - other),
      facts: piece.facts.filter(
        ({ isInArcs, needers, givers, takers }) =>
          !isInArcs && [needers, givers, takers].every((list) => list.every(isOwn)),
      ),
      arcs: [...piece.arcs.filter(([from, to]) => isOwn(from) && isOwn(to)), ...chain],
    },
    { cap, marks: hubs },
  )
  if (walked === undefined) return undefined
  const ends = new Map<string, Ending>()
  for (const { before, ways } of walked.ends) {
    const sizes = [...before, lane.length].map((end, gap) => end - (before[gap - 1] ?? 0))
    const key = sizes.join(" ")
    ends.set(key, { sizes, ways: ways + (ends.get(key)?.ways ?? 0n) })
  }
  return { ends, states: walked.states }
}

function scaleProfiles(
  ends: ReadonlyMap<string, Ending>,
  total: number,
  gapCount: number,
  radix: number,
  factorial: (number: number) => bigint,
): Profiles {
  const ways = new Map<number, bigint>()
  let scale = 1n
  for (let gap = 0; gap < gapCount; gap += 1) scale *= factorial(total)
  for (const ending of ends.values()) {
    const within = ending.sizes.reduce((product, size) => product * factorial(size), 1n)
    const packed = ending.sizes.slice(0, -1).reduce((sum, size) => sum * radix + size, 0)
    ways.set(packed, (ending.ways * scale) / within)
  }
  return { ways, total, scale }
}

/** Mixes two groups of lanes: in each gap the steps of one mix with those of the other in any way. */
function mixProfiles(one: Profiles, other: Profiles): Profiles {
  const ways = new Map<number, bigint>()
  // Packed numbers add like the numbers in them, since no gap ever holds more steps than the piece has.
  for (const [left, leftWays] of one.ways)
    for (const [right, rightWays] of other.ways)
      ways.set(left + right, leftWays * rightWays + (ways.get(left + right) ?? 0n))
  return { ways, total: one.total + other.total, scale: one.scale * other.scale }
}

/** Takes division and scale back, and sums up. */
function countMixed(
  { ways, total, scale }: Profiles,
  radix: number,
  hubCount: number,
  factorial: (number: number) => bigint,
): bigint {
  let count = 0n
  for (const [packed, some] of ways) {
    let within = 1n
    let behind = total
    let rest = packed
    for (let gap = 0; gap < hubCount; gap += 1) {
      const size = rest % radix
      rest = Math.floor(rest / radix)
      within *= factorial(size)
      behind -= size
    }
    count += some * within * factorial(behind)
  }
  return count / scale
}

/** Gives a function for the product of the numbers up to one that is at most `most`. */
function makeFactorial(most: number): (number: number) => bigint {
  const products = [1n]
  for (let next = 1n; products.length <= most; next += 1n) products.push((products.at(-1) ?? 1n) * next)
  return (number) => products[number] ?? 1n
}
