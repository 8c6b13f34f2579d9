import { describe, expect, test } from "vitest"
import { fixedEnd, freeEnd, type Small } from "./small-kit.ts"
import { check, prove } from "./told.ts"

/** One step for each list of acts: `a`, `b`, `c` ... */
function steps(...lists: readonly (readonly string[])[]): Small["steps"] {
  return lists.map((acts, index) => ({ id: String.fromCharCode(97 + index), acts }))
}

describe("a pad that cures", () => {
  const saddle = {
    parts: [{ id: "saddle" }],
    ties: [{ id: "clamp", holds: ["saddle"] }],
    pads: [{ id: "grip", on: "saddle", cureMinutes: 30 }],
  } satisfies Omit<Small, "steps">
  const mount = ["place: saddle", "strap: clamp"]
  test("waited for in the same step", () =>
    check({ ...saddle, steps: steps(["stick: grip", "wait: 30 min"], mount) }, []))
  test("waited for in a step of its own, by name", () =>
    check({ ...saddle, steps: steps(["stick: grip"], ["wait: 30 min for grip"], mount) }, []))
  test("two waits add up", () =>
    check({ ...saddle, steps: steps(["stick: grip", "wait: 10 min"], ["wait: 20 min"], mount) }, []))
  test("a wait too short", () =>
    check({ ...saddle, steps: steps(["stick: grip", "wait: 10 min"], mount) }, ["goal cured:grip last a"]))
  test("no wait at all is one fault", () =>
    check({ ...saddle, steps: steps(["stick: grip"], mount) }, ["goal cured:grip last a"]))
  test("loaded before the wait", () =>
    check({ ...saddle, steps: steps(["stick: grip"], mount, ["wait: 30 min"]) }, [
      "b places `saddle` before c waits 30 min [cured:grip]",
    ]))
  test("loaded between two waits that add up", () =>
    check({ ...saddle, steps: steps(["stick: grip", "wait: 10 min"], mount, ["wait: 20 min"]) }, [
      "b places `saddle` before c waits 20 min [cured:grip]",
    ]))
  test("loaded long before the wait", () =>
    check({ ...saddle, steps: steps(["stick: grip"], mount, ["inspect: saddle"], ["wait: 30 min"]) }, [
      "b places `saddle` before d waits 30 min [cured:grip]",
    ]))
  test("the wait stands before the pad is stuck on", () =>
    check({ ...saddle, steps: steps(["wait: 30 min"], ["stick: grip"], mount) }, [
      "a waits 30 min before b sticks pad `grip` on [stuck:grip]",
    ]))
  test("a wait that names the pad stands before it is stuck on", () =>
    check({ ...saddle, steps: steps(["wait: 30 min for grip"], ["stick: grip"], mount) }, [
      "a waits 30 min for `grip` before b sticks pad `grip` on [stuck:grip]",
    ]))
  test("a wait that is too early and too short is two faults", () =>
    check({ ...saddle, steps: steps(["wait: 20 min"], ["stick: grip"], mount) }, [
      "a waits 20 min before b sticks pad `grip` on [stuck:grip]",
      "goal cured:grip last b",
    ]))
  test("a named wait stands before the pad is stuck on", () =>
    check({ ...saddle, steps: steps(["wait: 30 min for grip"], ["stick: grip", "wait: 30 min"], mount) }, [
      "a waits 30 min for `grip` before b sticks pad `grip` on [stuck:grip]",
    ]))
  test("one wait serves all that rests at the time", () =>
    check(
      {
        ...saddle,
        pads: [...saddle.pads, { id: "seal", on: "saddle", cureMinutes: 20 }],
        steps: steps(["stick: grip"], ["stick: seal", "wait: 30 min"], mount),
      },
      [],
    ))
  test("pulled off, stuck on anew, and not waited for again", () =>
    check(
      {
        ...saddle,
        steps: steps(["stick: grip", "wait: 30 min"], ["remove: grip", "stick: grip"], mount),
      },
      ["goal cured:grip last b"],
    ))
  test("stuck on before the box is opened, it has cured", () =>
    check({ ...saddle, arrives: ["stick: grip"], steps: steps(mount) }, []))
  test("turned over while it cures", () =>
    check({ ...saddle, steps: steps(["stick: grip"], ["turn: all to back"], ["wait: 30 min"], mount) }, [
      "b turns everything to `back` before c waits 30 min [cured:grip]",
    ]))
  test("turned over before it is stuck on", () =>
    check({ ...saddle, steps: steps(["turn: all to back"], ["stick: grip", "wait: 30 min"], mount) }, []))
  test("pressed by a part that covers it", () => {
    const lid = {
      parts: [
        { id: "box", holdsItself: true },
        { id: "lid", holdsItself: true, covers: ["seal"] },
      ],
      pads: [{ id: "seal", on: "box", cureMinutes: 30 }],
    } satisfies Omit<Small, "steps">
    check({ ...lid, steps: steps(["place: box", "stick: seal"], ["place: lid"], ["wait: 30 min"]) }, [
      "b places `lid` before c waits 30 min [cured:seal]",
    ])
    check({ ...lid, steps: steps(["place: box"], ["place: lid"], ["stick: seal"], ["wait: 30 min"]) }, [
      "c sticks pad `seal` on after b places `lid` [off:lid]",
    ])
  })
  test("a part that covers the pad on its own face", () => {
    const hood = { parts: [{ id: "hood", holdsItself: true, covers: ["seal"] }], pads: [{ id: "seal", on: "hood" }] }
    check({ ...hood, steps: steps(["stick: seal"], ["place: hood"]) }, [])
    check({ ...hood, steps: steps(["place: hood"], ["stick: seal"]) }, [
      "b sticks pad `seal` on after a places `hood` [off:hood]",
    ])
  })
  test("a wait says what it waits for", () => {
    const { actions } = prove({ ...saddle, steps: steps(["stick: grip", "wait: 10 min"], ["wait: 20 min"], mount) })
    const waits = actions.filter(({ verb }) => verb === "wait")
    expect(waits.map(({ needs, gives }) => [needs.map(({ fact }) => fact), gives])).toEqual([
      [["stuck:grip"], ["rested:grip"]],
      [["stuck:grip", "rested:grip"], ["cured:grip"]],
    ])
  })
})

