/** The way back: replayed with the facts of the actions alone, on kits of the repository and on random small ones. */
import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { proveKit } from "../../src/build/prove.ts"
import type { Fit } from "../../src/fit/types.ts"
import type { Act, Kit } from "../../src/kit/types.ts"
import { factsOf } from "../../src/sequence/actions/build.ts"
import type { RemovalAct } from "../../src/sequence/advice-types.ts"
import { proveSequence } from "../../src/sequence/index.ts"
import { buildLookup } from "../../src/sequence/lookup.ts"
import { listCandidates, type WayBack } from "../../src/sequence/removal/candidates.ts"
import type { Sequence } from "../../src/sequence/types.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { kitFolders, readKitFiles, readKitModel } from "../guides/kit-files.ts"
import { gauge } from "./gauge.ts"
import { choices, kitOf } from "./removal-kits.ts"
import { emptyFit, freeEnd, type Small, smallKit } from "./small-kit.ts"

const kernel = await loadKernel()
const seed = 20261125

/** Facts when mounting is done. */
function finalFacts({ initial, actions }: Sequence): Set<string> {
  const holds = new Set(initial)
  for (const { gives, takes } of actions) {
    for (const key of takes) holds.delete(key)
    for (const key of gives) holds.add(key)
  }
  return holds
}

function toAct({ verb, target, other, instances }: RemovalAct, index: number): Act {
  const isThrough = verb === "feed" || verb === "withdraw"
  return {
    verb,
    path: `back/${index}`,
    target,
    instances,
    through: isThrough ? other : undefined,
    to: isThrough ? undefined : other,
    count: undefined,
    minutes: undefined,
    words: undefined,
  }
}

/** Replays the printed acts from the finished work: needs that are not met, and what holds when the kit is off. */
function replay(
  kit: Kit,
  fit: Fit,
  sequence: Sequence,
): { readonly unmet: readonly string[]; readonly holds: Set<string> } {
  const lookup = buildLookup(kit, fit)
  const holds = finalFacts(sequence)
  const known = new Set([
    ...sequence.initial,
    ...holds,
    ...sequence.actions.flatMap(({ gives, takes }) => [...gives, ...takes]),
  ])
  // One act of removal does what mounting may do in several goes.
  const all = (keys: readonly string[]): string[] =>
    keys.flatMap((key) => [...known].filter((one) => one === key || one.startsWith(`${key}#`)).concat(key))
  const unmet: string[] = []
  for (const act of sequence.removal.acts.map(toAct)) {
    const { needs, gives, takes } = factsOf(lookup, act)
    for (const { fact } of needs) {
      // That a lead is threaded and the work is complete is asked when mounting only.
      const isOfMounting =
        (act.verb === "connect" && fact.startsWith("thru:")) ||
        (act.verb === "restore" && !fact.startsWith("power-off:"))
      if (!isOfMounting && !holds.has(fact)) unmet.push(`${act.verb} ${act.target} lacks ${fact}`)
    }
    const given = all(gives)
    for (const key of all(takes)) if (!given.includes(key)) holds.delete(key)
    for (const key of given) holds.add(key)
  }
  return { unmet, holds }
}

/** Facts of the arrival about the buyer's things that do not hold any more, told in the words of this test. */
function changedThings(kit: Kit, { initial }: Sequence, holds: ReadonlySet<string>): readonly string[] {
  const own = new Set(kit.parts.flatMap(({ ownedBy, instances }) => (ownedBy === undefined ? [] : instances)))
  const units = new Set(kit.units.flatMap(({ instances }) => instances))
  const ends = new Set(
    kit.cables.filter(({ isSupplied }) => !isSupplied).flatMap((cable) => cable.ends.map(({ id }) => id)),
  )
  const cables = new Set(kit.cables.filter(({ isSupplied }) => !isSupplied).map(({ id }) => id))
  const screws = new Set(kit.ownJoints.map(({ id }) => id))
  const kinds: Readonly<Record<string, ReadonlySet<string>>> = {
    on: new Set([...own, ...units]),
    off: units,
    shut: own,
    started: screws,
    tight: screws,
    connected: ends,
    free: ends,
    thru: cables,
    outside: cables,
  }
  const isAsked = (key: string): boolean => {
    const [kind = "", id = ""] = (key.split("#")[0] ?? "").split(":")
    return kind === "power-on" || kinds[kind]?.has(id) === true
  }
  return initial.filter((key) => isAsked(key) && !holds.has(key))
}

