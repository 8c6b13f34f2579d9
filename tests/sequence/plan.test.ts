import { describe, expect, test } from "vitest"
import type { Kit, Step } from "../../src/kit/types.ts"
import {
  buildPlan,
  describeFact,
  joinPlans,
  proveSequence,
  repairOrder,
  subjectOf,
  tellRepair,
} from "../../src/sequence/index.ts"
import type { Plan } from "../../src/sequence/plan-types.ts"
import { gauge } from "./gauge.ts"
import { permutations, planStep } from "./order-plans.ts"
import { isOrderValid, orderOfRepair } from "./plans.ts"
import { emptyFit, fixedEnd, freeEnd, type Small, type SmallStep, smallKit } from "./small-kit.ts"
import { prove } from "./told.ts"

function planOf(small: Small, change: (kit: Kit) => Kit = (kit) => kit): Plan {
  const kit = change(smallKit(small))
  return buildPlan(kit, proveSequence(kit, emptyFit))
}

/** The kit with pins: id of the step and where it is kept. */
function pin(pins: Readonly<Record<string, "first" | "last">>): (kit: Kit) => Kit {
  return (kit) => ({ ...kit, steps: kit.steps.map((step): Step => ({ ...step, pinned: pins[step.id] })) })
}

function reorder(small: Small, ids: readonly string[]): Small {
  return { ...small, steps: ids.flatMap((id) => small.steps.filter((step) => step.id === id)) }
}

const ids = gauge.steps.map(({ id }) => id)

function stepOf(plan: Plan, id: string): Plan["steps"][number] {
  const step = plan.steps.find((one) => one.id === id)
  if (step === undefined) throw new Error(`there is no step ${id}`)
  return step
}

describe("acts of one step folded", () => {
  test("a need that an earlier act of the step gives is no need of the step", () => {
    const plate = stepOf(planOf(gauge), "plate")
    expect(plate.needs.map(({ fact }) => fact)).not.toContain("on:plate")
    expect(plate.needs.map(({ fact }) => fact)).not.toContain("started:foot")
    expect(plate.gives).toEqual(expect.arrayContaining(["on:plate", "started:foot", "tight:foot"]))
    expect(plate.takes).toContain("off:plate")
  })

  test("a need carries its act in words", () => {
    const connect = stepOf(planOf(gauge), "connect")
    const free = connect.needs.find(({ fact }) => fact === "free:lead.plug")
    expect(free).toEqual({
      fact: "free:lead.plug",
      why: "only a free end can be connected",
      act: "connects `lead.plug` to `gauge.power`",
    })
  })

  test("what an act of the step ends and a later one gives again is given", () => {
    const steps: readonly SmallStep[] = [
      { id: "swap", acts: ["disconnect: lead.plug from gauge.power", "connect: lead.plug to gauge.power"] },
    ]
    const { needs, gives, takes } = stepOf(
      planOf({ ...gauge, arrives: ["connect: lead.plug to gauge.power"], steps }),
      "swap",
    )
    expect(gives).toContain("connected:lead.plug")
    expect(takes).toContain("free:lead.plug")
    // Connecting needs the end free: the step itself sees to that.
    expect(needs.map(({ fact }) => fact)).not.toContain("free:lead.plug")
  })

  test("a need that an earlier act of the same step ended is left out: no move of steps mends it", () => {
    const steps: readonly SmallStep[] = [
      { id: "twice", acts: ["connect: lead.plug to gauge.power", "feed: lead.plug through hood-hole"] },
    ]
    const { needs } = stepOf(planOf({ ...gauge, steps }), "twice")
    // Connecting needs it when the step begins; that feeding misses it afterwards is told by the proof.
    expect(needs.filter(({ fact }) => fact === "free:lead.plug").map(({ act }) => act)).toEqual([
      "connects `lead.plug` to `gauge.power`",
    ])
    expect(prove({ ...gauge, steps }).faults.some(({ kind }) => kind === "taken-away" || kind === "nobody-gives")).toBe(
      true,
    )
  })

  test("needs and goals that nobody gives are left out", () => {
    const without = reorder(
      gauge,
      ids.filter((id) => id !== "plate"),
    )
    const facts = planOf(without).steps.flatMap(({ needs }) => needs.map(({ fact }) => fact))
    expect(facts).not.toContain("on:plate")
    expect(planOf(without).goals.map(({ fact }) => fact)).not.toContain("on:plate")
    expect(planOf(gauge).goals.map(({ fact }) => fact)).toContain("on:plate")
    expect(repairOrder(planOf(without))).toEqual({ kind: "valid" })
  })

  test("the plan survives structuredClone", () => {
    const plan = planOf(gauge)
    expect(structuredClone(plan)).toEqual(plan)
    const repair = repairOrder(planOf(reorder(gauge, [...ids].reverse())))
    expect(structuredClone(repair)).toEqual(repair)
  })
})

