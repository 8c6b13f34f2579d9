/** Repairs for the benchmark: a plan like that of a kit, where facts come and go, and plain precedence against HiGHS. */
import { repairOrder } from "../../src/sequence/index.ts"
import type { Plan, PlanStep } from "../../src/sequence/plan-types.ts"
import { loadLiftSolver } from "../sequence/lifts-by-highs.ts"
import { planStep, precedencePlan } from "../sequence/order-plans.ts"
import { randomNumbers } from "../sequence/random.ts"
import { type Timing, timeMiddle } from "./measure.ts"

/** A time, and the one it is shown as a ratio to. */
export type ComparedTiming = readonly [Timing, Timing?]

/** 60 steps: power off, cover off, parts on two faces, leads, cover on, power on, a test, and the cover once more. */
function makeKitLikePlan(): Plan {
  const parts = (face: string): readonly PlanStep[] =>
    Array.from({ length: 9 }, (_, index) => {
      const id = `${face}-${index}`
      const under = index === 0 ? "" : ` placed-${face}-${Math.floor((index - 1) / 2)}`
      return [
        planStep(`place-${id}`, `${face}${under}`, `placed-${id}`, ""),
        planStep(`tighten-${id}`, `${face} placed-${id}`, `tight-${id}`, ""),
      ]
    }).flat()
  const leads = Array.from({ length: 6 }, (_, index) => [
    planStep(`feed-${index}`, `free-${index} placed-front-0`, `through-${index}`, ""),
    planStep(`connect-${index}`, `free-${index} dead bare`, `connected-${index}`, `free-${index}`),
  ]).flat()
  const open = (time: string): readonly PlanStep[] => [
    planStep(`isolate${time}`, "live", "dead", "live"),
    planStep(`uncover${time}`, "dead covered", "bare", "covered"),
  ]
  const close = (time: string): readonly PlanStep[] => [
    planStep(`cover${time}`, "bare dead", "covered", "bare"),
    planStep(`restore${time}`, "dead covered", "live", "dead"),
  ]
  const steps = [
    ...open("-1"),
    ...parts("front"),
    planStep("turn-over", "front", "back", "front"),
    ...parts("back"),
    planStep("turn-back", "back", "front", "back"),
    ...leads,
    ...close("-1"),
    planStep("test", "live covered", "tested", ""),
    ...open("-2"),
    planStep("strap", "tested bare dead", "tied", ""),
    ...close("-2"),
  ]
  const free = leads.flatMap((_, index) => (index % 2 === 0 ? [`free-${index / 2}`] : []))
  const goals = ["live", "covered", "tied"].map((fact) => ({ fact, why: "the work is done" }))
  return { initial: ["live", "covered", "front", ...free], goals, steps, declared: [] }
}

/** The plan with so many steps put elsewhere, by seed. */
function liftSteps(plan: Plan, liftCount: number, seed: number): Plan {
  const next = randomNumbers(seed)
  const steps = [...plan.steps]
  for (let lift = 0; lift < liftCount; lift += 1) {
    const taken = steps.splice(Math.floor(next() * steps.length), 1)
    steps.splice(Math.floor(next() * (steps.length + 1)), 0, ...taken)
  }
  return { ...plan, steps }
}

/** Plain precedence: two arcs for each step, all steps in random order. */
function makePlainPlan(count: number, seed: number): Plan {
  const next = randomNumbers(seed)
  const arcs = Array.from({ length: 2 * count }, (): readonly [number, number] => {
    const [one, other] = [Math.floor(next() * count), Math.floor(next() * count)]
    return [Math.min(one, other), Math.max(one, other)]
  }).filter(([one, other]) => one !== other)
  const order = Array.from({ length: count }, (_, step) => step)
  for (let place = count - 1; place > 0; place -= 1) {
    const [taken = 0] = order.splice(Math.floor(next() * (place + 1)), 1)
    order.push(taken)
  }
  return precedencePlan(count, arcs, order)
}

/** Times repairs; those of plain precedence as a ratio to HiGHS, which finds the number of moves only. */
export async function benchRepair(): Promise<readonly ComparedTiming[]> {
  const kit = makeKitLikePlan()
  const faulty = Array.from({ length: 20 }, (_, index) => liftSteps(kit, 1 + (index % 8), index + 1))
  const repairAll = (): readonly string[] => faulty.map((plan) => repairOrder(plan).kind)
  repairAll()
  const proved = faulty.filter((plan) => {
    const repair = repairOrder(plan)
    return repair.kind !== "not-found" && (repair.kind !== "moved" || repair.isProved)
  }).length
  const note = `${kit.steps.length} steps with state, 1 to 8 lifts, ${proved} proved`
  const timings: ComparedTiming[] = [[await timeMiddle("repair of 20 faulty kit-like orders", 5, repairAll, note)]]
  const countLifts = await loadLiftSolver()
  for (const count of [60, 300]) {
    const plan = makePlainPlan(count, count)
    const repair = repairOrder(plan)
    const moves = repair.kind === "moved" ? repair.moves.length : 0
    if (countLifts(plan) !== moves) throw new Error("the solvers do not agree")
    const solver = await timeMiddle(`fewest moves of ${count} steps by HiGHS`, 3, () => countLifts(plan))
    const ours = await timeMiddle(`repair of ${count} steps, plain`, 15, () => repairOrder(plan), `${moves} moves`)
    timings.push([solver], [ours, solver])
  }
  const large = makePlainPlan(4000, 1)
  timings.push([await timeMiddle("repair of 4000 steps, plain", 3, () => repairOrder(large))])
  return timings
}