/**
 * What is still on the buyer's things: joints into the unit, ties round the frame, pads on the unit, plugs of the kit in its
 * sockets, and pieces in place that no joint holds to other pieces of the kit.
 */
function leftOnBuyers(kit: Kit, holds: ReadonlySet<string>): readonly string[] {
  const isUnit = (id: string | undefined): boolean =>
    kit.units.some((unit) => unit.id === id) || kit.parts.some((part) => part.id === id && part.ownedBy !== undefined)
  const joined = kit.joints.filter(({ id }) => holds.has(`started:${id}`))
  const isJoined = (part: string): boolean =>
    joined.some(({ through, bore }) => [...through, ...bore.owners].some((id) => id.split(".")[0] === part))
  const pieces = kit.parts.filter(({ ownedBy, id }) => ownedBy === undefined && !isJoined(id))
  return [
    ...joined.filter(({ bore }) => isUnit(bore.owner)).map(({ id }) => id),
    ...kit.ties.filter(({ id, frame }) => frame !== undefined && holds.has(`tied:${id}`)).map(({ id }) => id),
    ...kit.pads.filter(({ id, on }) => isUnit(on) && !holds.has(`unstuck:${id}`)).map(({ id }) => id),
    ...kit.cables
      .filter(({ isSupplied }) => isSupplied)
      .flatMap(({ ends }) => ends.map(({ id }) => id).filter((id) => holds.has(`connected:${id}`))),
    ...pieces.flatMap(({ instances }) => instances.filter((id) => holds.has(`on:${id}`))),
  ]
}

function checkWayBack(kit: Kit, fit: Fit, sequence: Sequence): void {
  const { unmet, holds } = replay(kit, fit, sequence)
  expect(unmet).toEqual([])
  expect(changedThings(kit, sequence, holds)).toEqual([])
  // Pieces that stand clear of all the buyer has may stay where they are.
  expect(leftOnBuyers(kit, holds).filter((id) => !fit.apart.includes(id))).toEqual([])
  const verbs = sequence.removal.acts.map(({ verb }) => verb)
  const power = verbs.filter((verb) => verb === "isolate" || verb === "verify")
  expect(verbs.slice(0, power.length)).toEqual(power)
  if (verbs.includes("restore")) expect(verbs.at(-1)).toBe("restore")
}

const say = ({ verb, target, instances }: RemovalAct): string =>
  `${verb} ${target}${instances.length > 1 ? ` x ${instances.length}` : ""}`

function wayBack(small: Small): readonly string[] {
  return proveSequence(smallKit(small), emptyFit).removal.acts.map(say)
}

describe("the way back of a gauge on a mast", () => {
  test("undoes mounting with the fewest acts: the pads stay on the saddles, the tails need nothing", () => {
    expect(wayBack(gauge)).toEqual([
      "isolate gauge",
      "verify gauge",
      "unscrew hood",
      "remove hood",
      "disconnect lead.plug",
      "withdraw lead.plug",
      "remove clamp",
      "remove saddle x 2",
      "unscrew foot",
      "remove plate",
      "start gauge.foot",
      "tighten gauge.foot",
      "restore gauge",
    ])
  })

  test("needs the cut ties again, and adhesive pads and locked screws where they come off", () => {
    const { neededAgain } = proveSequence(smallKit(gauge), emptyFit).removal
    expect(neededAgain).toEqual([{ item: "tie:clamp", count: 4 }])
    const locked: Small = {
      ...gauge,
      joints: gauge.joints.map((joint) =>
        joint.id === "foot" ? { ...joint, surface: "thread-lock" as const } : joint,
      ),
      pads: [{ id: "grip", on: "gauge", count: 2 }],
    }
    expect(proveSequence(smallKit(locked), emptyFit).removal.neededAgain).toEqual([
      { item: "tie:clamp", count: 4 },
      { item: "pad:grip", count: 2 },
      { item: "fastener:ISO 4762 - M4 x 16 - A2-70", count: 2 },
    ])
  })

  test("tells what was thrown away, once for each fact, with the act that did it", () => {
    const steps = gauge.steps.map((step) =>
      step.id === "unscrew" ? { ...step, acts: ["unscrew: gauge.foot", "discard: gauge.foot"] } : step,
    )
    const { stuck } = proveSequence(smallKit({ ...gauge, steps }), emptyFit).removal
    expect(stuck.map(({ act, fact }) => `${act} ${fact}`).sort()).toEqual([
      "steps/unscrew/do/1 started:gauge.foot",
      "steps/unscrew/do/1 tight:gauge.foot",
    ])
  })
})

