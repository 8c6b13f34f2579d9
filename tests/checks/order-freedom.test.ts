import fc from "fast-check"
import { expect, test } from "vitest"
import { buildNeighbourTest } from "../../src/checks/order-freedom.ts"
import type { Sequence } from "../../src/sequence/types.ts"

const seed = 20261125

/** As much of a sequence as the question needs: steps by name, and links between them. */
function sequenceOf(count: number, links: readonly (readonly [number, number])[]): Sequence {
  const steps = Array.from({ length: count }, (_, index) => ({ step: `s${index}` }))
  const linked = links.map(([from, to]) => ({
    from: `s${from}`,
    to: `s${to}`,
    kind: "gives",
    fact: undefined,
    reason: "",
  }))
  // The question looks at nothing else of a sequence.
  return { steps, links: linked } as unknown as Sequence
}

/** Every order that keeps the links, found by trying all. */
function allOrders(count: number, links: readonly (readonly [number, number])[]): readonly (readonly number[])[] {
  let orders: readonly (readonly number[])[] = [[]]
  for (let place = 0; place < count; place += 1) {
    orders = orders.flatMap((order) =>
      Array.from({ length: count }, (_, step) => step)
        .filter((step) => !order.includes(step))
        .filter((step) => links.every(([from, to]) => to !== step || order.includes(from)))
        .map((step) => [...order, step]),
    )
  }
  return orders
}

test(`two steps could stand side by side exactly when one of all orders has them so (seed ${seed})`, () => {
  const graphs = fc.integer({ min: 2, max: 6 }).chain((count) =>
    fc.record({
      count: fc.constant(count),
      links: fc.array(
        fc
          .tuple(fc.nat(count - 1), fc.nat(count - 1))
          .filter(([one, other]) => one !== other)
          .map(([one, other]): readonly [number, number] => (one < other ? [one, other] : [other, one])),
        { maxLength: 9 },
      ),
    }),
  )
  fc.assert(
    fc.property(graphs, ({ count, links }) => {
      const couldBe = buildNeighbourTest(sequenceOf(count, links))
      const orders = allOrders(count, links)
      for (let first = 0; first < count; first += 1) {
        for (let second = first + 1; second < count; second += 1) {
          const isFound = orders.some((order) => order.indexOf(second) === order.indexOf(first) + 1)
          expect([first, second, couldBe(first, second)]).toEqual([first, second, isFound])
        }
      }
    }),
    { seed, numRuns: 300 },
  )
})
