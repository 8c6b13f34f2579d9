import { describe, expect, test } from "vitest"
import type { Small } from "./small-kit.ts"
import { check, prove } from "./told.ts"

/** One step for each list of acts: `a`, `b`, `c` ... */
function steps(...lists: readonly (readonly string[])[]): Small["steps"] {
  return lists.map((acts, index) => ({ id: String.fromCharCode(97 + index), acts }))
}

describe("what a tie holds is tight first", () => {
  const pair = {
    parts: [{ id: "plate", holdsItself: true }, { id: "saddle" }],
    joints: [{ id: "foot", through: ["plate"], owner: "saddle" }],
    ties: [{ id: "clamp", holds: ["plate", "saddle"] }],
  } satisfies Omit<Small, "steps">
  const [put, start, tighten, strap] = [
    ["place: saddle", "place: plate"],
    "start: foot",
    "tighten: foot",
    "strap: clamp",
  ]
  test("screws within the bundle", () => {
    check({ ...pair, steps: steps([...put, start, tighten], [strap]) }, [])
    check({ ...pair, steps: steps([...put, start], [strap], [tighten]) }, [
      "b closes tie `clamp` before c tightens joint `foot` [tight:foot]",
    ])
  })
  test("screws that lead out of the bundle may be tightened under the tie", () =>
    check(
      { ...pair, ties: [{ id: "clamp", holds: ["saddle"] }], steps: steps([...put, start], [strap], [tighten]) },
      [],
    ))
  test("the maker may tighten them later on purpose", () =>
    check(
      {
        ...pair,
        steps: [
          { id: "put", acts: [...put, start] },
          { id: "tie", acts: [strap] },
          { id: "screw", acts: [tighten], after: ["tie"] },
        ],
      },
      [],
    ))
  test("of ties closed in two goes the last one asks for it", () => {
    const ties = [{ id: "clamp", count: 2, holds: ["plate", "saddle"] }]
    const one = "strap: 1 x clamp"
    check({ ...pair, ties, steps: steps([...put, start], [one], [tighten], [one]) }, [])
    check({ ...pair, ties, steps: steps([...put, start], [one], [one], [tighten]) }, [
      "c closes tie `clamp` before d tightens joint `foot` [tight:foot]",
    ])
  })
  test("two copies of one part screwed to each other", () =>
    check(
      {
        parts: [{ id: "half", instances: ["half.1", "half.2"] }],
        joints: [{ id: "seam", through: ["half.1"], owner: "half.2" }],
        ties: [{ id: "clamp", holds: ["half"] }],
        steps: steps(["place: half", "start: seam"], ["strap: clamp"], ["tighten: seam"]),
      },
      ["b closes tie `clamp` before c tightens joint `seam` [tight:seam]"],
    ))
})

describe("reaching a tie", () => {
  const hidden = {
    parts: [{ id: "saddle" }, { id: "hood", holdsItself: true, covers: ["clamp"] }],
    ties: [{ id: "clamp", holds: ["saddle"] }],
  } satisfies Omit<Small, "steps">
  test("closed under a cover", () =>
    check({ ...hidden, steps: steps(["place: saddle"], ["place: hood"], ["strap: clamp"]) }, [
      "c closes tie `clamp` after b places `hood` [off:hood]",
    ]))
  test("trimmed under a cover", () =>
    check({ ...hidden, steps: steps(["place: saddle", "strap: clamp"], ["place: hood"], ["trim: clamp"]) }, [
      "c trims `clamp` after b places `hood` [off:hood]",
    ]))
  test("cut under a cover", () =>
    check(
      {
        ...hidden,
        steps: steps(["place: saddle", "strap: clamp"], ["place: hood"], ["remove: clamp", "discard: clamp"]),
      },
      ["c removes `clamp` after b places `hood` [off:hood]"],
    ))
  test("thrown away before it is cut", () =>
    check({ ...hidden, steps: steps(["place: saddle", "strap: clamp"], ["discard: clamp"], ["remove: clamp"]) }, [
      "b discards `clamp` before c removes `clamp` [untied:clamp]",
    ]))
  test("trimmed in two goes, and again when it is a new one", () => {
    const { steps: states } = prove({
      ...hidden,
      ties: [{ id: "clamp", count: 2, holds: ["saddle"] }],
      steps: steps(["place: saddle", "strap: clamp"], ["trim: 1 x clamp"], ["trim: 1 x clamp"], ["remove: clamp"]),
    })
    expect(states.map(({ factsGained }) => factsGained.filter((key) => key.startsWith("trimmed")))).toEqual([
      [],
      ["trimmed:clamp"],
      ["trimmed:clamp#2"],
      [],
    ])
    expect(states[3]?.factsLost).toEqual(expect.arrayContaining(["trimmed:clamp", "trimmed:clamp#2"]))
  })
})

