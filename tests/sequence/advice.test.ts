/** What the proof of the order can tell the buyer: reasons, points of no return, places to stop, what is left over. */
import { describe, expect, test } from "vitest"
import type { Fit } from "../../src/fit/types.ts"
import type { NoReturn, OrderReason } from "../../src/sequence/advice-types.ts"
import { gauge } from "./gauge.ts"
import { emptyFit, fixedEnd, freeEnd, type Small } from "./small-kit.ts"
import { prove } from "./told.ts"

const sayReason = ({ kind, step, other, fact }: OrderReason): string => `${kind}: ${step} < ${other} [${fact}]`
const sayPoint = ({ kind, step, lastChance }: NoReturn): string =>
  `${kind} in ${step}: ${lastChance.map((chance) => `${chance.kind} ${chance.id}`).join(", ")}`

function reasons(small: Small, fit: Fit = emptyFit): readonly string[] {
  return prove(small, fit).advice.reasons.map(sayReason)
}

function points(small: Small): readonly string[] {
  return prove(small).advice.noReturn.map(sayPoint)
}

/** Steps of `gauge` with other acts. */
function withSteps(acts: Readonly<Record<string, readonly string[]>>): Small {
  return { ...gauge, steps: gauge.steps.map((step) => ({ ...step, acts: acts[step.id] ?? step.acts })) }
}

