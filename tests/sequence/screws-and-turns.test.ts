import { describe, expect, test } from "vitest"
import type { Blocker } from "../../src/fit/types.ts"
import { emptyFit, fixedEnd, freeEnd, type Small } from "./small-kit.ts"
import { check, prove } from "./told.ts"

/** One step for each list of acts: `a`, `b`, `c` ... */
function steps(...lists: readonly (readonly string[])[]): Small["steps"] {
  return lists.map((acts, index) => ({ id: String.fromCharCode(97 + index), acts }))
}

describe("a lid with its own screws", () => {
  const lid = {
    units: [{ id: "gauge" }],
    parts: [{ id: "lid", ownedBy: "gauge" }],
    ownJoints: [{ id: "gauge.lid", unit: "gauge" }],
  } satisfies Omit<Small, "steps">
  const [start, tighten] = ["start: gauge.lid", "tighten: gauge.lid"]
  test("off and on again", () =>
    check({ ...lid, steps: steps(["unscrew: gauge.lid", "remove: lid"], ["place: lid", start, tighten]) }, []))
  test("taken off while its screws are in", () =>
    check({ ...lid, steps: steps(["remove: lid"], ["unscrew: gauge.lid"], ["place: lid", start, tighten]) }, [
      "a removes `lid` before b unscrews `gauge.lid` [out:gauge.lid]",
    ]))
  test("screwed on before it is back", () =>
    check({ ...lid, steps: steps(["unscrew: gauge.lid", "remove: lid"], [start], ["place: lid", tighten]) }, [
      "b starts joint `gauge.lid` before c places `lid` [on:lid]",
    ]))
  test("put back without its screws", () =>
    check({ ...lid, steps: steps(["unscrew: gauge.lid", "remove: lid"], ["place: lid"]) }, [
      "goal started:gauge.lid last a",
    ]))
  test("put back, its screws set aside, and nothing else holds it", () =>
    check({ ...lid, steps: steps(["unscrew: gauge.lid", "set-aside: gauge.lid", "remove: lid"], ["place: lid"]) }, [
      "goal started:gauge.lid last a",
    ]))
  test("put back without its screws, inspected: one fault", () =>
    check({ ...lid, steps: steps(["unscrew: gauge.lid", "remove: lid"], ["place: lid"], ["inspect: all"]) }, [
      "goal started:gauge.lid last a",
    ]))
  test("put back and only started", () =>
    check({ ...lid, steps: steps(["unscrew: gauge.lid", "remove: lid"], ["place: lid", start]) }, [
      "goal tight:gauge.lid last b",
    ]))
  test("put back with screws of the kit in the same bore", () =>
    check(
      {
        ...lid,
        joints: [{ id: "top", through: ["lid"], owner: "gauge", intoBore: "gauge.lid" }],
        steps: steps(
          ["unscrew: gauge.lid", "set-aside: gauge.lid", "remove: lid"],
          ["place: lid", "start: top", "tighten: top"],
        ),
      },
      [],
    ))
  test("left off for good", () =>
    check({ ...lid, steps: steps(["unscrew: gauge.lid", "remove: lid", "set-aside: lid"]) }, []))
  test("screws taken out one by one and put back one by one", () =>
    check(
      {
        ...lid,
        steps: steps(
          ["unscrew: 1 x gauge.lid"],
          ["unscrew: 1 x gauge.lid", "remove: lid", "place: lid"],
          ["start: 1 x gauge.lid"],
          ["start: 1 x gauge.lid", tighten],
        ),
      },
      [],
    ))
  test("screws taken out one by one, one of them never put back: that the count tells", () =>
    check(
      {
        ...lid,
        steps: steps(
          ["unscrew: 1 x gauge.lid"],
          ["unscrew: 1 x gauge.lid", "remove: lid", "place: lid"],
          ["start: 1 x gauge.lid", tighten],
        ),
      },
      [],
    ))
  test("taken out one by one and left out", () =>
    check(
      { ...lid, steps: steps(["unscrew: 1 x gauge.lid"], ["unscrew: 1 x gauge.lid", "remove: lid"], ["place: lid"]) },
      ["goal started:gauge.lid last b"],
    ))
  test("turned over while it lies on loosely", () =>
    check(
      {
        ...lid,
        steps: steps(["unscrew: gauge.lid", "remove: lid"], ["place: lid", start], ["turn: gauge to back"], [tighten]),
      },
      ["c turns `gauge` to `back` before d tightens joint `gauge.lid` [held:lid]"],
    ))
  test("turned over while its screws are out", () =>
    check(
      {
        ...lid,
        steps: steps(["unscrew: gauge.lid"], ["turn: gauge to back"], ["remove: lid", "place: lid", start, tighten]),
      },
      ["b turns `gauge` to `back` before c removes `lid` [held:lid]"],
    ))
})

