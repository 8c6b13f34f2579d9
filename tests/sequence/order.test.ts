import { describe, expect, test } from "vitest"
import { describeFact, stateAt } from "../../src/sequence/index.ts"
import { gauge } from "./gauge.ts"
import type { Small } from "./small-kit.ts"
import { check, prove } from "./told.ts"

function reorder(small: Small, ids: readonly string[]): Small {
  return { ...small, steps: ids.flatMap((id) => small.steps.filter((step) => step.id === id)) }
}

const ids = gauge.steps.map(({ id }) => id)

/** The order with two steps swapped. */
function swapped(one: string, other: string): Small {
  return reorder(
    gauge,
    ids.map((id) => (id === one ? other : id === other ? one : id)),
  )
}

describe("a valid order", () => {
  test("is silent", () => check(gauge, []))

  test("survives structuredClone", () => {
    const sequence = prove(gauge)
    expect(structuredClone(sequence)).toEqual(sequence)
  })

  test("has words for every fact", () => {
    const { actions, initial, goals, factWords } = prove(gauge)
    const facts = [
      ...initial,
      ...goals.map(({ fact }) => fact),
      ...actions.flatMap(({ gives, takes }) => [...gives, ...takes]),
    ]
    for (const fact of facts) expect(factWords[fact]).toBe(describeFact(fact))
  })

  test("tells the state before and after each step", () => {
    const sequence = prove(gauge)
    const { steps } = sequence
    const hood = stateAt(
      sequence,
      steps.findIndex(({ step }) => step === "hood"),
    )
    expect(hood?.presentBefore).toEqual(["gauge", "saddle.1", "saddle.2", "plate"])
    expect(hood?.placed).toEqual(["hood"])
    expect(hood?.jointsBefore).toEqual(["foot"])
    expect(hood?.jointsStarted).toEqual(["hood"])
    expect(hood?.jointsTightened).toEqual(["hood"])
    expect(hood?.tiesBefore).toEqual(["clamp"])
    expect(hood?.padsBefore).toEqual(["grip"])
    expect(hood?.cables).toEqual([
      {
        cable: "lead",
        passages: ["hood-hole"],
        connected: [{ end: "lead.plug", socket: "gauge.power" }],
        touched: false,
      },
    ])
    expect(hood?.factsLost).toContain("off:hood")
    expect(steps[1]?.jointsRemoved).toEqual(["gauge.foot"])
    expect(stateAt(sequence, 0)?.jointsBefore).toEqual(["gauge.foot"])
  })
})

describe("two swapped steps give one fault", () => {
  test.each([
    [
      "switch-off",
      "unscrew",
      "unscrew unscrews `gauge.foot` before switch-off verifies that `gauge` is off [verified:gauge]",
    ],
    ["unscrew", "plate", "plate starts joint `foot` before unscrew unscrews `gauge.foot` [out:gauge.foot]"],
    ["pads", "mast", "mast places `saddle` before pads sticks pad `grip` on [stuck:grip]"],
    [
      "feed",
      "connect",
      "feed feeds `lead.plug` through `hood-hole` after connect connects `lead.plug` to `gauge.power` [free:lead.plug]",
    ],
    ["connect", "hood", "connect connects `lead.plug` to `gauge.power` after hood places `hood` [off:hood]"],
    ["hood", "on", "on restores the power of `gauge` before hood places `hood` [on:hood]"],
    ["plate", "hood", "hood starts joint `hood` before plate places `plate` [on:plate]"],
    ["switch-off", "on", "on restores the power of `gauge` before switch-off isolates `gauge` [power-off:gauge]"],
  ])("%s and %s", (one, other, expected) => check(swapped(one, other), [expected]))
})

describe("every swap of two steps of a valid order", () => {
  const sequence = prove(gauge)
  const mustPrecede = new Set(sequence.links.map(({ from, to }) => `${from} ${to}`))
  const pairs = ids.flatMap((one, index) => ids.slice(index + 1).map((other) => [one, other] as const))
  test.each(pairs)("%s and %s: a fault names both when the second needs the first", (one, other) => {
    const { faults } = prove(swapped(one, other))
    if (!mustPrecede.has(`${one} ${other}`)) return
    expect(faults).toHaveLength(1)
    const text = JSON.stringify(faults[0])
    expect(text).toContain(`"${one}"`)
    expect(text).toContain(`"${other}"`)
  })
})

describe("two independent swaps give two faults", () => {
  test.each([
    ["unscrew", "plate", "feed", "connect"],
    ["pads", "mast", "connect", "hood"],
    ["switch-off", "unscrew", "pads", "mast"],
    ["unscrew", "plate", "on", "done"],
  ])("%s and %s, %s and %s", (one, other, third, fourth) => {
    const swap: Readonly<Record<string, string>> = { [one]: other, [other]: one, [third]: fourth, [fourth]: third }
    const { faults } = prove(
      reorder(
        gauge,
        ids.map((id) => swap[id] ?? id),
      ),
    )
    const isLinked = (from: string, to: string): boolean =>
      prove(gauge).links.some((link) => link.from === from && link.to === to)
    expect(faults).toHaveLength(Number(isLinked(one, other)) + Number(isLinked(third, fourth)))
    for (const [from, to] of [
      [one, other],
      [third, fourth],
    ])
      if (isLinked(from ?? "", to ?? ""))
        expect(faults.some((fault) => [from, to].every((id) => JSON.stringify(fault).includes(`"${id}"`)))).toBe(true)
  })
})

describe("one step moved far gives one fault", () => {
  test.each([
    ["hood", 0],
    ["done", 0],
    ["switch-off", 9],
    ["plate", 9],
    ["on", 1],
  ])("%s moved to place %i", (id, place) => {
    const rest = ids.filter((other) => other !== id)
    const { faults } = prove(reorder(gauge, [...rest.slice(0, place), id, ...rest.slice(place)]))
    expect(faults).toHaveLength(1)
    expect(JSON.stringify(faults[0])).toContain(`"${id}"`)
  })
})

describe("long kits", () => {
  const chain = (count: number, isReversed: boolean): Small => ({
    steps: Array.from({ length: count }, (_, index) => {
      const other = isReversed ? index + 1 : index - 1
      return { id: `s${index}`, acts: ["wait: x"], after: other >= 0 && other < count ? [`s${other}`] : [] }
    }),
  })

  test("a chain of 30000 steps is silent, backwards each link is told, as a ring one circle", () => {
    expect(prove(chain(30_000, false)).faults).toEqual([])
    expect(prove(chain(30_000, true)).faults).toHaveLength(29_999)
    const ring = chain(30_000, false)
    const [first, ...rest] = ring.steps
    const closed: Small = {
      steps: [{ id: "s0", acts: [], after: ["s29999"], ...(first === undefined ? {} : { acts: first.acts }) }, ...rest],
    }
    const { faults } = prove(closed)
    expect(faults.map((fault) => (fault.kind === "circle" ? fault.links.length : 0))).toEqual([30_000])
  })
})