describe("locked screws", () => {
  const lug = {
    units: [{ id: "gauge", isPowered: true }],
    parts: [{ id: "lug" }],
    joints: [{ id: "foot", through: ["lug"], owner: "gauge", surface: "thread-lock", cureMinutes: 1440 }],
  } satisfies Omit<Small, "steps">
  const fit = ["place: lug", "start: foot", "tighten: foot"]
  test("rest before the power comes back", () => {
    check({ ...lug, steps: steps(["isolate: gauge"], fit, ["wait: 1440 min"], ["restore: gauge"]) }, [])
    check({ ...lug, steps: steps(["isolate: gauge"], fit, ["restore: gauge"], ["wait: 1440 min"]) }, [
      "c restores the power of `gauge` before d waits 1440 min [cured:foot]",
    ])
  })
  test("rest before the last inspection, and at the end", () => {
    check({ ...lug, steps: steps(fit, ["inspect: all"], ["wait: 1440 min"]) }, [
      "b inspects everything before c waits 1440 min [cured:foot]",
    ])
    check({ ...lug, steps: steps(fit) }, ["goal cured:foot last a"])
  })
  test("taken out again they need not rest", () =>
    check({ ...lug, steps: steps(fit, ["unscrew: foot"], ["remove: lug", "discard: lug", "discard: foot"]) }, []))
  test("tightened in two passes they rest after the second", () =>
    check({ ...lug, steps: steps([...fit, "wait: 1440 min"], ["tighten: foot"]) }, ["goal cured:foot last b"]))
})

describe("a unit that holds its charge", () => {
  const live = {
    units: [{ id: "gauge", isPowered: true, dischargeMinutes: 5 }],
    sockets: [{ id: "gauge.power", owner: "gauge" }],
    cables: [{ id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")] }],
  } satisfies Omit<Small, "steps">
  const connect = "connect: lead.plug to gauge.power"
  test("isolate, wait, verify, work, restore", () =>
    check(
      { ...live, steps: steps(["isolate: gauge", "wait: 5 min", "verify: gauge"], [connect], ["restore: gauge"]) },
      [],
    ))
  test("verified before it is discharged", () =>
    check(
      { ...live, steps: steps(["isolate: gauge"], ["verify: gauge"], ["wait: 5 min"], [connect], ["restore: gauge"]) },
      ["b verifies that `gauge` is off before c waits 5 min [discharged:gauge]"],
    ))
  test("worked on before it is discharged", () =>
    check({ ...live, steps: steps(["isolate: gauge"], [connect], ["wait: 5 min"], ["restore: gauge"]) }, [
      "b connects `lead.plug` to `gauge.power` before c waits 5 min [discharged:gauge]",
    ]))
  test("never discharged", () =>
    check({ ...live, steps: steps(["isolate: gauge"], [connect], ["restore: gauge"]) }, [
      "b connects `lead.plug` to `gauge.power` lacks discharged:gauge",
    ]))
  test("waited before it is isolated", () =>
    check({ ...live, steps: steps(["wait: 5 min"], ["isolate: gauge"], [connect], ["restore: gauge"]) }, [
      "a waits 5 min before b isolates `gauge` [power-off:gauge]",
    ]))
  test("isolated a second time it has its charge again", () =>
    check(
      {
        ...live,
        steps: steps(
          ["isolate: gauge", "wait: 5 min"],
          [connect],
          ["restore: gauge"],
          ["isolate: gauge"],
          ["disconnect: lead.plug", connect],
          ["restore: gauge"],
        ),
      },
      ["e disconnects `lead.plug` after c restores the power of `gauge` [discharged:gauge]"],
    ))
})
