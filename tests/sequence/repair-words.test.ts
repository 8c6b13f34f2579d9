import { describe, expect, test } from "vitest"
import { tellRepair } from "../../src/sequence/index.ts"
import type { MovedSteps, Plan, Repair } from "../../src/sequence/plan-types.ts"
import { planStep } from "./order-plans.ts"

const plan: Plan = {
  initial: [],
  goals: [],
  steps: ["one", "two", "three", "four"].map((id) => ({
    ...planStep(id, "", "", ""),
    isPinned: id === "one" || id === "two",
  })),
  declared: [],
}

/** A repair that moves steps `three` and `four` to the front. */
const base: MovedSteps = {
  kind: "moved",
  order: [2, 3, 0, 1],
  moves: [
    { step: 2, after: undefined },
    { step: 3, after: 2 },
  ],
  isProved: true,
  atLeast: 2,
  others: "none",
  isLeastFar: true,
  chains: [{ steps: [1, 2, 3], reasons: ["First reason.", "Second reason."] }],
}

function check(repair: Repair, lines: readonly string[]): void {
  expect(tellRepair(plan, repair)).toEqual(lines)
}

describe("a repair in words", () => {
  test("steps that land behind one another are told together", () =>
    check(base, [
      "Move steps `three` and `four`, in this order, to the front.",
      "Of steps `two`, `three` and `four` only one can stay where it is: First reason. Second reason.",
      "No order with fewer moves exists.",
      "There is no other answer with as few moves.",
    ]))

  test("what the groups of steps do not prove was proved by trying", () =>
    check({ ...base, chains: [], others: "some" }, [
      "Move steps `three` and `four`, in this order, to the front.",
      "No order with fewer moves exists. Every other way to meet the needs was tried.",
      "There are other answers with as few moves; none moves steps less far.",
    ]))

  test("what was not proved or compared is not claimed", () =>
    check({ ...base, chains: [], isProved: false, atLeast: 1, others: "unknown", isLeastFar: false }, [
      "Move steps `three` and `four`, in this order, to the front.",
      "At least 1 move is needed; this takes 2. Whether fewer would do was not proved.",
      "There may be other answers with as few moves.",
    ]))

  test("not all answers compared", () =>
    expect(tellRepair(plan, { ...base, others: "some", isLeastFar: false }).at(-1)).toBe(
      "There are other answers with as few moves; not all were compared, so one may move steps less far.",
    ))

  test("nothing to do, and nothing found", () => {
    check({ kind: "valid" }, ["The order is valid; no step needs to move."])
    check({ kind: "not-found", atLeast: 3 }, [
      "No valid order was found within the limit of the search. At least 3 moves are needed, if there is one.",
    ])
  })

  test("requirements of all kinds", () =>
    check(
      {
        kind: "impossible",
        isMinimal: false,
        core: [
          { kind: "goal", need: { fact: "tight:foot", why: "screws that are only started work loose" } },
          { kind: "need", step: 3, need: { fact: "x", why: "it says so", act: "acts" } },
          { kind: "declared", order: { before: 0, after: 2, why: "the glue is wet" } },
          { kind: "pinned", step: 1 },
        ],
      },
      [
        "These requirements contradict each other: no order of the steps meets them all.",
        "When all is done, joint `foot` is tight: screws that are only started work loose.",
        "Step `four` acts only when `x` holds: it says so.",
        "Step `three` comes after step `one`: the glue is wet.",
        "Step `two` is pinned: it keeps its place before or after each other pinned step.",
        "Not each of them may be needed for the contradiction: the search came to its limit.",
      ],
    ))
})
