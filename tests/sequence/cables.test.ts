/** Cables as stacks with two ends: what goes on last comes off first. */
import fc from "fast-check"
import { describe, expect, test } from "vitest"
import type { CapturedEnd } from "../../src/sequence/index.ts"
import { prepareEndChoice } from "../../src/sequence/index.ts"
import { connectedEnd, emptyFit, fixedEnd, freeEnd, type Small, smallKit } from "./small-kit.ts"
import { check, prove } from "./told.ts"

function steps(...acts: readonly (readonly string[])[]): Small["steps"] {
  return acts.map((list, index) => ({ id: String.fromCharCode(97 + index), acts: list }))
}

const [near, far] = ["feed: lead.plug through near", "feed: lead.plug through far"]
const connect = "connect: lead.plug to gauge.power"

const [nearPassage, farPassage] = [
  { id: "near", part: "box" },
  { id: "far", part: "box" },
] as const
const lead = { id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")], via: ["near", "far"] }

/** From the plug the lead runs through `near`, then through `far`, to the other end. */
const box = {
  units: [{ id: "gauge" }],
  parts: [{ id: "box", holdsItself: true }],
  sockets: [
    { id: "gauge.power", owner: "gauge" },
    { id: "gauge.out", owner: "gauge" },
  ],
  passages: [nearPassage, farPassage],
  cables: [lead],
  arrives: ["place: box"],
} satisfies Omit<Small, "steps">
const twoEnds = { ...box, cables: [{ ...lead, ends: [freeEnd("lead.plug"), freeEnd("lead.tail")] }] }

describe("the order of threading", () => {
  test("the far opening first", () => check({ ...box, steps: steps([far], [near], [connect]) }, []))
  test("the near opening first", () =>
    check({ ...box, steps: steps([near], [far], [connect]) }, [
      "b feeds `lead.plug` through `far` after a feeds `lead.plug` through `near` [outside:lead:near]",
    ]))
  test("the near opening first, in one step", () =>
    check({ ...box, steps: steps([near, far, connect]) }, [
      "a feeds `lead.plug` through `far` after a feeds `lead.plug` through `near` [outside:lead:near]",
    ]))
  test("mirrored from the last end", () => {
    const feeds = ["feed: lead.tail through near", "feed: lead.tail through far"] as const
    check({ ...twoEnds, steps: steps([feeds[0]], [feeds[1]], [connect]) }, [])
    check({ ...twoEnds, steps: steps([feeds[1]], [feeds[0]], [connect]) }, [
      "b feeds `lead.tail` through `near` after a feeds `lead.tail` through `far` [outside:lead:far]",
    ])
  })
  test("one from each end, in either order", () => {
    check({ ...twoEnds, steps: steps([near], ["feed: lead.tail through far"], [connect]) }, [])
    check({ ...twoEnds, steps: steps(["feed: lead.tail through far"], [near], [connect]) }, [])
  })
  test("one from each end, each through the one of the other", () =>
    check({ ...twoEnds, steps: steps([far], ["feed: lead.tail through near"], [connect]) }, [
      "b feeds `lead.tail` through `near` after a feeds `lead.plug` through `far` [outside:lead:far]",
    ]))
  test("an open passage takes the cable at any time", () => {
    const passages = [{ ...nearPassage, isClosed: false }, farPassage]
    check({ ...box, passages, steps: steps([near], [far], [connect]) }, [])
    check({ ...box, passages, steps: steps([far], [connect], [near]) }, [])
  })
  test("a passage that is not on the way has no place in the order", () => {
    const cables = [{ ...lead, via: ["near"] }]
    check({ ...box, cables, steps: steps([near], [far], [connect]) }, [])
  })
  test("a branch in the middle of a cable has no order", () => {
    const cables = [
      { id: "lead", ends: [fixedEnd("lead.a"), freeEnd("lead.plug"), fixedEnd("lead.b")], via: ["near", "far"] },
    ]
    check({ ...box, cables, steps: steps([near], [far], [connect]) }, [])
  })
  test("an opening left out misses the goal and breaks no order", () =>
    check({ ...box, steps: steps([near], [connect]) }, ["goal thru:lead:far last b"]))
})

describe("the way back", () => {
  const refit = (first: string, second: string): Small["steps"] =>
    steps(["disconnect: lead.plug"], [first], [second], [far], [near], [connect])
  const arrived = {
    ...box,
    cables: [{ ...lead, ends: [connectedEnd("lead.plug", "gauge.power"), fixedEnd("lead.inner")] }],
  }
  const [outOfNear, outOfFar] = ["withdraw: lead.plug from near", "withdraw: lead.plug from far"]
  test("the near opening comes off first", () => check({ ...arrived, steps: refit(outOfNear, outOfFar) }, []))
  test("the far opening cannot come off first", () =>
    check({ ...arrived, steps: refit(outOfFar, outOfNear) }, [
      "b withdraws `lead.plug` from `far` before c withdraws `lead.plug` from `near` [outside:lead:near]",
    ]))
  test("withdrawn while still connected", () =>
    check({ ...arrived, steps: steps([outOfNear], ["disconnect: lead.plug"], [near], [connect]) }, [
      "a withdraws `lead.plug` from `near` before b disconnects `lead.plug` [free:lead.plug]",
    ]))
  test("never threaded again", () =>
    check({ ...arrived, steps: steps(["disconnect: lead.plug"], [outOfNear], [connect]) }, [
      "goal thru:lead:near last c",
    ]))
  test("connected on trial, taken off, fed and connected for good", () =>
    check({ ...box, steps: steps([connect], ["disconnect: lead.plug"], [far, near], [connect]) }, []))
})

describe("a part with an opening that comes later", () => {
  const lid = { id: "lid", covers: ["gauge.power"], holdsItself: true }
  const hole = { id: "hole", part: "lid" }
  const small = {
    ...box,
    parts: [lid],
    passages: [hole],
    cables: [{ ...lead, via: ["hole"] }],
    arrives: [],
  } satisfies Omit<Small, "steps">
  const feed = "feed: lead.plug through hole"
  test("threaded in the hand, connected, placed", () =>
    check({ ...small, steps: steps([feed], [connect], ["place: lid"]) }, []))
  test("placed on a cable whose ends are captive, feed left out", () =>
    check({ ...small, steps: steps([connect], ["place: lid"]) }, ["goal thru:lead:hole last a"]))
  test("placed before the feed: the socket is hidden", () =>
    check({ ...small, steps: steps(["place: lid"], [feed], [connect]) }, [
      "c connects `lead.plug` to `gauge.power` after a places `lid` [off:lid]",
    ]))
  test("fed after it was connected", () =>
    check({ ...small, steps: steps([connect], [feed], ["place: lid"]) }, [
      "b feeds `lead.plug` through `hole` after a connects `lead.plug` to `gauge.power` [free:lead.plug]",
    ]))
})

describe("a part that goes for good", () => {
  const old = {
    ...box,
    parts: [{ id: "cap", ownedBy: "gauge" }, { id: "hood" }],
    passages: [
      { id: "cap-hole", part: "cap" },
      { id: "hood-hole", part: "hood" },
    ],
    cables: [{ ...lead, ends: [connectedEnd("lead.plug", "gauge.power"), fixedEnd("lead.inner")], via: ["hood-hole"] }],
    arrives: [],
  } satisfies Omit<Small, "steps">
  const off = ["disconnect: lead.plug", "remove: cap"]
  const on = ["place: hood", "feed: lead.plug through hood-hole", connect]
  test("comes off its cable first", () =>
    check({ ...old, steps: steps([...off, "withdraw: lead.plug from cap-hole", "discard: cap"], on) }, []))
  test("cannot be thrown away while the cable runs through it", () =>
    check({ ...old, steps: steps([...off, "discard: cap"], ["withdraw: lead.plug from cap-hole"], on) }, [
      "a discards `cap` before b withdraws `lead.plug` from `cap-hole` [outside:lead:cap-hole]",
    ]))
})

describe("glands", () => {
  const gland = { ...nearPassage, clamps: { cableMm: undefined } }
  const small = { ...box, passages: [gland, farPassage] } satisfies Omit<Small, "steps">
  test("fed, connected, tightened", () =>
    check({ ...small, steps: steps([far], [near], [connect], ["close: near"]) }, []))
  test("never tightened", () =>
    check({ ...small, steps: steps([far], [near], [connect]) }, ["goal clamped:near last b"]))
  test("tightened before the cable is in it", () =>
    check({ ...small, steps: steps([far], ["close: near"], [near], [connect]) }, [
      "b tightens gland `near` before c feeds `lead.plug` through `near` [thru:lead:near]",
    ]))
  test("tightened twice", () =>
    check({ ...small, steps: steps([far], [near], ["close: near"], [connect], ["close: near"]) }, [
      "e tightens gland `near` after c tightens gland `near` [unclamped:near]",
    ]))
  test("loosened and left", () =>
    check({ ...small, steps: steps([far], [near], ["close: near"], [connect], ["open: near"]) }, [
      "goal clamped:near last e",
    ]))
  test("inspected and switched on before it is tight", () =>
    check({ ...small, steps: steps([far], [near], [connect], ["inspect: all"], ["close: near"]) }, [
      "d inspects everything before e tightens gland `near` [clamped:near]",
    ]))
  describe("on a cable that hangs in it on arrival", () => {
    const arrived = {
      ...small,
      cables: [{ ...lead, ends: [connectedEnd("lead.plug", "gauge.power"), fixedEnd("lead.inner")] }],
    }
    test("is tight already", () => check({ ...arrived, steps: steps(["clean: box"]) }, []))
    test("must be loosened to withdraw the end", () => {
      const loosen = "open: near"
      const out = ["disconnect: lead.plug", "withdraw: lead.plug from near"]
      const back = [near, connect, "close: near"]
      check({ ...arrived, steps: steps([loosen], out, back) }, [])
      check({ ...arrived, steps: steps(out, [loosen], back) }, [
        "a withdraws `lead.plug` from `near` before b loosens gland `near` [unclamped:near]",
      ])
    })
  })
})

describe("which end can be taken in hand", () => {
  const tellEnds = (captured: readonly CapturedEnd[]): readonly string[] =>
    captured.map(({ end, isFixed, by }) => `${end} ${isFixed ? "fixed" : (by?.step ?? "arrived")}`)
  const at = (small: Small, step: number, act: number) => {
    const kit = smallKit(small)
    const found = kit.steps[step]?.acts[act]
    if (found === undefined) throw new Error("no such act")
    return prepareEndChoice(kit, emptyFit, prove(small))(found)
  }
  test("the other end, while only one is connected", () => {
    const small = { ...twoEnds, steps: steps([connect], [far]) }
    const choice = at(small, 1, 0)
    expect(tellEnds(choice?.captured ?? [])).toEqual(["lead.plug a"])
    expect(choice?.instead).toEqual(["lead.tail"])
  })
  test("not the other end when it would pass the openings in the wrong order", () => {
    const small = { ...twoEnds, steps: steps(["feed: lead.tail through far"], [connect], [near]) }
    expect(at(small, 2, 0)?.instead).toEqual([])
  })
  test("none, when both are connected", () => {
    const small = { ...twoEnds, steps: steps([connect], ["connect: lead.tail to gauge.out"], [far]) }
    const choice = at(small, 2, 0)
    expect(tellEnds(choice?.captured ?? [])).toEqual(["lead.plug a", "lead.tail b"])
    expect(choice?.instead).toEqual([])
  })
  test("a fixed end is never free", () =>
    expect(tellEnds(at({ ...box, steps: steps([connect], [far]) }, 1, 0)?.captured ?? [])).toEqual([
      "lead.plug a",
      "lead.inner fixed",
    ]))
})

/**
 * Second way to the answer: beads on a thread. Each passage is a bead that goes on over an end; an order is right when
 * every bead goes on, and they lie in the order of `via` in the end.
 */
function threadBeads(feeds: readonly { readonly isFirst: boolean; readonly bead: string }[]): readonly string[] {
  let thread: readonly string[] = []
  for (const { isFirst, bead } of feeds) thread = isFirst ? [bead, ...thread] : [...thread, bead]
  return thread
}

test("says yes to just those orders of feeding that give the cable its way", () => {
  const via = ["w1", "w2", "w3", "w4"]
  const small = {
    ...twoEnds,
    passages: via.map((id) => ({ id, part: "box" })),
    cables: [{ ...lead, ends: [freeEnd("lead.plug"), freeEnd("lead.tail")], via }],
  }
  let [right, wrong] = [0, 0]
  fc.assert(
    fc.property(
      fc.shuffledSubarray(via, { minLength: 4, maxLength: 4 }),
      fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
      (order, sides) => {
        const feeds = order.map((bead, index) => ({ bead, isFirst: sides[index] === true }))
        const acts = feeds.map(({ bead, isFirst }) => [`feed: lead.${isFirst ? "plug" : "tail"} through ${bead}`])
        const sequence = prove({ ...small, steps: steps(...acts, [connect]) })
        const isRight = threadBeads(feeds).join() === via.join()
        expect(sequence.faults.length === 0).toBe(isRight)
        // The state tells where the beads lie, right or wrong.
        const state = sequence.steps[3]?.cables.find(({ cable }) => cable === "lead")
        expect(state?.passages).toEqual(threadBeads(feeds))
        if (isRight) right += 1
        else wrong += 1
      },
    ),
    { seed: 46, numRuns: 400 },
  )
  expect(right).toBeGreaterThan(15)
  expect(wrong).toBeGreaterThan(100)
})

/** A cable in the hand: which ends are free, what is threaded from the first end to the last, which gland is tight. */
type Hand = { readonly free: ReadonlySet<string>; readonly thread: readonly string[]; readonly isTight: boolean }

const way = ["w1", "w2", "w3"]
const sockets = { "lead.plug": "gauge.power", "lead.tail": "gauge.out" } as const
const ends = ["lead.plug", "lead.tail"] as const
const glandId = "w2"

/** Does one act by hand; undefined when it cannot be done, or leaves the passages in an order they do not lie in. */
function doByHand({ free, thread, isTight }: Hand, act: string): Hand | undefined {
  const [verb, end = "", passage = ""] = act.split(/: | through | from | to /)
  const isHeld = passage === glandId && isTight
  switch (verb) {
    case "feed": {
      const next = end === "lead.plug" ? [passage, ...thread] : [...thread, passage]
      const isInOrder = next.every((one, index) => index === 0 || way.indexOf(next[index - 1] ?? "") < way.indexOf(one))
      return free.has(end) && !isHeld && isInOrder ? { free, thread: next, isTight } : undefined
    }
    case "withdraw": {
      const isOuter = (end === "lead.plug" ? thread[0] : thread.at(-1)) === passage
      return free.has(end) && !isHeld && isOuter
        ? { free, thread: thread.filter((one) => one !== passage), isTight }
        : undefined
    }
    case "connect":
      return free.has(end) ? { free: new Set([...free].filter((one) => one !== end)), thread, isTight } : undefined
    case "disconnect":
      return free.has(end) ? undefined : { free: new Set([...free, end]), thread, isTight }
    case "close":
      return thread.includes(glandId) && !isTight ? { free, thread, isTight: true } : undefined
    default:
      return isTight ? { free, thread, isTight: false } : undefined
  }
}

/** Every act that could be written. */
const everyAct = [
  ...ends.flatMap((end) => [
    ...way.flatMap((passage) => [`feed: ${end} through ${passage}`, `withdraw: ${end} from ${passage}`]),
    `connect: ${end} to ${sockets[end]}`,
    `disconnect: ${end} from ${sockets[end]}`,
  ]),
  `close: ${glandId}`,
  `open: ${glandId}`,
]

function isDoneByHand(acts: readonly string[]): boolean {
  let hand: Hand | undefined = { free: new Set(ends), thread: [], isTight: false }
  for (const act of acts) hand = hand === undefined ? undefined : doByHand(hand, act)
  return hand !== undefined && hand.free.size === 0 && hand.thread.join() === way.join() && hand.isTight
}

/** Wanders about among acts that can be done, then goes on until all is done; at last two acts may change places. */
function makeActs(choices: readonly number[], swap: readonly [number, number] | undefined): readonly string[] {
  const acts: string[] = []
  let hand: Hand = { free: new Set(ends), thread: [], isTight: false }
  const take = (act: string | undefined): void => {
    const next = act === undefined ? undefined : doByHand(hand, act)
    if (act === undefined || next === undefined) return
    acts.push(act)
    hand = next
  }
  for (const choice of choices) {
    const possible = everyAct.filter((act) => doByHand(hand, act) !== undefined)
    take(possible[choice % possible.length])
  }
  if (hand.thread.length < way.length) {
    if (hand.isTight) take(`open: ${glandId}`)
    for (const end of ends) take(`disconnect: ${end} from ${sockets[end]}`)
    for (const passage of [...hand.thread]) take(`withdraw: lead.plug from ${passage}`)
    for (const passage of [...way].reverse()) take(`feed: lead.plug through ${passage}`)
  }
  for (const end of ends) take(`connect: ${end} to ${sockets[end]}`)
  take(`close: ${glandId}`)
  if (swap === undefined) return acts
  const [one, other] = [swap[0] % acts.length, swap[1] % acts.length]
  return acts.map((act, index) => (index === one ? (acts[other] ?? act) : index === other ? (acts[one] ?? act) : act))
}

test("says yes to just those acts that a hand can do one after the other", () => {
  const kit = {
    ...box,
    passages: way.map((id) => ({ id, part: "box", ...(id === glandId ? { clamps: { cableMm: undefined } } : {}) })),
    cables: [{ ...lead, ends: [freeEnd("lead.plug"), freeEnd("lead.tail")], via: way }],
  }
  let [right, wrong] = [0, 0]
  const index = fc.nat(1000)
  fc.assert(
    fc.property(
      fc.array(index, { maxLength: 12 }),
      fc.option(fc.tuple(index, index), { nil: undefined }),
      (choices, swap) => {
        const acts = makeActs(choices, swap)
        const { faults } = prove({ ...kit, steps: acts.map((act, step) => ({ id: `s${step}`, acts: [act] })) })
        const isRight = isDoneByHand(acts)
        expect(faults.length === 0, acts.join("\n")).toBe(isRight)
        if (isRight) right += 1
        else wrong += 1
      },
    ),
    { seed: 1910, numRuns: 600 },
  )
  expect(right).toBeGreaterThan(150)
  expect(wrong).toBeGreaterThan(150)
})