describe("reasons for the order", () => {
  test("are the places where an act loses its way, not what nobody would try", () => {
    expect(reasons(gauge)).toEqual([
      "in-hand: pads < mast [off:saddle.1]",
      "connected: feed < connect [free:lead.plug]",
      "in-the-way: connect < hood [off:hood]",
    ])
  })

  test("tell within one step only that an end is fed before it is connected", () => {
    const small = withSteps({
      feed: ["feed: lead.plug through hood-hole", "connect: lead.plug to gauge.power"],
      connect: ["wait: lead"],
    })
    expect(reasons(small)).toContain("connected: feed < feed [free:lead.plug]")
  })

  test("tell what is aligned before its screws are tight, and the opening that is threaded first", () => {
    const small: Small = {
      parts: [{ id: "plate" }, { id: "inner" }, { id: "outer" }],
      joints: [{ id: "foot", through: ["plate"], owner: "unit" }],
      units: [{ id: "unit" }],
      cables: [{ id: "lead", ends: [fixedEnd("lead.root"), freeEnd("lead.plug")], via: ["near", "far"] }],
      passages: [
        { id: "near", part: "inner" },
        { id: "far", part: "outer" },
      ],
      steps: [
        { id: "plate", acts: ["place: plate", "place: inner", "place: outer", "start: foot"] },
        { id: "align", acts: ["align: plate"] },
        { id: "tighten", acts: ["tighten: foot"] },
        { id: "near", acts: ["feed: lead.plug through near"] },
        { id: "far", acts: ["feed: lead.plug through far"] },
      ],
    }
    expect(reasons(small)).toEqual(["tight: align < tighten [loose:foot]", "threaded: near < far [outside:lead:far]"])
  })

  test("leave out a step that another one told for the same cover waits for anyway", () => {
    const small: Small = {
      units: [{ id: "unit" }],
      parts: [
        { id: "box", covers: [] },
        { id: "lid", covers: ["box", "foot", "unit.power"] },
      ],
      joints: [{ id: "foot", through: ["box"], owner: "unit" }],
      sockets: [{ id: "unit.power", owner: "unit" }],
      cables: [{ id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.root")], via: ["hole"] }],
      passages: [{ id: "hole", part: "box" }],
      steps: [
        { id: "box", acts: ["place: box", "start: foot", "tighten: foot"] },
        { id: "lead", acts: ["feed: lead.plug through hole", "connect: lead.plug to unit.power"] },
        { id: "lid", acts: ["place: lid"] },
      ],
    }
    expect(reasons(small).filter((line) => line.startsWith("in-the-way"))).toEqual(["in-the-way: lead < lid [off:lid]"])
  })

  test("name the other end where it is too large for the opening", () => {
    const outline = { kind: "rectangle", widthMm: 26, heightMm: 14, cornerMm: 0 } as const
    const [passage] = [
      { end: "lead.inner", passage: "hood-hole", envelope: outline, opening: outline, passes: false },
    ] as const
    const fit = { ...emptyFit, passages: [passage] } as unknown as Fit
    expect(prove(gauge, fit).advice.otherEnds).toEqual([
      { step: "feed", act: "steps/feed/do/0", end: "lead.plug", other: "lead.inner", passage: "hood-hole" },
    ])
    expect(prove(gauge).advice.otherEnds).toEqual([])
  })
})

describe("points of no return", () => {
  test("tell what a cover closes in, what a tie presses on, and tails that are cut later", () => {
    expect(points(gauge)).toEqual([
      "stuck in pads: ",
      "used-up in mast: pad grip",
      "cut in mast: ",
      "closed-in in hood: end lead.plug",
    ])
    const later = withSteps({
      mast: ["place: saddle", "strap: clamp"],
      feed: ["trim: clamp", "feed: lead.plug through hood-hole"],
    })
    expect(points(later)).toContain("cut in feed: tie clamp")
  })

  test("count only the last time that a thing is hidden, and nothing that is hidden by what makes it", () => {
    const small: Small = {
      units: [{ id: "unit" }],
      parts: [{ id: "plate" }, { id: "lid", holdsItself: true, covers: ["foot"] }],
      joints: [{ id: "foot", through: ["plate"], owner: "unit" }],
      steps: [
        { id: "plate", acts: ["place: plate", "start: foot", "tighten: foot"] },
        { id: "lid", acts: ["place: lid"] },
        { id: "off", acts: ["remove: lid"] },
        { id: "again", acts: ["place: lid"] },
      ],
    }
    expect(points(small)).toEqual(["closed-in in again: joint foot"])
    const inOne = { ...small, steps: [{ id: "all", acts: small.steps.flatMap(({ acts }) => acts).slice(0, 4) }] }
    expect(points(inOne)).toEqual([])
  })

  test("tell what must be in line before thread-lock sets", () => {
    const small: Small = {
      units: [{ id: "unit" }],
      parts: [{ id: "plate" }],
      joints: [{ id: "foot", through: ["plate"], owner: "unit", surface: "thread-lock" }],
      steps: [
        { id: "plate", acts: ["place: plate", "start: foot"] },
        { id: "align", acts: ["align: plate"] },
        { id: "tighten", acts: ["tighten: foot"] },
      ],
    }
    expect(points(small)).toEqual(["used-up in tighten: aligned plate"])
  })
})

describe("places to stop", () => {
  const stops = (small: Small): readonly string[] => prove(small).advice.safeStops.map(({ afterStep }) => afterStep)

  test("are not where a lead hangs threaded, nor after the last step", () => {
    expect(stops(gauge)).toEqual(["switch-off", "unscrew", "plate", "pads", "mast", "hood", "on"])
    const { safeStops } = prove(gauge).advice
    expect(safeStops.filter(({ isLastForNow }) => isLastForNow).map(({ afterStep }) => afterStep)).toEqual(["mast"])
    expect(safeStops.find(({ afterStep }) => afterStep === "hood")?.isIsolated).toBe(true)
    expect(safeStops.find(({ afterStep }) => afterStep === "on")?.isIsolated).toBe(false)
  })

  test("are not where a piece is loose, a joint only started, or some ties of several still open", () => {
    const loose = withSteps({ plate: ["place: plate"], pads: ["start: foot", "tighten: foot", "stick: grip"] })
    expect(stops(loose)).not.toContain("plate")
    const started = withSteps({ plate: ["place: plate", "start: foot"], pads: ["tighten: foot", "stick: grip"] })
    expect(stops(started)).not.toContain("plate")
    const open = withSteps({ mast: ["place: saddle", "strap: 2 x clamp"], feed: ["strap: 2 x clamp"] })
    expect(stops(open)).not.toContain("mast")
    expect(stops(open)).toContain("feed")
  })

  test("are not where a lid of the unit is off, and are where it is off for good", () => {
    const lid = (last: readonly string[]): Small => ({
      units: [{ id: "unit" }],
      parts: [{ id: "lid", ownedBy: "unit" }],
      steps: [
        { id: "off", acts: ["remove: lid"] },
        { id: "look", acts: ["clean: unit"] },
        { id: "last", acts: last },
        { id: "done", acts: ["inspect: all"] },
      ],
    })
    expect(stops(lid(["place: lid"]))).toEqual(["last"])
    expect(stops(lid(["set-aside: lid"]))).toEqual(["off", "look", "last"])
  })

  test("are not where a live lead hangs with one end in its socket, unless the power is off", () => {
    const live = (first: readonly string[], last: readonly string[]): Small => ({
      units: [{ id: "unit" }],
      sockets: [
        { id: "unit.in", owner: "unit" },
        { id: "unit.out", owner: "unit" },
      ],
      cables: [{ id: "sun", isLive: true, ends: [freeEnd("sun.a"), freeEnd("sun.b")] }],
      steps: [
        { id: "start", acts: first },
        { id: "a", acts: ["connect: sun.a to unit.in"] },
        { id: "b", acts: ["connect: sun.b to unit.out"] },
        { id: "done", acts: last },
      ],
    })
    expect(stops(live(["clean: unit"], ["inspect: all"]))).toEqual(["start", "b"])
    expect(stops(live(["isolate: sun"], ["restore: sun"]))).toEqual(["start", "a", "b"])
  })

  test("are not where an adhesive cures under a load", () => {
    const curing = withSteps({ pads: ["stick: grip"], feed: ["wait: grip", "feed: lead.plug through hood-hole"] })
    expect(stops(curing)).toContain("pads")
    expect(stops(curing)).not.toContain("mast")
  })
})

describe("what is left on the table", () => {
  const item = { itemReference: 1, id: "hood", fastener: undefined, count: 2, bag: undefined, uses: [] }
  const fit: Fit = {
    ...emptyFit,
    box: [{ ...item, item: "part:hood", kind: "part", spare: 1 }],
    tools: [{ id: "hex-key-3", kind: "hex-key", size: "3", torqueNm: undefined, uses: ["foot"] }],
  }

  test("are spares, own screws that stay out, and tools", () => {
    expect(prove(gauge, fit).advice.left).toEqual([
      { kind: "spare", item: "part:hood", count: 1 },
      { kind: "own-screws", item: "gauge.foot", count: 2 },
      { kind: "tool", item: "hex-key-3", count: 1 },
    ])
  })

  test("are pieces taken off for good, but nothing that was thrown away or put back", () => {
    const off = (fate: string): Small => ({
      units: [{ id: "unit" }],
      parts: [{ id: "cap", ownedBy: "unit" }],
      steps: [{ id: "off", acts: ["remove: cap", fate] }],
    })
    expect(prove(off("set-aside: cap")).advice.left).toEqual([{ kind: "taken-off", item: "cap", count: 1 }])
    expect(prove(off("discard: cap")).advice.left).toEqual([])
    expect(prove(off("place: cap")).advice.left).toEqual([])
    expect(prove(withSteps({ unscrew: ["unscrew: gauge.foot", "discard: gauge.foot"] })).advice.left).toEqual([])
  })
})

test("screws that hold something else are changed one at a time for those of the joint in their bore", () => {
  const small: Small = {
    ...gauge,
    ownJoints: [{ id: "gauge.foot", unit: "gauge", bore: "gauge.foot", alsoHolds: "the battery" }],
  }
  expect(prove(small).advice.oneAtATime).toEqual([
    { ownJoint: "gauge.foot", joint: "foot", holds: "the battery", count: 2 },
  ])
  expect(prove(gauge).advice.oneAtATime).toEqual([])
})