describe("screws of the unit replaced one at a time", () => {
  const foot = {
    units: [{ id: "gauge" }],
    parts: [{ id: "lug" }],
    joints: [{ id: "foot", through: ["lug"], owner: "gauge", intoBore: "gauge.foot", count: 2 }],
    ownJoints: [{ id: "gauge.foot", unit: "gauge", alsoHolds: "the battery" }],
  } satisfies Omit<Small, "steps">
  const swap = ["unscrew: 1 x gauge.foot", "start: 1 x foot", "tighten: 1 x foot"]
  test("each tightened before the next comes out", () =>
    check({ ...foot, steps: steps(["place: lug"], swap, swap) }, []))
  test("each tightened, where the screws hold nothing else: all are started first", () =>
    check(
      {
        ...foot,
        ownJoints: [{ id: "gauge.foot", unit: "gauge" }],
        steps: steps(["place: lug"], swap, swap),
      },
      ["b tightens joint `foot` before c starts joint `foot` [started:foot#2]"],
    ))
  test("own screws back into a bore that still holds those of the kit", () =>
    check(
      {
        ...foot,
        steps: steps(
          ["place: lug", "unscrew: gauge.foot", "start: foot", "tighten: foot"],
          ["start: gauge.foot", "tighten: gauge.foot"],
        ),
      },
      ["b starts joint `gauge.foot` after a starts joint `foot` [out:foot]"],
    ))
})

describe("joints taken apart", () => {
  const lug = {
    units: [{ id: "gauge" }],
    parts: [{ id: "lug" }, { id: "cap" }],
    joints: [{ id: "foot", through: ["lug"], owner: "gauge", count: 4 }],
  } satisfies Omit<Small, "steps">
  test("taken out in two goes and left out", () =>
    check(
      {
        ...lug,
        steps: steps(["place: lug", "start: foot", "tighten: foot"], ["unscrew: 2 x foot"], ["unscrew: 2 x foot"]),
      },
      ["goal tight:foot last c"],
    ))
  test("one of four taken out and put in again", () =>
    check(
      {
        ...lug,
        steps: steps(
          ["place: lug", "start: foot", "tighten: foot"],
          ["unscrew: 1 x foot", "start: 1 x foot", "tighten: 1 x foot"],
        ),
      },
      [],
    ))
  test("started in two goes, one taken out and put in again", () =>
    check(
      {
        ...lug,
        steps: steps(
          ["place: lug", "start: 2 x foot"],
          ["start: 2 x foot", "tighten: foot"],
          ["unscrew: 1 x foot", "start: 1 x foot", "tighten: 1 x foot"],
        ),
      },
      [],
    ))
  test("a part that a second joint holds does not fall when the first comes off", () =>
    check(
      {
        ...lug,
        joints: [
          { id: "foot", through: ["lug"], owner: "gauge" },
          { id: "arm", through: ["lug"], owner: "gauge" },
        ],
        steps: steps(
          ["place: lug", "start: foot", "start: arm", "tighten: foot", "tighten: arm"],
          ["unscrew: foot"],
          ["turn: gauge to back"],
          ["start: foot", "tighten: foot"],
        ),
      },
      [],
    ))
})

describe("parts that ties hold", () => {
  const saddle = {
    parts: [{ id: "saddle", instances: ["saddle.1", "saddle.2"] }],
    ties: [{ id: "clamp", holds: ["saddle"] }],
  } satisfies Omit<Small, "steps">
  test("taken off while the tie is closed", () =>
    check({ ...saddle, steps: steps(["place: saddle"], ["strap: clamp"], ["remove: saddle", "discard: saddle"]) }, [
      "c removes `saddle` after b closes tie `clamp` [untied:clamp]",
    ]))
  test("taken off after the tie is cut", () =>
    check(
      {
        ...saddle,
        steps: steps(
          ["place: saddle"],
          ["strap: clamp"],
          ["remove: clamp", "discard: clamp"],
          ["remove: saddle", "discard: saddle"],
        ),
      },
      [],
    ))
})

