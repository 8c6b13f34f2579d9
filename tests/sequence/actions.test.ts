import { describe, expect, test } from "vitest"
import type { Blocker } from "../../src/fit/types.ts"
import { actionKinds } from "../../src/sequence/actions/registry.ts"
import { connectedEnd, emptyFit, fixedEnd, freeEnd, type Small } from "./small-kit.ts"
import { check, prove } from "./told.ts"

const lug = {
  units: [{ id: "gauge" }],
  parts: [{ id: "lug" }],
  joints: [{ id: "foot", through: ["lug"], owner: "gauge", count: 4 }],
} satisfies Omit<Small, "steps">

/** One step for each list of acts: `a`, `b`, `c` ... */
function steps(...lists: readonly (readonly string[])[]): Small["steps"] {
  return lists.map((acts, index) => ({ id: String.fromCharCode(97 + index), acts }))
}

describe("screws", () => {
  test("tightened before they are started, in one step", () =>
    check({ ...lug, steps: steps(["place: lug", "tighten: foot", "start: foot"]) }, [
      "a tightens joint `foot` before a starts joint `foot` [started:foot]",
    ]))
  test("tightened before all of the pattern are started", () =>
    check({ ...lug, steps: steps(["place: lug", "start: 2 x foot"], ["tighten: foot"], ["start: 2 x foot"]) }, [
      "b tightens joint `foot` before c starts joint `foot` [started:foot#2]",
    ]))
  test("started in two goes", () =>
    check({ ...lug, steps: steps(["place: lug", "start: 2 x foot"], ["start: 2 x foot"], ["tighten: foot"]) }, []))
  test("tightened in two passes", () =>
    check({ ...lug, steps: steps(["place: lug", "start: foot", "tighten: foot"], ["tighten: foot"]) }, []))
  test("started twice", () =>
    check({ ...lug, steps: steps(["place: lug", "start: foot"], ["start: foot", "tighten: foot"]) }, [
      "b starts joint `foot` after a starts joint `foot` [out:foot]",
    ]))
  test("taken out and put in again", () =>
    check(
      {
        ...lug,
        steps: steps(["place: lug", "start: foot", "tighten: foot", "unscrew: foot"], ["start: foot", "tighten: foot"]),
      },
      [],
    ))
  test("taken out and left out", () =>
    check({ ...lug, steps: steps(["place: lug", "start: foot", "tighten: foot"], ["unscrew: foot"]) }, [
      "goal tight:foot last b",
    ]))
  test("part taken off while its screws are in", () =>
    check({ ...lug, steps: steps(["place: lug", "start: foot", "tighten: foot"], ["remove: lug", "discard: lug"]) }, [
      "b removes `lug` after a starts joint `foot` [out:foot]",
    ]))
  test("aligned after tightening", () =>
    check({ ...lug, steps: steps(["place: lug", "start: foot"], ["tighten: foot"], ["align: lug"]) }, [
      "b tightens joint `foot` before c aligns `lug` [aligned:lug]",
    ]))
  test("aligned between start and tighten", () =>
    check({ ...lug, steps: steps(["place: lug", "start: foot"], ["align: lug"], ["tighten: foot"]) }, []))
  test("some started while one of two pieces is there", () =>
    check(
      {
        ...lug,
        parts: [{ id: "lug", instances: ["lug.1", "lug.2"] }],
        steps: steps(["place: lug.1", "start: 2 x foot"], ["place: lug.2", "start: 2 x foot", "tighten: foot"]),
      },
      [],
    ))
  test("copies placed by count, one after the other", () =>
    check(
      {
        parts: [{ id: "lug", instances: ["lug.1", "lug.2"] }],
        steps: steps(["place: 1 x lug"], ["place: 1 x lug"]),
      },
      [],
    ))
})