describe("surfaces are cleaned before something lies on them", () => {
  const mast = {
    parts: [{ id: "saddle" }],
    ties: [{ id: "clamp", holds: ["saddle"], frame: "mast" }],
    pads: [{ id: "grip", on: "saddle" }],
  } satisfies Omit<Small, "steps">
  const stick = ["clean: saddle", "stick: grip"]
  test("the tube, after the tie is closed", () =>
    check({ ...mast, steps: steps(stick, ["place: saddle", "strap: clamp"], ["clean: mast"]) }, [
      "b closes tie `clamp` before c cleans `mast` [clean:mast]",
    ]))
  test("the seat without a pad, after the tie is closed", () =>
    check({ ...mast, pads: [], steps: steps(["place: saddle"], ["strap: clamp"], ["clean: saddle"]) }, [
      "b closes tie `clamp` before c cleans `saddle` [clean:saddle]",
    ]))
  test("wiped once more at the end", () =>
    check({ ...mast, steps: steps(stick, ["clean: mast", "place: saddle", "strap: clamp"], ["clean: mast"]) }, []))
  test("a unit that a tie holds may be wiped at any time", () =>
    check(
      {
        units: [{ id: "gauge" }],
        ties: [{ id: "clamp", holds: ["gauge"] }],
        steps: steps(["strap: clamp"], ["clean: gauge"]),
      },
      [],
    ))
  test("a pad that was pulled off leaves glue", () =>
    check({ ...mast, steps: steps(stick, ["remove: grip"], ["stick: grip", "place: saddle", "strap: clamp"]) }, [
      "c sticks pad `grip` on after b removes `grip` [clean:saddle]",
    ]))
  test("a loose pad leaves none", () =>
    check(
      {
        ...mast,
        pads: [{ id: "grip", on: "saddle", isAdhesive: false }],
        steps: steps(stick, ["remove: grip"], ["stick: grip", "place: saddle", "strap: clamp"]),
      },
      [],
    ))
  test("a thread, after the screws are in", () =>
    check(
      {
        units: [{ id: "gauge" }],
        parts: [{ id: "lug" }],
        joints: [{ id: "foot", through: ["lug"], owner: "gauge" }],
        steps: steps(["place: lug", "start: foot"], ["clean: foot", "tighten: foot"]),
      },
      ["a starts joint `foot` before b cleans `foot` [clean:foot]"],
    ))
})

describe("what is thrown away", () => {
  const lid = { units: [{ id: "gauge" }], parts: [{ id: "lid", ownedBy: "gauge" }] } satisfies Omit<Small, "steps">
  test("is not put back", () =>
    check({ ...lid, steps: steps(["remove: lid", "discard: lid"], ["place: lid"]) }, [
      "b places `lid` after a discards `lid` [at-hand:lid]",
    ]))
  test("own screws are not used again", () =>
    check(
      {
        units: [{ id: "gauge" }],
        ownJoints: [{ id: "gauge.foot", unit: "gauge" }],
        steps: steps(["unscrew: gauge.foot", "discard: gauge.foot"], ["start: gauge.foot", "tighten: gauge.foot"]),
      },
      ["b starts joint `gauge.foot` after a discards `gauge.foot` [at-hand:gauge.foot]"],
    ))
  test("a pad is thrown away once it is off", () =>
    check(
      {
        parts: [{ id: "lug", holdsItself: true }],
        pads: [{ id: "grip", on: "lug" }],
        steps: steps(["place: lug", "stick: grip"], ["discard: grip"], ["remove: grip"]),
      },
      ["b discards `grip` before c removes `grip` [unstuck:grip]"],
    ))
  test("a pad pulled off and kept nowhere is missed", () =>
    check(
      {
        parts: [{ id: "lug", holdsItself: true }],
        pads: [{ id: "grip", on: "lug" }],
        steps: steps(["place: lug", "stick: grip"], ["remove: grip"]),
      },
      ["goal stuck:grip last b"],
    ))
  test("all is inspected before the pad is stuck on", () =>
    check(
      {
        parts: [{ id: "lug", holdsItself: true }],
        pads: [{ id: "grip", on: "lug" }],
        steps: steps(["place: lug"], ["inspect: all"], ["stick: grip"]),
      },
      ["b inspects everything before c sticks pad `grip` on [stuck:grip]"],
    ))
  test("a new pad is stuck on in place of the old one", () =>
    check(
      {
        parts: [{ id: "lug", holdsItself: true }],
        pads: [{ id: "grip", on: "lug" }],
        steps: steps(["place: lug", "stick: grip"], ["remove: grip", "discard: grip"], ["stick: grip"]),
      },
      [],
    ))
})
