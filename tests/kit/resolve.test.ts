import { beforeAll, describe, expect, test } from "vitest"
import type { Kit } from "../../src/kit/types.ts"
import { loadKernel } from "../../src/solids/index.ts"
import type { Kernel } from "../../src/solids/types.ts"
import { changed, resolved, sensorArm } from "./kits.ts"

let kernel: Kernel
let kit: Kit
beforeAll(async () => {
  kernel = await loadKernel()
  const outcome = resolved(kernel, sensorArm)
  expect(outcome.findings).toEqual([])
  kit = outcome.kit
})

describe("things in place", () => {
  test("every piece has its instances, copies with their names", () => {
    expect(kit.instances.map(({ id, of, owner }) => `${owner} ${of}: ${id}`)).toEqual([
      "part clip: clip.front",
      "part clip: clip.rear",
      "part cover: cover",
      "part lid: lid",
      "frame mast: mast",
      "part plate: plate",
      "unit sensor: sensor",
    ])
    expect(kit.parts.find(({ id }) => id === "lid")?.ownedBy).toBe("sensor")
    expect(kit.instances.find(({ id }) => id === "clip.rear")?.pose.at).toEqual([65, 5, 6])
  })

  test("copies share one mesh, every mesh is used, keys are the same in another run", async () => {
    const keys = kit.instances.map(({ mesh }) => mesh)
    expect(new Set(keys)).toEqual(new Set(Object.keys(kit.meshes)))
    expect(keys[0]).toBe(keys[1])
    const again = resolved(await loadKernel(), sensorArm).kit
    expect(again).toEqual(kit)
  })

  test("the axis of a frame runs where it says", () => {
    expect(kit.frames[0]?.axis).toEqual({ at: [-30, 30, 0], along: [0, 0, 1] })
    const numbers = changed(sensorArm, ["along: z", "along: [0, 3, 4]"])
    const along = resolved(kernel, numbers).kit.frames[0]?.axis.along ?? [0, 0, 0]
    for (const [axis, value] of [0, 0.6, 0.8].entries()) expect(along[axis]).toBeCloseTo(value, 12)
  })

  test("the kit survives a structured clone", () => {
    expect(structuredClone(kit)).toEqual(kit)
  })
})