test("stored energy runs off before the unit is found to be off, on the way back too", () => {
  const charged: Small = {
    ...gauge,
    units: [{ id: "gauge", isPowered: true, dischargeMinutes: 5 }],
    steps: gauge.steps.map((step) =>
      step.id === "switch-off" ? { ...step, acts: ["isolate: gauge", "wait: 5 min", "verify: gauge"] } : step,
    ),
  }
  const sequence = proveSequence(smallKit(charged), emptyFit)
  expect(sequence.faults).toEqual([])
  expect(sequence.removal.stuck).toEqual([])
  expect(sequence.removal.acts.slice(0, 3).map(({ verb, minutes }) => `${verb} ${minutes ?? ""}`.trim())).toEqual([
    "isolate",
    "wait 5",
    "verify",
  ])
})

test("own screws that hold something else go back next to those in their place, before the plate is off", () => {
  const held: Small = {
    ...gauge,
    ownJoints: [{ id: "gauge.foot", unit: "gauge", bore: "gauge.foot", alsoHolds: "the battery" }],
  }
  const back = wayBack(held)
  const out = back.indexOf("unscrew foot")
  expect(back.slice(out, out + 4)).toEqual(["unscrew foot", "start gauge.foot", "tighten gauge.foot", "remove plate"])
})

test("a tie that has the name of the part it holds is cut before the part comes off", () => {
  const small: Small = {
    units: [{ id: "unit" }],
    parts: [{ id: "strap" }],
    ties: [{ id: "strap", holds: ["strap"], frame: "mast" }],
    steps: [{ id: "all", acts: ["place: strap", "strap: strap"] }],
  }
  const { removal } = proveSequence(smallKit(small), emptyFit)
  expect(removal.acts.map(({ verb, target, instances }) => `${verb} ${target} ${instances.length}`)).toEqual([
    "remove strap 0",
    "remove strap 1",
  ])
  expect(removal.stuck).toEqual([])
  expect(removal.neededAgain).toEqual([{ item: "tie:strap", count: 1 }])
})

test("a lid of the unit comes off once more and goes back; a door is only opened", () => {
  const small: Small = {
    units: [{ id: "gauge" }],
    parts: [
      { id: "lid", ownedBy: "gauge", covers: ["gauge.power"] },
      { id: "door", opens: true, holdsItself: true, covers: ["lid", "gauge.lid"] },
    ],
    ownJoints: [{ id: "gauge.lid", unit: "gauge", bore: "gauge.lid" }],
    sockets: [{ id: "gauge.power", owner: "gauge" }],
    cables: [{ id: "sun", isSupplied: true, ends: [freeEnd("sun.head"), freeEnd("sun.tail")] }],
    steps: [
      { id: "lid", acts: ["unscrew: gauge.lid", "remove: lid"] },
      { id: "sun", acts: ["connect: sun.head to gauge.power"] },
      { id: "back", acts: ["place: lid", "start: gauge.lid", "tighten: gauge.lid"] },
      { id: "door", acts: ["place: door", "close: door"] },
    ],
  }
  const back = wayBack(small)
  // The door belongs to the kit and comes off anyway, so that nobody has to open it.
  expect(back).toEqual([
    "remove door",
    "unscrew gauge.lid",
    "remove lid",
    "disconnect sun.head",
    "place lid",
    "start gauge.lid",
    "tighten gauge.lid",
  ])
})

test.each(kitFolders)("every variant of %s comes off as printed", (folder) => {
  const readModel = (file: string) => {
    const bytes = readKitModel(folder, file)
    return bytes === undefined ? { problem: { message: `there is no ${file}` } } : { bytes }
  }
  const { proofs } = proveKit(readKitFiles(folder), { kernel, readModel })
  expect(proofs.length).toBeGreaterThan(0)
  for (const { kit, fit, sequence } of proofs) {
    expect(sequence.removal.stuck).toEqual([])
    expect(sequence.removal.acts.length).toBeGreaterThan(0)
    checkWayBack(kit, fit, sequence)
  }
})

