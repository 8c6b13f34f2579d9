/** Plans and repairs of the demo kits: what a plan calls valid the proof calls silent, and the other way round. */
import { describe, expect, test } from "vitest"
import { proveKit } from "../../src/build/prove.ts"
import type { Kit } from "../../src/kit/types.ts"
import { buildPlan, joinPlans, proveSequence, repairOrder } from "../../src/sequence/index.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { kitFolders, readKitFiles, readKitModel } from "../guides/kit-files.ts"
import { isFullRun } from "./order-plans.ts"
import { isOrderValid, orderOfRepair } from "./plans.ts"
import { randomNumbers } from "./random.ts"

const kernel = await loadKernel()
const liftedCount = isFullRun ? 400 : 12

/** The kit with up to four steps put elsewhere. */
function liftSome(kit: Kit, seed: number): { readonly kit: Kit; readonly liftCount: number } {
  const next = randomNumbers(seed)
  const steps = [...kit.steps]
  const liftCount = 1 + (seed % 4)
  for (let lift = 0; lift < liftCount; lift += 1) {
    const taken = steps.splice(Math.floor(next() * steps.length), 1)
    steps.splice(Math.floor(next() * (steps.length + 1)), 0, ...taken)
  }
  return { kit: { ...kit, steps }, liftCount }
}

describe.each(kitFolders)("%s", (folder) => {
  const { proofs } = proveKit(readKitFiles(folder), {
    kernel,
    readModel: (file) => {
      const bytes = readKitModel(folder, file)
      return bytes === undefined ? { problem: { message: `there is no ${file}` } } : { bytes }
    },
  })
  const plans = proofs.map(({ kit, sequence }) => buildPlan(kit, sequence))
  const longest = proofs.reduce((one, other) => (other.kit.steps.length > one.kit.steps.length ? other : one))
  const ids = longest.kit.steps.map(({ id }) => id)

  test("the plan of every variant, and that of all together, is valid", () => {
    expect(plans.length).toBeGreaterThan(0)
    for (const plan of plans) expect(repairOrder(plan)).toEqual({ kind: "valid" })
    expect(repairOrder(joinPlans(plans, ids))).toEqual({ kind: "valid" })
  })

  test("steps put elsewhere are brought back by as few moves, and the proof is silent again", () => {
    const { kit, fit } = longest
    let moved = 0
    for (let seed = 1; seed <= liftedCount; seed += 1) {
      const lifted = liftSome(kit, seed)
      const sequence = proveSequence(lifted.kit, fit)
      const plan = buildPlan(lifted.kit, sequence)
      const repair = repairOrder(plan)
      const isSilent = sequence.faults.length === 0
      expect({ seed, kind: repair.kind }).toEqual({ seed, kind: isSilent ? "valid" : "moved" })
      if (repair.kind !== "moved") continue
      moved += 1
      expect(repair.isProved).toBe(true)
      expect(repair.moves.length).toBeLessThanOrEqual(lifted.liftCount)
      const steps = repair.order.flatMap((step) => lifted.kit.steps.slice(step, step + 1))
      expect({ seed, faults: proveSequence({ ...lifted.kit, steps }, fit).faults }).toEqual({ seed, faults: [] })
    }
    expect(moved).toBeGreaterThan(liftedCount / 3)
  })

  test("one repair for all variants together is valid for each", () => {
    const lifted = proofs.map(({ kit, fit }) => {
      const steps = [...kit.steps.slice(1), ...kit.steps.slice(0, 1)]
      const moved = { ...kit, steps }
      return buildPlan(moved, proveSequence(moved, fit))
    })
    const joined = joinPlans(lifted, [...ids.slice(1), ...ids.slice(0, 1)])
    const repair = repairOrder(joined)
    expect(repair).toMatchObject({ kind: "moved", isProved: true })
    const order = (orderOfRepair(joined, repair) ?? []).map((step) => joined.steps[step]?.id ?? "")
    for (const plan of lifted) {
      const own = order.map((id) => plan.steps.findIndex((step) => step.id === id)).filter((step) => step >= 0)
      expect(isOrderValid(plan, own)).toBe(true)
    }
  })
})
