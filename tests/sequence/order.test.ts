import { describe, expect, test } from "vitest"
import { describeAct, describeFact, proveSequence } from "../../src/sequence/index.ts"
import type { OrderFault, Sequence } from "../../src/sequence/types.ts"
import { gauge } from "./gauge.ts"
import { emptyFit, type Small, type SmallStep, smallKit } from "./small-kit.ts"

function prove(small: Small): Sequence {
  return proveSequence(smallKit(small), emptyFit)
}

function reorder(small: Small, ids: readonly string[]): Small {
  return { ...small, steps: ids.flatMap((id) => small.steps.filter((step) => step.id === id)) }
}

function withSteps(small: Small, ...steps: readonly SmallStep[]): Small {
  return { ...small, steps }
}

/** A fault in one line: what is needed, where, and the other step. */
function brief(fault: OrderFault): string {
  if (fault.kind === "circle") return `circle ${fault.links.map(({ from, to }) => `${from}>${to}`).join(" ")}`
  if (fault.kind === "declared-later") return `declared ${fault.step} before ${fault.laterStep}`
  if (fault.kind === "goal-missed") return `goal ${fault.need.fact} last ${fault.lastStep ?? "-"}`
  const where = `${fault.step} ${describeAct(fault.act)}`
  if (fault.kind === "needs-later")
    return `${where} before ${fault.laterStep} ${describeAct(fault.laterAct)} [${fault.need.fact}]`
  if (fault.kind === "taken-away")
    return `${where} after ${fault.byStep} ${describeAct(fault.byAct)} [${fault.need.fact}]`
  return `${where} lacks ${fault.need.fact}`
}

function check(small: Small, expected: readonly string[]): void {
  expect(prove(small).faults.map(brief)).toEqual(expected)
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
    const { steps } = prove(gauge)
    const hood = steps.find(({ step }) => step === "hood")
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
    expect(steps[0]?.jointsBefore).toEqual(["gauge.foot"])
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
      "connect connects `lead.plug` to `gauge.power` before feed feeds `lead.plug` through `hood-hole` [thru:lead:hood-hole]",
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

describe("needs of each act", () => {
  test("tighten before start in one step", () =>
    check(
      withSteps(
        { parts: [{ id: "lug" }], joints: [{ id: "j", through: ["lug"] }], steps: [] },
        { id: "a", acts: ["place: lug", "tighten: j", "start: j"] },
      ),
      ["a tightens joint `j` before a starts joint `j` [started:j]"],
    ))
})