describe("joints and bores", () => {
  const joint = (id: string, of = kit) => {
    const found = of.joints.find((one) => one.id === id)
    if (found === undefined) throw new Error(`no joint ${id}`)
    return found
  }

  test("own holes give the place under the head, the bore that of the thread, pairwise on one axis", () => {
    const { points, pointsAt, bore } = joint("foot")
    expect(pointsAt).toBe("head")
    expect(points).toEqual([
      { at: [20, 30, 0], along: [0, 0, 1] },
      { at: [60, 30, 0], along: [0, 0, 1] },
    ])
    expect(bore.points).toEqual([
      { at: [20, 30, 6], along: [0, 0, 1] },
      { at: [60, 30, 6], along: [0, 0, 1] },
    ])
    expect(bore).toMatchObject({
      id: "sensor.foot",
      owner: "sensor",
      kind: "tapped",
      depthMm: 9,
      isThrough: false,
      count: 2,
    })
    expect(bore.thread).toEqual({ diameterMm: 4, pitchMm: 0.7 })
  })

  test("without own holes the head sits on the first clamped part, a pilot hole through the plate is entered from there", () => {
    const { points, pointsAt, bore } = joint("clips")
    expect(pointsAt).toBe("head")
    expect(points).toEqual([
      { at: [10, 10, 10], along: [0, 0, -1] },
      { at: [70, 10, 10], along: [0, 0, -1] },
    ])
    expect(bore.points).toEqual([
      { at: [10, 10, 6], along: [0, 0, -1] },
      { at: [70, 10, 6], along: [0, 0, -1] },
    ])
    expect(bore).toMatchObject({
      id: "clips",
      owner: "plate",
      kind: "pilot",
      isThrough: true,
      holeMm: 2.5,
      depthMm: undefined,
    })
    expect(bore.material).toEqual({ name: "PETG", kind: "plastic" })
  })

  test("clips from below: the same holes are entered from below", () => {
    const below = changed(sensorArm, ["at: [5, 5, 6] }", "at: [5, 5, -4] }"], ["at: [65, 5, 6] }", "at: [65, 5, -4] }"])
    const { points, bore } = joint("clips", resolved(kernel, below).kit)
    expect(points[0]).toEqual({ at: [10, 10, -4], along: [0, 0, 1] })
    expect(bore.points[0]).toEqual({ at: [10, 10, 0], along: [0, 0, 1] })
  })

  test("a nut: the holes of the clamped parts alone tell where the screws go", () => {
    const nut = changed(
      sensorArm,
      ["into: { holes: 2.5 in plate }", "nut: ISO 4032 M3, holes: 3.4 in clip"],
      ["thread-forming pan 3x10 PZ1", "ISO 4762 M3x10"],
    )
    const { kit: other, findings } = resolved(kernel, nut)
    expect(findings).toEqual([])
    const { bore, points, nutReference } = joint("clips", other)
    expect(bore).toMatchObject({ kind: "nut", owner: undefined, count: 2, thread: { diameterMm: 3, pitchMm: 0.5 } })
    expect(points.map(({ at }) => at)).toEqual([
      [10, 10, 10],
      [70, 10, 10],
    ])
    expect(nutReference).toBeGreaterThan(0)
  })

  test("a nut behind a single part: the screw is driven the way the part goes", () => {
    const nut = changed(
      sensorArm,
      ["into: { holes: 2.5 in plate }", "nut: ISO 4032 M3, holes: 3.4 in clip"],
      ["thread-forming pan 3x10 PZ1", "ISO 4762 M3x10"],
      ["    material: steel\n", "    material: steel\n    goes: up\n"],
    )
    const { points, bore } = joint("clips", resolved(kernel, nut).kit)
    expect(points[0]).toEqual({ at: [10, 10, 6], along: [0, 0, 1] })
    expect(bore.points[0]).toEqual({ at: [10, 10, 10], along: [0, 0, 1] })
  })

  test("a nut and no holes typed: those of the first part that let the screw through, when their number is right", () => {
    const nut = changed(
      sensorArm,
      ["through: clip, into: { holes: 2.5 in plate }", "through: [clip, plate], nut: ISO 4032 M3"],
      ["thread-forming pan 3x10 PZ1", "ISO 4762 M3x16"],
    )
    const { kit: other, findings } = resolved(kernel, nut)
    expect(findings).toEqual([])
    expect(joint("clips", other)).toMatchObject({
      clearanceMm: 3.4,
      pointsAt: "head",
      points: [
        { at: [10, 10, 10], along: [0, 0, -1] },
        { at: [70, 10, 10], along: [0, 0, -1] },
      ],
    })
    // The plate lies above the clips now, so the screws come from below.
    const below = changed(nut, ["at: [5, 5, 6] }", "at: [5, 5, -4] }"], ["at: [65, 5, 6] }", "at: [65, 5, -4] }"])
    expect(joint("clips", resolved(kernel, below).kit).points[1]).toEqual({ at: [70, 10, -4], along: [0, 0, 1] })
  })

  test("typed places stand as they are; those of a part's bore move with the part", () => {
    const typed = changed(
      sensorArm,
      ["holes: 4.5 in plate, bag", "holes: [{ at: [20, 30, -1], along: up }, { at: [60, 30, -1], along: up }], bag"],
      [
        "{ holes: 3.3 in sensor, thread",
        "{ holes: [{ at: [20, 30, 0], along: up }, { at: [60, 30, 0], along: up }], thread",
      ],
    )
    const { points, bore } = joint("foot", resolved(kernel, typed).kit)
    // The head sits on the plate all the same: its hole lies on the typed axis.
    expect(points[0]).toEqual({ at: [20, 30, 0], along: [0, 0, 1] })
    expect(bore.points[1]).toEqual({ at: [60, 30, 6], along: [0, 0, 1] })
  })

  test("screws of the unit sit in the bore of their name", () => {
    expect(kit.ownJoints).toMatchObject([{ id: "sensor.foot", unit: "sensor", bore: "sensor.foot", count: 2 }])
    expect(kit.ownJoints[0]?.points).toEqual(joint("foot").bore.points)
  })

  test("the same holes are found when the whole assembly is turned and moved", () => {
    const shift: (readonly [string, string])[] = [
      ["at: [0, 0, 6]", "at: [100, 50, 7]"],
      ["    plastic: PETG\n", "    plastic: PETG\n    at: [100, 50, 1]\n"],
      ["at: [5, 5, 6] }", "at: [105, 55, 7] }"],
      ["at: [65, 5, 6] }", "at: [165, 55, 7] }"],
    ]
    const { kit: moved, findings } = resolved(kernel, changed(sensorArm, ...shift))
    expect(findings).toEqual([])
    for (const id of ["foot", "clips"]) {
      for (const [index, point] of joint(id, moved).points.entries()) {
        const before = joint(id).points[index]
        const [x = 0, y = 0, z = 0] = before?.at ?? []
        expect(point.at).toEqual([x + 100, y + 50, z + 1])
        expect(point.along).toEqual(before?.along)
      }
    }
  })
})