describe("turning over", () => {
  const plate = {
    units: [{ id: "gauge" }],
    parts: [{ id: "face" }, { id: "rear" }],
    joints: [
      { id: "face", through: ["face"], owner: "gauge", side: "front" },
      { id: "rear", through: ["rear"], owner: "gauge", side: "back" },
    ],
  } satisfies Omit<Small, "steps">
  const face = ["place: face", "start: face", "tighten: face"]
  const rear = ["place: rear", "start: rear", "tighten: rear"]
  const [toBack, toFront] = ["turn: gauge to back", "turn: gauge to front"]
  test("front, turn, back", () => check({ ...plate, steps: steps(face, [toBack], rear) }, []))
  test("too late", () =>
    check({ ...plate, steps: steps(face, rear, [toBack]) }, [
      "b starts joint `rear` before c turns `gauge` to `back` [faces:gauge:back]",
    ]))
  test("too early for what is on the other face", () =>
    check({ ...plate, steps: steps([toBack], face, rear) }, [
      "b starts joint `face` after a turns `gauge` to `back` [faces:gauge:front]",
    ]))
  test("the turn back is missing", () => {
    const more = {
      ...plate,
      joints: [...plate.joints, { id: "eye", through: ["face"], owner: "gauge", side: "front" }],
    }
    const eye = ["start: eye", "tighten: eye"]
    check({ ...more, steps: steps(face, [toBack], rear, [toFront], eye) }, [])
    check({ ...more, steps: steps(face, [toBack], rear, eye) }, [
      "d starts joint `eye` after b turns `gauge` to `back` [faces:gauge:front]",
    ])
  })
  test("a second turn to the same face changes nothing", () => {
    const { steps: states, faults } = prove({ ...plate, steps: steps(face, [toBack], [toBack], rear) })
    expect(faults).toEqual([])
    expect(states.map(({ factsGained, factsLost }) => factsGained.length + factsLost.length)[2]).toBe(0)
  })
  test("a side face is within reach whichever of front and back lies up", () =>
    check(
      {
        ...plate,
        joints: [...plate.joints, { id: "side", through: ["face"], owner: "gauge", side: "left" }],
        steps: steps(face, [toBack], [...rear, "start: side", "tighten: side"]),
      },
      [],
    ))
  test("a part that lies on loosely", () =>
    check({ ...plate, steps: steps(["place: face"], [toBack], ["start: face", "tighten: face"]) }, [
      "b turns `gauge` to `back` before c tightens joint `face` [held:face]",
    ]))
  test("screws that are only started do not hold", () =>
    check(
      {
        ...plate,
        joints: [{ id: "face", through: ["face"], owner: "gauge" }],
        steps: steps(["place: face", "start: face"], [toBack], ["tighten: face"]),
      },
      ["b turns `gauge` to `back` before c tightens joint `face` [held:face]"],
    ))
  test("a part that holds itself", () =>
    check(
      {
        ...plate,
        parts: [{ id: "face", holdsItself: true }],
        joints: [{ id: "face", through: ["face"], owner: "gauge" }],
        steps: steps(["place: face", "start: face"], [toBack], ["tighten: face"]),
      },
      [],
    ))
  test("a unit that lies on the plate loosely", () => {
    const tray = {
      units: [{ id: "gauge" }],
      parts: [{ id: "tray" }],
      joints: [{ id: "foot", through: ["tray"], owner: "gauge" }],
    }
    const foot = ["start: foot", "tighten: foot"]
    check({ ...tray, steps: steps(["place: tray"], ["place: gauge"], ["turn: all to bottom"], foot) }, [
      "c turns everything to `bottom` before d tightens joint `foot` [held:tray]",
    ])
    check({ ...tray, steps: steps(["place: tray", "place: gauge", ...foot], ["turn: all to bottom"]) }, [])
    // The unit alone on the bench is no loose piece of anything.
    check({ ...tray, steps: steps(["place: gauge"], ["turn: gauge to bottom"], ["place: tray", ...foot]) }, [])
  })
})

