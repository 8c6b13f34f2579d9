import { describe, expect, test } from "vitest"
import { isBetter, prepareTrial, proveSequence } from "../../src/sequence/index.ts"
import { emptyFit, smallKit } from "./small-kit.ts"

const kit = smallKit({
  units: [{ id: "gauge", isPowered: true }],
  parts: [
    { id: "lid", covers: ["gauge.power"] },
    { id: "cap", covers: ["lid"] },
  ],
  sockets: [{ id: "gauge.power", owner: "gauge" }],
  joints: [{ id: "cap", through: ["cap"], owner: "gauge" }],
  steps: [
    { id: "off", acts: ["isolate: gauge"] },
    { id: "lid", acts: ["place: lid", "restore: gauge"] },
    { id: "cap", acts: ["place: cap", "start: cap", "tighten: cap"] },
  ],
})
const sequence = proveSequence(kit, emptyFit)
const { steps, acts } = prepareTrial(kit, sequence)

describe("what is still broken after a move", () => {
  test("the power comes back before the cap is tight", () => {
    expect(sequence.faults.map(({ kind }) => kind)).toEqual(["needs-later"])
    expect(steps(["off", "lid", "cap"]).size).toBeGreaterThan(0)
  })

  test("no place of the whole step mends it: the cap would close over the lid's place", () => {
    expect(isBetter(steps(["off", "cap", "lid"]), steps(["off", "lid", "cap"]))).toBe(false)
  })

  test("moving the act alone does", () => {
    const path = (verb: string): string => sequence.actions.find((one) => one.verb === verb)?.act.path ?? ""
    expect(acts(path("restore"), "behind", path("tighten")).size).toBe(0)
    expect(acts(path("tighten"), "before", path("restore")).size).toBeGreaterThan(0)
  })
})