/** The fewest acts of the candidates, each at most once, that reach the goals: by trying all sets in all orders. */
function fewestActs(kit: Kit, sequence: Sequence): number | undefined {
  const lookup = buildLookup(kit, emptyFit)
  const final = finalFacts(sequence)
  const initial = new Set(sequence.initial)
  const goals = goalsOf(kit, sequence)
  const candidates = listCandidates({ lookup, fit: emptyFit, initial, final, actions: sequence.actions, goals })
  if (candidates.length > 15) return undefined
  let layer = new Map<number, ReadonlySet<string>>([[0, final]])
  for (let count = 0; count <= candidates.length; count += 1) {
    for (const holds of layer.values()) if (goals.every(({ fact }) => holds.has(fact))) return count
    layer = nextLayer(layer, candidates)
  }
  return undefined
}

function nextLayer(layer: ReadonlyMap<number, ReadonlySet<string>>, candidates: readonly WayBack[]) {
  const next = new Map<number, ReadonlySet<string>>()
  for (const [mask, holds] of layer)
    candidates.forEach(({ facts }, index) => {
      const bit = 1 << index
      if ((mask & bit) !== 0 || facts.needs.some(({ fact }) => !holds.has(fact))) return
      // Acts that give and take the same facts in another order may end elsewhere: the last one found stands for all.
      next.set(mask | bit, new Set([...[...holds].filter((key) => !facts.takes.includes(key)), ...facts.gives]))
    })
  return next
}

/** What the buyer had, in the words of this test: pieces, screws, cables, and nothing of the kit on them. */
function goalsOf(kit: Kit, sequence: Sequence): readonly { readonly fact: string; readonly why: string }[] {
  const { holds } = replay(kit, emptyFit, sequence)
  const asked = sequence.initial.filter(
    (key) =>
      holds.has(key) &&
      /^(on|off|shut|started|tight|out|untied|unstuck|connected|free|thru|outside|power-on):/.test(key),
  )
  return asked.map((fact) => ({ fact, why: "the test says so" }))
}

test("random small kits come off as printed, and a kit that is mounted well is never stuck", () => {
  let proved = 0
  fc.assert(
    fc.property(choices, (choice) => {
      const kit = smallKit(kitOf(choice))
      const sequence = proveSequence(kit, emptyFit)
      fc.pre(sequence.faults.length === 0)
      proved += 1
      expect(sequence.removal.stuck).toEqual([])
      checkWayBack(kit, emptyFit, sequence)
    }),
    { seed, numRuns: 400, verbose: 1 },
  )
  expect(proved).toBeGreaterThan(200)
})

test("no act of the way back of random small kits can be left out", () => {
  fc.assert(
    fc.property(choices, (choice) => {
      const kit = smallKit(kitOf(choice))
      const sequence = proveSequence(kit, emptyFit)
      fc.pre(sequence.faults.length === 0)
      const { acts } = sequence.removal
      acts.forEach((act, index) => {
        // That it is verified to be off is the maker's wish, and switching off is kept where nothing needs it.
        if (["isolate", "verify", "restore"].includes(act.verb)) return
        const shorter = { ...sequence, removal: { ...sequence.removal, acts: acts.toSpliced(index, 1) } }
        const { unmet, holds } = replay(kit, emptyFit, shorter)
        const isNeeded = [...unmet, ...changedThings(kit, sequence, holds), ...leftOnBuyers(kit, holds)].length > 0
        expect(isNeeded, say(act)).toBe(true)
      })
    }),
    { seed, numRuns: 150, verbose: 1 },
  )
})

test("the number of acts is the smallest of all sets and orders of acts on random small kits", () => {
  let compared = 0
  fc.assert(
    fc.property(choices, (choice) => {
      const kit = smallKit(kitOf({ ...choice, isPowered: false }))
      const sequence = proveSequence(kit, emptyFit)
      fc.pre(sequence.faults.length === 0)
      const fewest = fewestActs(kit, sequence)
      if (fewest === undefined) return
      compared += 1
      expect(sequence.removal.isFewest).toBe(true)
      expect(sequence.removal.acts.length).toBe(fewest)
    }),
    { seed, numRuns: 60, verbose: 1 },
  )
  expect(compared).toBeGreaterThan(20)
})