describe("covers and what stands in the way", () => {
  const socket = {
    units: [{ id: "gauge" }],
    sockets: [{ id: "gauge.power", owner: "gauge" }],
    cables: [{ id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")] }],
  } satisfies Omit<Small, "steps">
  const connect = "connect: lead.plug to gauge.power"
  test("two covers: both must be off", () => {
    const covers = {
      ...socket,
      parts: [
        { id: "lid", covers: ["gauge.power"], holdsItself: true },
        { id: "hood", covers: ["gauge.power"], holdsItself: true },
      ],
    }
    check({ ...covers, steps: steps([connect], ["place: lid"], ["place: hood"]) }, [])
    check({ ...covers, steps: steps(["place: lid"], [connect], ["place: hood"]) }, [
      "b connects `lead.plug` to `gauge.power` after a places `lid` [off:lid]",
    ])
    check({ ...covers, steps: steps(["place: hood"], [connect], ["place: lid"]) }, [
      "b connects `lead.plug` to `gauge.power` after a places `hood` [off:hood]",
    ])
    check({ ...covers, steps: steps(["place: lid"], ["place: hood"], [connect]) }, [
      "c connects `lead.plug` to `gauge.power` after a places `lid` [off:lid]",
    ])
  })
  test("two copies of a cover: each counts", () =>
    check(
      {
        ...socket,
        parts: [{ id: "flap", instances: ["flap.1", "flap.2"], covers: ["gauge.power"], holdsItself: true }],
        steps: steps(["place: flap.2"], [connect], ["place: flap.1"]),
      },
      ["b connects `lead.plug` to `gauge.power` after a places `flap.2` [off:flap.2]"],
    ))
  test("a cover that opens: shut hides, open does not", () =>
    check(
      {
        ...socket,
        parts: [{ id: "door", ownedBy: "gauge", opens: true, covers: ["gauge.power"] }],
        steps: steps(["open: door"], [connect], ["close: door"]),
      },
      [],
    ))

  const blocker = (kind: Blocker["kind"], subject: string, piece: string): Blocker => ({
    kind,
    subject,
    blocker: piece,
    depthMm: 4,
    atMm: [0, 0, 0],
    direction: [0, 0, -1],
  })
  const bench = {
    units: [{ id: "gauge" }],
    parts: [{ id: "lug" }, { id: "hood", holdsItself: true }, { id: "rib", holdsItself: true }],
    joints: [{ id: "foot", through: ["lug"], owner: "gauge" }],
  } satisfies Omit<Small, "steps">
  const foot = ["start: foot", "tighten: foot"]
  test("two pieces before the driver: both must be off", () => {
    const fit = { ...emptyFit, blockers: [blocker("driver", "foot", "hood"), blocker("driver", "foot", "rib")] }
    check({ ...bench, steps: steps(["place: lug", ...foot], ["place: hood"], ["place: rib"]) }, [], fit)
    check(
      { ...bench, steps: steps(["place: lug"], ["place: hood"], foot, ["place: rib"]) },
      ["c starts joint `foot` after b places `hood` [off:hood]"],
      fit,
    )
    check(
      { ...bench, steps: steps(["place: lug"], ["place: rib"], foot, ["place: hood"]) },
      ["c starts joint `foot` after b places `rib` [off:rib]"],
      fit,
    )
  })
  test("a driver that is blocked by the clamped part itself, or by what never moves, is no matter of order", () => {
    const fit = { ...emptyFit, blockers: [blocker("driver", "foot", "lug"), blocker("driver", "foot", "gauge")] }
    check({ ...bench, steps: steps(["place: lug", ...foot], ["place: hood"], ["place: rib"]) }, [], fit)
  })
  test("a piece that stands in the way of another is put on after it", () => {
    const fit = { ...emptyFit, blockers: [blocker("insertion", "rib", "hood")] }
    check(
      { ...bench, steps: steps(["place: lug", ...foot], ["place: hood"], ["place: rib"]) },
      ["c places `rib` after b places `hood` [off:hood]"],
      fit,
    )
    check({ ...bench, steps: steps(["place: lug", ...foot], ["place: rib"], ["place: hood"]) }, [], fit)
  })
  test("a joint is reached again when what stood before its driver comes off", () => {
    const fit = { ...emptyFit, blockers: [blocker("driver", "foot", "hood")] }
    check(
      {
        ...bench,
        steps: steps(["place: hood"], ["place: lug"], ["remove: hood"], foot, ["place: hood"], ["place: rib"]),
      },
      [],
      fit,
    )
  })
})