describe("own screws", () => {
  const own = {
    ...lug,
    ownJoints: [{ id: "gauge.foot", unit: "gauge" }],
    joints: [{ ...lug.joints[0], id: "foot", intoBore: "gauge.foot" }],
  }
  test("still in the bore", () =>
    check({ ...own, steps: steps(["place: lug", "start: foot"], ["unscrew: gauge.foot"], ["tighten: foot"]) }, [
      "a starts joint `foot` before b unscrews `gauge.foot` [out:gauge.foot]",
    ]))
  test("set aside before they are out", () =>
    check(
      {
        ...own,
        steps: steps(
          ["set-aside: gauge.foot"],
          ["unscrew: gauge.foot"],
          ["place: lug", "start: foot", "tighten: foot"],
        ),
      },
      ["a sets `gauge.foot` aside before b unscrews `gauge.foot` [out:gauge.foot]"],
    ))
  test("one at a time, each replaced before the next comes out", () => {
    const one = ["unscrew: 1 x gauge.foot", "set-aside: 1 x gauge.foot", "start: 1 x foot"]
    const small: Small = { ...own, joints: own.joints.map((joint) => ({ ...joint, count: 2 })), steps: [] }
    check({ ...small, steps: steps(["place: lug"], one, one, ["tighten: foot"]) }, [])
    check(
      {
        ...small,
        steps: steps(["place: lug"], one, ["start: 1 x foot"], ["unscrew: 1 x gauge.foot"], ["tighten: foot"]),
      },
      ["c starts joint `foot` before d unscrews `gauge.foot` [out:gauge.foot#2]"],
    )
  })
  test("put back", () =>
    check({ ...own, steps: steps(["unscrew: gauge.foot"], ["start: gauge.foot", "tighten: gauge.foot"]) }, []))
  test("put back and left loose", () =>
    check({ ...own, steps: steps(["unscrew: gauge.foot"], ["start: gauge.foot"]) }, ["goal tight:gauge.foot last b"]))
})