describe("declared orders and pins", () => {
  test("needs-after ties whole steps", () => {
    const steps = gauge.steps.map((step) => (step.id === "pads" ? { ...step, after: ["hood"] } : step))
    expect(planOf({ ...gauge, steps }).declared).toEqual([
      { before: ids.indexOf("hood"), after: ids.indexOf("pads"), why: "as its `needs-after` says" },
    ])
  })

  test("a step kept first or last is tied to all others and is not moved", () => {
    const plan = planOf(gauge, pin({ "switch-off": "first", done: "last" }))
    expect(plan.steps.filter(({ isPinned }) => isPinned).map(({ id }) => id)).toEqual(["switch-off", "done"])
    expect(plan.declared).toHaveLength(2 * (ids.length - 2))
    expect(plan.declared[0]).toEqual({ before: 0, after: 1, why: "`switch-off` is kept first" })
    expect(plan.declared.at(-1)).toEqual({ before: ids.length - 2, after: ids.length - 1, why: "`done` is kept last" })
  })

  test("steps in front of a step that is kept first move behind it", () => {
    const order = ["unscrew", "switch-off", ...ids.slice(2)]
    const plan = planOf(reorder(gauge, order), pin({ "switch-off": "first" }))
    const repair = repairOrder(plan)
    expect(tellRepair(plan, repair)).toEqual([
      "Move step `unscrew` after step `switch-off`.",
      "Step `switch-off` is pinned, so step `unscrew` must move: Step `unscrew` unscrews `gauge.foot` only after step `switch-off`: nobody works on `gauge` before it is verified to be off.",
      "No order with fewer moves exists.",
      "There is no other answer with as few moves.",
    ])
  })

  test("several steps kept first keep their order among themselves, with few links", () => {
    const plan = planOf(gauge, pin({ "switch-off": "first", unscrew: "first", plate: "first" }))
    expect(plan.declared).toHaveLength(ids.length - 1)
  })
})

describe("repairs of a kit", () => {
  test("every single move of a step is mended by one move at most", () => {
    const faulty = ids.flatMap((id, from) =>
      ids.map((_, to) => {
        const rest = ids.filter((one) => one !== id)
        return { from, to, small: reorder(gauge, [...rest.slice(0, to), id, ...rest.slice(to)]) }
      }),
    )
    let broken = 0
    for (const { small } of faulty) {
      const plan = planOf(small)
      const repair = repairOrder(plan)
      const hasFaults = prove(small).faults.length > 0
      expect(repair.kind).toBe(hasFaults ? "moved" : "valid")
      if (repair.kind !== "moved") continue
      broken += 1
      expect(repair.moves).toHaveLength(1)
      // The proof of the mended kit is silent, not only its plan.
      const order = orderOfRepair(plan, repair) ?? []
      const mended = reorder(
        small,
        order.map((step) => plan.steps[step]?.id ?? ""),
      )
      expect(prove(mended).faults).toEqual([])
    }
    expect(broken).toBeGreaterThan(20)
  })

  test("the order backwards is mended, and told", () => {
    const small = reorder(gauge, [...ids].reverse())
    const plan = planOf(small)
    const repair = repairOrder(plan)
    const order = orderOfRepair(plan, repair) ?? []
    expect(
      prove(
        reorder(
          small,
          order.map((step) => plan.steps[step]?.id ?? ""),
        ),
      ).faults,
    ).toEqual([])
    const lines = tellRepair(plan, repair)
    expect(lines.filter((line) => line.startsWith("Move step")).length).toBeGreaterThan(0)
    expect(lines).toContain("No order with fewer moves exists.")
  })

  // A closed grommet in a bracket that can be placed only once the lead is connected: no order exists.
  test("requirements that contradict each other are named, no more than needed", () => {
    const plan: Plan = {
      initial: ["off:bracket", "free:lead.plug", "outside:lead:grommet", "open:lid"],
      goals: [],
      steps: [
        planStep("open-up", "open:lid", "", ""),
        {
          ...planStep("feed", "", "thru:lead:grommet", ""),
          needs: [
            {
              fact: "free:lead.plug",
              why: "a connected end cannot be fed",
              act: "feeds `lead.plug` through `grommet`",
            },
            { fact: "on:bracket", why: "`grommet` is in it", act: "feeds `lead.plug` through `grommet`" },
          ],
        },
        { ...planStep("connect", "free:lead.plug", "connected:lead.plug", "free:lead.plug") },
        {
          ...planStep("bracket", "", "on:bracket", "off:bracket"),
          needs: [{ fact: "connected:lead.plug", why: "it covers the socket", act: "places `bracket`" }],
        },
      ],
      declared: [],
    }
    expect(permutations(4).some((order) => isOrderValid(plan, order))).toBe(false)
    const repair = repairOrder(plan)
    expect(tellRepair(plan, repair)).toEqual([
      "These requirements contradict each other: no order of the steps meets them all.",
      "Step `feed` feeds `lead.plug` through `grommet` only when end `lead.plug` is free: a connected end cannot be fed.",
      "Step `feed` feeds `lead.plug` through `grommet` only when `bracket` is in place: `grommet` is in it.",
      "Step `bracket` places `bracket` only when end `lead.plug` is connected: it covers the socket.",
      "Without any one of them the others can be met.",
    ])
  })

  test("names of steps may be others than their ids", () => {
    const plan = planOf(reorder(gauge, ["unscrew", "switch-off", ...ids.slice(2)]))
    const lines = tellRepair(plan, repairOrder(plan), (step) => `${step + 1}`)
    expect(lines[0]).toMatch(/^Move step `[12]` (after step `[12]`|to the front)\.$/)
  })
})

