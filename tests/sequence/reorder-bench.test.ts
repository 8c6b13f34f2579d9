/** Orders in which every need is met stay silent when the kit is written in them: facts do not hang on the order of writing. */
import { expect, test } from "vitest"
import { randomNumbers } from "./random.ts"
import { fixedEnd, freeEnd, type Small, type SmallStep } from "./small-kit.ts"
import { prove } from "./told.ts"

const seed = 20_261_125
const wanted = 80

/** A lid that goes off and on, screws changed one at a time, a cradle joined on the bench, two covers, a turn. */
const bench = {
  units: [{ id: "gauge" }],
  parts: [
    { id: "lid", ownedBy: "gauge", covers: ["gauge.power"] },
    { id: "cheek" },
    { id: "saddle" },
    { id: "hood", covers: ["gauge.power"] },
  ],
  joints: [
    { id: "top", through: ["cheek"], owner: "gauge", intoBore: "gauge.foot", count: 2 },
    { id: "foot", through: ["cheek"], owner: "saddle", side: "back" },
    { id: "ears", through: ["hood"], owner: "cheek" },
  ],
  ownJoints: [
    { id: "gauge.lid", unit: "gauge" },
    { id: "gauge.foot", unit: "gauge", alsoHolds: "the battery" },
  ],
  sockets: [{ id: "gauge.power", owner: "gauge" }],
  cables: [{ id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")] }],
  ties: [{ id: "hoop", holds: ["saddle"], frame: "rail" }],
  assemblies: [{ id: "cradle", of: ["gauge", "cheek", "saddle"] }],
  steps: [
    { id: "off", acts: ["unscrew: gauge.lid", "remove: lid"] },
    { id: "plug", acts: ["connect: lead.plug to gauge.power"] },
    { id: "on", acts: ["place: lid", "start: gauge.lid", "tighten: gauge.lid"] },
    { id: "cheek", acts: ["place: cheek"] },
    { id: "one", acts: ["unscrew: 1 x gauge.foot", "start: 1 x top", "tighten: 1 x top"] },
    { id: "other", acts: ["unscrew: 1 x gauge.foot", "start: 1 x top", "tighten: 1 x top"] },
    { id: "over", acts: ["turn: gauge to back"] },
    { id: "saddle", acts: ["place: saddle", "start: foot", "tighten: foot"] },
    { id: "hang", acts: ["place: cradle"] },
    { id: "tie", acts: ["strap: hoop"] },
    { id: "hood", acts: ["place: hood", "start: ears", "tighten: ears"] },
    { id: "look", acts: ["inspect: all"] },
  ],
} satisfies Small

const { initial, actions, goals, faults: benchFaults } = prove(bench)

/** A random order in which all needs are met and all goals reached, by plain simulation; undefined where it runs into a dead end. */
function drawOrder(random: () => number): readonly SmallStep[] | undefined {
  let holds = new Set(initial)
  const left: SmallStep[] = [...bench.steps]
  const order: SmallStep[] = []
  const run = (step: SmallStep): ReadonlySet<string> | undefined => {
    const after = new Set(holds)
    for (const { needs, takes, gives } of actions.filter((action) => action.step === step.id)) {
      if (needs.some(({ fact }) => !after.has(fact))) return undefined
      for (const fact of takes) after.delete(fact)
      for (const fact of gives) after.add(fact)
    }
    return after
  }
  while (left.length > 0) {
    const doable = left.filter((step) => run(step) !== undefined)
    const step = doable[Math.floor(random() * doable.length)]
    if (step === undefined) return undefined
    holds = new Set(run(step))
    order.push(step)
    left.splice(left.indexOf(step), 1)
  }
  return goals.every(({ fact }) => holds.has(fact)) ? order : undefined
}

test(`random valid orders of the bench kit are silent (seed ${seed})`, () => {
  expect(benchFaults).toEqual([])
  const random = randomNumbers(seed)
  const seen = new Set<string>()
  let drawn = 0
  for (let round = 0; round < 20 * wanted && drawn < wanted; round += 1) {
    const order = drawOrder(random)
    if (order === undefined) continue
    drawn += 1
    seen.add(order.map(({ id }) => id).join(" "))
    const { faults } = prove({ ...bench, steps: order })
    expect([order.map(({ id }) => id), faults]).toEqual([order.map(({ id }) => id), []])
  }
  expect(drawn).toBe(wanted)
  expect(seen.size).toBeGreaterThan(wanted / 4)
})