describe("cables", () => {
  const wall = {
    units: [{ id: "gauge" }],
    parts: [{ id: "wall", holdsItself: true }],
    sockets: [{ id: "gauge.power", owner: "gauge" }],
    passages: [{ id: "gate", part: "wall" }],
    cables: [{ id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")], via: ["gate"] }],
  } satisfies Omit<Small, "steps">
  const [feed, connect] = ["feed: lead.plug through gate", "connect: lead.plug to gauge.power"]
  test("fed, then connected", () => check({ ...wall, steps: steps(["place: wall"], [feed], [connect]) }, []))
  test("connected before it is fed through a closed passage", () =>
    check({ ...wall, steps: steps(["place: wall"], [connect], [feed]) }, [
      "c feeds `lead.plug` through `gate` after b connects `lead.plug` to `gauge.power` [free:lead.plug]",
    ]))
  test("connected before it is laid into an open passage", () =>
    check(
      {
        ...wall,
        passages: [{ id: "gate", part: "wall", isClosed: false }],
        steps: steps(["place: wall"], [connect], [feed]),
      },
      [],
    ))
  test("fed through a part that is not there", () =>
    check({ ...wall, steps: steps([feed], ["place: wall"], [connect]) }, [
      "a feeds `lead.plug` through `gate` before b places `wall` [on:wall]",
    ]))
  test("fed from the other end while the first is connected", () =>
    check(
      {
        ...wall,
        cables: [{ id: "lead", ends: [freeEnd("lead.plug"), freeEnd("lead.tail")], via: ["gate"] }],
        steps: steps(["place: wall"], [connect], ["feed: lead.tail through gate"]),
      },
      [],
    ))
  test("both ends captured", () =>
    check(
      {
        ...wall,
        cables: [{ id: "lead", ends: [freeEnd("lead.plug"), freeEnd("lead.tail")], via: ["gate"] }],
        sockets: [
          { id: "gauge.power", owner: "gauge" },
          { id: "gauge.out", owner: "gauge" },
        ],
        steps: steps(["place: wall"], [connect], ["connect: lead.tail to gauge.out"], ["feed: lead.tail through gate"]),
      },
      ["d feeds `lead.tail` through `gate` after c connects `lead.tail` to `gauge.out` [free:lead.tail]"],
    ))
  test("never fed", () => check({ ...wall, steps: steps(["place: wall"], [connect]) }, ["goal thru:lead:gate last b"]))
  test("fed and never connected", () =>
    check({ ...wall, steps: steps(["place: wall"], [feed]) }, ["goal connected:lead.plug last b"]))
  test("a cable no act touches, whose way is told", () =>
    check({ ...wall, steps: steps(["place: wall"]) }, ["goal connected:lead.plug last -"]))
  test("captive on arrival: it runs through already", () =>
    check(
      {
        ...wall,
        cables: [
          { id: "lead", ends: [connectedEnd("lead.plug", "gauge.power"), fixedEnd("lead.inner")], via: ["gate"] },
        ],
        steps: steps(["place: wall"]),
      },
      [],
    ))
  test("disconnected, withdrawn, fed and connected again", () =>
    check(
      {
        ...wall,
        cables: [{ id: "lead", ends: [connectedEnd("lead.plug", "gauge.power"), fixedEnd("lead.inner")] }],
        arrives: ["place: wall"],
        steps: steps(["disconnect: lead.plug"], [feed], ["withdraw: lead.plug from gate"], [feed, connect]),
      },
      [],
    ))
  test("disconnected and left", () =>
    check(
      {
        ...wall,
        cables: [{ id: "lead", ends: [connectedEnd("lead.plug", "gauge.power"), fixedEnd("lead.inner")] }],
        steps: steps(["place: wall", "disconnect: lead.plug"]),
      },
      ["goal connected:lead.plug last a"],
    ))
  test("disconnected and left, with the power restored: one fault", () =>
    check(
      {
        ...wall,
        units: [{ id: "gauge", isPowered: true }],
        cables: [{ id: "lead", ends: [connectedEnd("lead.plug", "gauge.power"), fixedEnd("lead.inner")] }],
        arrives: ["place: wall"],
        steps: steps(["isolate: gauge"], ["disconnect: lead.plug"], ["restore: gauge", "inspect: all"]),
      },
      ["goal connected:lead.plug last b"],
    ))
  test("the old cable makes room for the new", () => {
    const cables = [
      { id: "old", ends: [connectedEnd("old.plug", "gauge.power"), fixedEnd("old.inner")] },
      { id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")] },
    ]
    check({ ...wall, cables, steps: steps(["place: wall"], ["disconnect: old.plug", "discard: old"], [connect]) }, [])
    check({ ...wall, cables, steps: steps(["place: wall"], [connect], ["disconnect: old.plug", "discard: old"]) }, [
      "b connects `lead.plug` to `gauge.power` before c disconnects `old.plug` [empty:gauge.power]",
    ])
  })
})

describe("covers and hinged parts", () => {
  const door = {
    units: [{ id: "gauge" }],
    parts: [{ id: "door", ownedBy: "gauge", opens: true, covers: ["gauge"] }],
    sockets: [{ id: "gauge.power", owner: "gauge" }],
    cables: [{ id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")] }],
  } satisfies Omit<Small, "steps">
  const connect = "connect: lead.plug to gauge.power"
  test("opened, connected, closed", () =>
    check({ ...door, steps: steps(["open: door"], [connect], ["close: door"]) }, []))
  test("connected before it is opened", () =>
    check({ ...door, steps: steps([connect], ["open: door"], ["close: door"]) }, [
      "a connects `lead.plug` to `gauge.power` before b opens `door` [clear:door]",
    ]))
  test("closed too early", () =>
    check({ ...door, steps: steps(["open: door"], ["close: door"], [connect]) }, [
      "c connects `lead.plug` to `gauge.power` after b closes `door` [clear:door]",
    ]))
  test("left open", () => check({ ...door, steps: steps(["open: door"], [connect]) }, ["goal shut:door last a"]))
  test("never opened", () =>
    check({ ...door, steps: steps([connect]) }, ["a connects `lead.plug` to `gauge.power` lacks clear:door"]))
  const hung = { ...door, parts: [{ id: "door", opens: true, covers: ["gauge"] }] } satisfies Omit<Small, "steps">
  test("hung, worked behind, closed", () =>
    check({ ...hung, steps: steps(["place: door"], [connect], ["close: door"]) }, []))
  test("hung and worked behind, never closed", () =>
    check({ ...hung, steps: steps(["place: door"], [connect]) }, ["goal shut:door last a"]))
  test("put on shut, opened, closed", () =>
    check({ ...hung, steps: steps(["place: door"], ["open: door"], [connect], ["close: door"]) }, []))
  test("put on shut over finished work", () => check({ ...hung, steps: steps([connect], ["place: door"]) }, []))
  test("switching on is no work behind a door", () =>
    check({ ...hung, steps: steps(["isolate: gauge", connect], ["place: door", "restore: gauge"]) }, []))
  const hinge = { at: [0, 0, 0], along: [0, 0, 1], angleDeg: 100 } as const
  test("hung on a hinge, never closed", () =>
    check({ ...hung, parts: [{ id: "door", opens: true, hinge }], steps: steps([connect], ["place: door"]) }, [
      "goal shut:door last b",
    ]))
  test("one fact for each of two covers", () =>
    check(
      {
        ...door,
        parts: [
          { id: "lid", ownedBy: "gauge", covers: ["gauge.power"] },
          { id: "flap", ownedBy: "gauge", covers: ["gauge.power"] },
        ],
        steps: steps(["remove: lid"], [connect], ["place: lid", "remove: flap"], ["place: flap"]),
      },
      ["b connects `lead.plug` to `gauge.power` before c removes `flap` [off:flap]"],
    ))
  test("a part does not hide the joint that goes through it", () =>
    check(
      {
        units: [{ id: "gauge" }],
        parts: [{ id: "hood", covers: ["gauge"] }],
        joints: [{ id: "foot", through: ["hood"], owner: "gauge" }],
        steps: steps(["place: hood", "start: foot", "tighten: foot"]),
      },
      [],
    ))
})

describe("what stands in the way by its shape", () => {
  const blocker = (kind: Blocker["kind"], subject: string): Blocker => ({
    kind,
    subject,
    blocker: "hood",
    depthMm: 4,
    atMm: [0, 0, 0],
    direction: [0, 0, -1],
  })
  const parts = [{ id: "lug" }, { id: "hood", holdsItself: true }]
  test("of a driver", () =>
    check(
      { ...lug, parts, steps: steps(["place: lug", "start: foot"], ["place: hood"], ["tighten: foot"]) },
      ["c tightens joint `foot` after b places `hood` [off:hood]"],
      { ...emptyFit, blockers: [blocker("driver", "foot")] },
    ))
  test("of a piece on its way", () =>
    check(
      { ...lug, parts, steps: steps(["place: hood"], ["place: lug", "start: foot", "tighten: foot"]) },
      ["b places `lug` after a places `hood` [off:hood]"],
      { ...emptyFit, blockers: [blocker("insertion", "lug")] },
    ))
  test("an overlap is no matter of order", () =>
    check({ ...lug, parts, steps: steps(["place: hood"], ["place: lug", "start: foot", "tighten: foot"]) }, [], {
      ...emptyFit,
      blockers: [blocker("overlap", "lug")],
    }))
})

describe("ties, pads, surfaces", () => {
  const saddle = {
    parts: [{ id: "saddle" }],
    ties: [{ id: "clamp", count: 2, holds: ["saddle"], pad: "grip" }],
    pads: [{ id: "grip", on: "saddle" }],
  } satisfies Omit<Small, "steps">
  test("closed round nothing", () =>
    check({ ...saddle, steps: steps(["stick: grip"], ["strap: clamp"], ["place: saddle"]) }, [
      "b closes tie `clamp` before c places `saddle` [on:saddle]",
    ]))
  test("trimmed before it is closed", () =>
    check({ ...saddle, steps: steps(["stick: grip", "place: saddle"], ["trim: clamp"], ["strap: clamp"]) }, [
      "b trims `clamp` before c closes tie `clamp` [tied:clamp]",
    ]))
  test("pad stuck on after the part is in place", () =>
    check({ ...saddle, steps: steps(["place: saddle"], ["stick: grip"], ["strap: clamp"]) }, [
      "a places `saddle` before b sticks pad `grip` on [stuck:grip]",
    ]))
  test("pad stuck on a surface cleaned later", () =>
    check({ ...saddle, steps: steps(["stick: grip"], ["clean: saddle"], ["place: saddle", "strap: clamp"]) }, [
      "a sticks pad `grip` on before b cleans `saddle` [clean:saddle]",
    ]))
  test("half of the ties closed", () =>
    check(
      {
        ...saddle,
        steps: steps(["stick: grip", "place: saddle", "strap: 1 x clamp"], ["trim: clamp"], ["strap: 1 x clamp"]),
      },
      ["b trims `clamp` before c closes tie `clamp` [tied:clamp#2]"],
    ))
  test("cut and closed again", () =>
    check(
      {
        ...saddle,
        steps: steps(["stick: grip", "place: saddle", "strap: clamp"], ["remove: clamp"], ["strap: clamp"]),
      },
      [],
    ))
  test("a cable held before it is connected", () =>
    check(
      {
        units: [{ id: "gauge" }],
        sockets: [{ id: "gauge.power", owner: "gauge" }],
        cables: [{ id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")] }],
        ties: [{ id: "clamp", holds: ["lead"] }],
        steps: steps(["strap: clamp"], ["connect: lead.plug to gauge.power"]),
      },
      ["a closes tie `clamp` before b connects `lead.plug` to `gauge.power` [connected:lead.plug]"],
    ))
})

describe("what goes and comes back", () => {
  const lid = { units: [{ id: "gauge" }], parts: [{ id: "lid", ownedBy: "gauge" }] } satisfies Omit<Small, "steps">
  test("a lid set aside and put back", () =>
    check({ ...lid, steps: steps(["remove: lid", "set-aside: lid"], ["place: lid"]) }, []))
  test("a lid set aside for good", () => check({ ...lid, steps: steps(["remove: lid", "set-aside: lid"]) }, []))
  test("own screws set aside, put back and left loose", () =>
    check(
      {
        units: [{ id: "gauge" }],
        ownJoints: [{ id: "gauge.foot", unit: "gauge" }],
        steps: steps(["unscrew: gauge.foot", "set-aside: gauge.foot"], ["start: gauge.foot"]),
      },
      ["goal tight:gauge.foot last b"],
    ))
  test("a lid that acts open though its part does not say that it opens", () =>
    check({ ...lid, steps: steps(["open: lid"], ["close: lid"]) }, []))
  test("a unit set on the plate after the plate was screwed to it", () =>
    check(
      {
        units: [{ id: "gauge" }],
        parts: [{ id: "lug" }],
        joints: [{ id: "foot", through: ["lug"], owner: "gauge" }],
        ties: [{ id: "clamp", holds: ["gauge"] }],
        steps: steps(["place: lug", "start: foot", "tighten: foot"], ["place: gauge"], ["strap: clamp"]),
      },
      [],
    ))
  test("a tie closed round a unit that is set in its place later", () =>
    check(
      {
        units: [{ id: "gauge" }],
        ties: [{ id: "clamp", holds: ["gauge"] }],
        steps: steps(["strap: clamp"], ["place: gauge"]),
      },
      ["a closes tie `clamp` before b places `gauge` [on:gauge]"],
    ))
  test("a pad stuck on top of a part in place", () =>
    check(
      { parts: [{ id: "lug" }], pads: [{ id: "grip", on: "lug" }], steps: steps(["place: lug"], ["stick: grip"]) },
      [],
    ))
})

describe("power", () => {
  const live = {
    units: [{ id: "gauge", isPowered: true }],
    sockets: [{ id: "gauge.power", owner: "gauge" }],
    cables: [{ id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")] }],
  } satisfies Omit<Small, "steps">
  const connect = "connect: lead.plug to gauge.power"
  test("work before it is verified", () =>
    check({ ...live, steps: steps(["isolate: gauge"], [connect], ["verify: gauge"], ["restore: gauge"]) }, [
      "b connects `lead.plug` to `gauge.power` before c verifies that `gauge` is off [verified:gauge]",
    ]))
  test("verified before it is isolated", () =>
    check({ ...live, steps: steps(["verify: gauge"], ["isolate: gauge"], [connect], ["restore: gauge"]) }, [
      "a verifies that `gauge` is off before b isolates `gauge` [power-off:gauge]",
    ]))
  test("restored too early", () =>
    check({ ...live, steps: steps(["isolate: gauge"], ["restore: gauge"], [connect]) }, [
      "b restores the power of `gauge` before c connects `lead.plug` to `gauge.power` [connected:lead.plug]",
    ]))
  test("never restored", () =>
    check({ ...live, steps: steps(["isolate: gauge"], [connect]) }, ["goal power-on:gauge last a"]))
  test("isolated twice", () =>
    check({ ...live, steps: steps(["isolate: gauge"], ["isolate: gauge"], [connect], ["restore: gauge"]) }, [
      "b isolates `gauge` after a isolates `gauge` [power-on:gauge]",
    ]))
})

describe("turning", () => {
  const plate = {
    units: [{ id: "gauge" }],
    parts: [{ id: "lug" }],
    joints: [{ id: "foot", through: ["lug"], owner: "gauge", side: "back" }],
  } satisfies Omit<Small, "steps">
  test("with a loose part on it", () =>
    check(
      {
        ...plate,
        joints: [{ id: "foot", through: ["lug"], owner: "gauge" }],
        steps: steps(["place: lug"], ["turn: gauge to back"], ["start: foot", "tighten: foot"]),
      },
      ["b turns `gauge` to `back` before c tightens joint `foot` [held:lug]"],
    ))
  test("with a part that holds itself", () =>
    check(
      {
        ...plate,
        parts: [{ id: "lug", holdsItself: true }],
        steps: steps(["place: lug"], ["turn: gauge to back"], ["start: foot", "tighten: foot"]),
      },
      [],
    ))
  test("screws of the back before the turn to the back", () =>
    check({ ...plate, steps: steps(["place: lug", "start: foot", "tighten: foot"], ["turn: gauge to back"]) }, [
      "a starts joint `foot` before b turns `gauge` to `back` [faces:gauge:back]",
    ]))
  test("screws of the back after the turn to the front again", () =>
    check(
      {
        ...plate,
        steps: steps(["turn: gauge to back"], ["turn: gauge to front"], ["place: lug", "start: foot", "tighten: foot"]),
      },
      ["c starts joint `foot` after b turns `gauge` to `front` [faces:gauge:back]"],
    ))
})

describe("the end", () => {
  test("inspecting all before the last screw is tight", () =>
    check({ ...lug, steps: steps(["place: lug", "start: foot"], ["inspect: all"], ["tighten: foot"]) }, [
      "b inspects everything before c tightens joint `foot` [tight:foot]",
    ]))
  test("a circle of acts: the part with the closed passage must be off for the socket and on for the feed", () =>
    check(
      {
        units: [{ id: "gauge" }],
        parts: [{ id: "lid", covers: ["gauge.power"] }, { id: "ring" }],
        sockets: [{ id: "gauge.power", owner: "gauge" }],
        passages: [{ id: "gate", part: "ring" }],
        joints: [{ id: "j", through: ["ring"], owner: "lid" }],
        cables: [{ id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")] }],
        steps: [
          { id: "a", acts: ["place: ring"], after: ["c"] },
          { id: "b", acts: ["feed: lead.plug through gate", "connect: lead.plug to gauge.power"] },
          { id: "c", acts: ["place: lid", "start: j", "tighten: j"] },
        ],
      },
      ["circle c>a a>c"],
    ))
})

describe("every verb", () => {
  test("has a file of its own in the registry and words", () => {
    for (const [verb, { words }] of Object.entries(actionKinds)) {
      const act = { target: "x", instances: [], through: "w", to: "s", count: undefined, minutes: 5, words: undefined }
      const said = words({ ...act, verb: verb === "" ? "wait" : "place", path: "" })
      expect(said).toMatch(/^[a-z]+s\b/)
    }
  })
  test("of a kit without anything gives no fault", () => expect(prove({ steps: [] }).faults).toEqual([]))
})