/** A kit with two leads; the second one is there in one variant only. */
const twoLeads: Small = {
  cables: [
    { id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")] },
    { id: "spare", ends: [freeEnd("spare.plug"), fixedEnd("spare.inner")] },
  ],
  sockets: [
    { id: "box.one", owner: "box" },
    { id: "box.two", owner: "box" },
  ],
  units: [{ id: "box" }],
  parts: [{ id: "lid", covers: ["box.one", "box.two"] }],
  steps: [
    { id: "lid", acts: ["place: lid"] },
    { id: "one", acts: ["connect: lead.plug to box.one"] },
    { id: "two", acts: ["connect: spare.plug to box.two"] },
  ],
}

describe("plans of several variants joined", () => {
  const full = planOf(twoLeads)
  const short = planOf(reorder(twoLeads, ["lid", "one"]))

  test("one plan is given back as it is, equal ones are one", () => {
    expect(joinPlans([full], ["lid", "one", "two"])).toBe(full)
    expect(joinPlans([full, structuredClone(full)], ["lid", "one", "two"])).toEqual(full)
  })

  test("facts keep their variant apart and their words", () => {
    const joined = joinPlans([full, short], ["lid", "one", "two"])
    expect(joined.steps.map(({ id }) => id)).toEqual(["lid", "one", "two"])
    const [lid, , two] = joined.steps
    expect(lid?.gives).toEqual(expect.arrayContaining(["on:lid#variant-1", "on:lid#variant-2"]))
    expect(two?.gives.every((fact) => fact.endsWith("#variant-1"))).toBe(true)
    for (const { gives, takes } of joined.steps)
      for (const fact of [...gives, ...takes]) {
        const plain = fact.replace(/#variant-\d$/, "")
        expect(describeFact(fact)).toBe(describeFact(plain))
        expect(subjectOf(fact)).toBe(subjectOf(plain))
      }
  })

  test("a repair of the joined plan is valid for each variant", () => {
    const joined = joinPlans([full, short], ["lid", "one", "two"])
    const repair = repairOrder(joined)
    expect(repair).toMatchObject({ kind: "moved", isProved: true, moves: [{ step: 0, after: 2 }] })
    const order = (orderOfRepair(joined, repair) ?? []).map((step) => joined.steps[step]?.id ?? "")
    for (const variant of [full, short]) {
      const own = order.map((id) => variant.steps.findIndex((step) => step.id === id)).filter((step) => step >= 0)
      expect(isOrderValid(variant, own)).toBe(true)
    }
  })

  test("a step of a variant follows the one it follows there; steps that no variant has are left out", () => {
    const variant: Plan = {
      ...full,
      steps: ["new-first", "lid", "new", "newer", "one", "two"].map((id) => planStep(id, "", "", "")),
      goals: [],
    }
    const joined = joinPlans([{ ...full, goals: [] }, variant], ["lid", "gone", "one", "two"])
    expect(joined.steps.map(({ id }) => id)).toEqual(["new-first", "lid", "new", "newer", "one", "two"])
  })

  test("pins and declared orders of all variants count once", () => {
    const pinned = planOf(twoLeads, pin({ lid: "last" }))
    const joined = joinPlans([full, pinned], ["lid", "one", "two"])
    expect(joined.steps.map(({ isPinned }) => isPinned)).toEqual([true, false, false])
    expect(joined.declared).toEqual([
      { before: 1, after: 0, why: "`lid` is kept last" },
      { before: 2, after: 0, why: "`lid` is kept last" },
    ])
  })
})

test("10,000 steps fold and repair without a deep call", () => {
  const steps = Array.from({ length: 10_000 }, (_, index) =>
    planStep(`s${index}`, index === 0 ? "" : `f${index - 1}`, `f${index}`, ""),
  )
  const [first, ...rest] = steps
  const plan: Plan = { initial: [], goals: [], steps: first === undefined ? [] : [...rest, first], declared: [] }
  const repair = repairOrder(plan)
  expect(repair).toMatchObject({ kind: "moved", isProved: true, moves: [{ step: 9_999, after: undefined }] })
})
