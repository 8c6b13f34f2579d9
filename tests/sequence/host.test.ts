import { expect, test } from "vitest"
import { proveSequence } from "../../src/sequence/index.ts"
import { emptyFit, type SmallStep, smallKit } from "./small-kit.ts"

const seat: SmallStep = { id: "seat", acts: ["place: case", "start: back", "tighten: back"] }
const load: SmallStep = { id: "load", acts: ["place: logger"] }

function faultsOf(steps: readonly SmallStep[]): readonly string[] {
  const kit = smallKit({
    units: [{ id: "logger", covers: ["back"] }],
    parts: [{ id: "case" }],
    joints: [{ id: "back", through: ["case"] }],
    steps,
  })
  return proveSequence(kit, emptyFit).faults.map((fault) =>
    "need" in fault ? `${fault.kind} ${fault.need.fact}` : fault.kind,
  )
}

test("screws behind a unit are driven before the unit is in place", () => {
  expect(faultsOf([seat, load])).toEqual([])
})

test("a unit in place hides the screws behind it", () => {
  expect(faultsOf([load, seat])).toEqual(["taken-away off:logger"])
})

test("what hangs on a frame is not turned any more", () => {
  const of = (acts: readonly (readonly [string, string])[]): readonly string[] =>
    proveSequence(
      smallKit({
        units: [{ id: "logger" }],
        parts: [{ id: "seat" }],
        ties: [{ id: "hoop", holds: ["seat"], frame: "mast" }],
        steps: [{ id: "seat", acts: ["place: seat"] }, ...acts.map(([id, act]) => ({ id, acts: [act] }))],
      }),
      emptyFit,
    ).faults.map((fault) => ("need" in fault ? `${fault.kind} ${fault.need.fact}` : fault.kind))
  expect(
    of([
      ["hang", "strap: hoop"],
      ["over", "turn: seat to back"],
    ]),
  ).toEqual(["taken-away untied:hoop"])
})