describe("item references", () => {
  const numbers = (of: Kit): Readonly<Record<string, number | undefined>> =>
    Object.fromEntries([
      ...of.parts.map((part) => [part.id, part.itemReference]),
      ...of.joints.flatMap((joint) => [
        [joint.fastener.designation, joint.itemReference],
        [joint.washer?.designation ?? "no washer", joint.washerReference],
      ]),
      ...[...of.ties, ...of.pads, ...of.cables].map((item) => [item.id, item.itemReference]),
    ])

  test("count in the order of assembly; pieces of the unit last, cables of the unit not at all", () => {
    expect(numbers(kit)).toEqual({
      plate: 1,
      "ISO 4762 - M4 x 14": 2,
      "ISO 7089 - 4": 3,
      clip: 4,
      "thread-forming pan M3 x 10 - PZ1": 5,
      grip: 6,
      hoop: 7,
      cover: 8,
      lid: 9,
      "no washer": undefined,
      lead: undefined,
    })
  })

  test("change with the order of the steps", () => {
    const steps = sensorArm.split("\n")
    const clips = steps.findIndex((line) => line.startsWith("  clips: { do:"))
    const [line = ""] = steps.splice(clips, 1)
    steps.splice(steps.indexOf("steps:") + 1, 0, line.replace(", needs-after: { mount: the plate holds them }", ""))
    const order = numbers(resolved(kernel, steps.join("\n")).kit)
    expect(order).toMatchObject({ clip: 1, plate: 3, "ISO 4762 - M4 x 14": 4 })
  })

  test("equal designations share a number", () => {
    const same = changed(sensorArm, ["thread-forming pan 3x10 PZ1", "ISO 4762 M4x14"], ["3.4 at 5, 5", "4.5 at 5, 5"])
    const joints = resolved(kernel, same).kit.joints
    expect(joints.map(({ itemReference }) => itemReference)).toEqual([2, 2])
  })
})

describe("acts, texts, hazards, bags", () => {
  test("acts know their pieces", () => {
    const acts = kit.steps.flatMap((step) => step.acts)
    const act = (verb: string) => acts.find((one) => one.verb === verb)
    expect(act("remove")).toMatchObject({ target: "lid", instances: ["lid"] })
    expect(acts.find(({ target }) => target === "clip")?.instances).toEqual(["clip.front", "clip.rear"])
    expect(act("feed")).toMatchObject({ target: "lead.plug", through: "gate", to: undefined })
    expect(act("connect")).toMatchObject({ target: "lead.plug", to: "sensor.power" })
    expect(acts.find(({ verb, target }) => verb === "start" && target === "clips")?.count).toBe(2)
    expect(act("inspect")).toMatchObject({ target: "all", words: undefined })
  })

  test("one copy alone, a cable by its only loose end, the socket that takes it", () => {
    const short = changed(
      sensorArm,
      ["place: clip,", "place: clip.rear,"],
      [
        "feed: lead.plug through gate, connect: lead.plug to sensor.power",
        "feed: lead through gate, connect: lead.plug",
      ],
    )
    const { kit: other, findings } = resolved(kernel, short)
    expect(findings).toEqual([])
    const acts = other.steps.flatMap((step) => step.acts)
    expect(acts.find(({ target }) => target === "clip.rear")?.instances).toEqual(["clip.rear"])
    expect(acts.find(({ verb }) => verb === "feed")?.target).toBe("lead.plug")
    expect(acts.find(({ verb }) => verb === "connect")?.to).toBe("sensor.power")
  })

  test("free words of an inspection stay words", () => {
    const words = changed(sensorArm, ["inspect: all", "inspect: nothing rattles"])
    const act = resolved(kernel, words).kit.steps.at(-1)?.acts.at(-1)
    expect(act).toMatchObject({ verb: "inspect", target: "", words: "nothing rattles" })
  })

  test.each([
    ["death", "will", "danger"],
    ["death", "could", "warning"],
    ["serious", "will", "danger"],
    ["serious", "could", "warning"],
    ["moderate", "will", "caution"],
    ["minor", "could", "caution"],
    ["damage", "will", "notice"],
  ] as const)("ANSI Z535.6: %s that %s happen is %s", (harm, may, word) => {
    const text = changed(sensorArm, ["harm: serious, may: could", `harm: ${harm}, may: ${may}`])
    expect(resolved(kernel, text).kit.hazards[0]?.signalWord).toBe(word)
  })

  test("bags that nobody declared are those that things name", () => {
    const text = changed(
      sensorArm,
      ["bags: { A: { name: Bag A } }\n", ""],
      ["material: steel\n    bag: A", "material: steel\n    bag: B"],
    )
    const { kit: other, findings } = resolved(kernel, text)
    expect(findings).toEqual([])
    expect(other.bags.map(({ id, name }) => [id, name])).toEqual([
      ["A", "A"],
      ["B", "B"],
    ])
  })

  test("what the maker counted goes by the keys of the box", () => {
    const text = `${sensorArm}box: { plate: 1, "ISO 4762 M4x14": 2, hoop: 2 }\n`
    expect(resolved(kernel, text).kit.box.map(({ item, count }) => [item, count])).toEqual([
      ["part:plate", 1],
      ["fastener:ISO 4762 - M4 x 14", 2],
      ["tie:hoop", 2],
    ])
  })

  test("names come from ids when none is written", () => {
    const text = sensorArm.replaceAll("cover", "rear-cover")
    expect(resolved(kernel, text).kit.parts.find(({ id }) => id === "rear-cover")?.name).toBe("rear cover")
  })
})
