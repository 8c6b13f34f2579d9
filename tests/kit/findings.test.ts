import { beforeAll, describe, expect, test } from "vitest"
import { loadKernel, moveMesh, poseFrom } from "../../src/solids/index.ts"
import type { Kernel } from "../../src/solids/types.ts"
import { changed, lineOf, models, resolved, sensorArm, told } from "./kits.ts"

let kernel: Kernel
beforeAll(async () => {
  kernel = await loadKernel()
})

/** One change to the right kit gives exactly these findings, on the line where `at` begins. */
function check(changes: readonly (readonly [string, string])[], at: string, expected: readonly string[]): void {
  const text = changed(sensorArm, ...changes)
  const line = lineOf(text, at)
  expect(told(resolved(kernel, text).findings)).toEqual(expected.map((message) => `${line} ${message}`))
}

describe("a name that nothing has is one finding, at the name", () => {
  const cases: readonly (readonly [string, readonly [string, string], string])[] = [
    [
      "clamped part",
      ["through: plate, into", "through: plat, into"],
      "joint `foot` names `plat`, which nothing is called",
    ],
    ["bore", ["into: sensor.foot", "into: sensor.feet"], "joint `foot` names `sensor.feet`, which nothing is called"],
    ["holes in", ["holes: 4.5 in plate", "holes: 4.5 in plte"], "joint `foot` names `plte`, which nothing is called"],
    ["passage in", ["in: cover", "in: covr"], "passage `gate` names `covr`, which nothing is called"],
    ["via", ["via: [gate]", "via: [gat]"], "cable `lead` names `gat`, which nothing is called"],
    [
      "takes",
      ["takes: lead.plug", "takes: lead.plg"],
      "socket `sensor.power` names `lead.plg`, which nothing is called",
    ],
    [
      "covers",
      ["covers: sensor.power", "covers: sensor.powr"],
      "part `cover` names `sensor.powr`, which nothing is called",
    ],
    ["tie holds", ["holds: plate", "holds: plat"], "tie `hoop` names `plat`, which nothing is called"],
    ["tie round", ["round: mast,", "round: masst,"], "tie `hoop` names `masst`, which nothing is called"],
    ["pad on", ["on: plate", "on: plat"], "pad `grip` names `plat`, which nothing is called"],
    ["hazard at", ["at: [off]", "at: [of]"], "hazard `live` names `of`, which nothing is called"],
    ["needs-after", ["mount: the plate", "mont: the plate"], "step `clips` names `mont`, which nothing is called"],
    ["bag", ["on: plate, bag: A", "on: plate, bag: AA"], "pad `grip` names `AA`, which nothing is called"],
    ["act", ["tighten: clips]", "tighten: clip]"], "step `clips` has the act `tighten: clip`, which is a part"],
    [
      "act on a copy",
      ["place: clip,", "place: clip.back,"],
      "step `clips` has the act `place: clip.back`, which nothing is called",
    ],
    [
      "passage of an act",
      ["plug through gate", "plug through gat"],
      "step `lead` has the act `feed: lead.plug` with `gat`, which is no passage",
    ],
    [
      "socket of an act",
      ["to sensor.power]", "to sensor.pump]"],
      "step `lead` has the act `connect: lead.plug` with `sensor.pump`, which is no socket",
    ],
    [
      "unit of an act",
      ["isolate: sensor", "isolate: plate"],
      "step `off` has the act `isolate: plate`, which is a part",
    ],
  ]
  test.each(cases)("%s", (_, change, message) => {
    const [, to] = change
    // What hangs on a pad or a joint that is left out is left out without a word.
    check([change], to, [`error unknown-name: ${message}`])
  })

  test("near names are offered", () => {
    const { findings } = resolved(kernel, changed(sensorArm, ["through: plate, into", "through: plat, into"]))
    expect(findings[0]?.fix).toBe("write `plate`")
  })

  test("a reference in a text is reported inside the text", () => {
    const text = changed(sensorArm, ["[](part:plate)", "[](part:platee)"])
    const { findings } = resolved(kernel, text)
    expect(told(findings)).toEqual([
      `${lineOf(text, "[](part:platee)")} error unknown-reference: the reference \`part:platee\` names nothing that is there`,
    ])
    const line = text.split("\n")[(findings[0]?.where.line ?? 1) - 1] ?? ""
    expect(line.slice((findings[0]?.where.column ?? 1) - 1)).toMatch(/^\[?\]?\(?part:platee/)
    expect(findings[0]?.fix).toBe("write `part:plate`")
  })

  test("a reference of the wrong kind says the right one", () => {
    const { findings } = resolved(kernel, changed(sensorArm, ["[](part:plate)", "[](part:hoop)"]))
    expect(findings.map(({ fix }) => fix)).toEqual(["write `tie:hoop`"])
  })
})

describe("holes and screws", () => {
  test("more screws than holes, in the parts and in the bore: one finding with both places", () => {
    const text = changed(sensorArm, ["screws: 2 x ISO 4762 M4x14", "screws: 3 x ISO 4762 M4x14"])
    const { findings, kit } = resolved(kernel, text)
    expect(told(findings)).toEqual([
      `${lineOf(text, "screws: 3 x")} error hole-count-differs: joint \`foot\` has 3 screws, but there are 2 holes in \`plate\``,
    ])
    expect(findings[0]?.related.map(({ message }) => message)).toEqual(["2 holes in `plate`", "2 holes in `sensor`"])
    expect(findings[0]?.why).toContain("2 of 2.5 mm, 2 of 4.5 mm".replaceAll(" mm", "\u00a0mm"))
    expect(kit.joints.find(({ id }) => id === "foot")?.points).toEqual([])
  })

  test("screws of the unit that are more than its holes", () => {
    check([["foot: 2 x ISO 4762 M4x8", "foot: 4 x ISO 4762 M4x8"]], "foot: 4 x", [
      "error hole-count-differs: own screws `sensor.foot` are 4, but `sensor.foot` has 2 holes",
    ])
  })

  test("a hole missing in the unit is one finding, though old and new screws sit in it", () => {
    const text = changed(sensorArm, ["3.3 at 20, 30, 0 along up depth 10, ", ""])
    expect(told(resolved(kernel, text).findings)).toEqual([
      `${lineOf(text, "screws: 2 x ISO 4762 M4x14")} error hole-count-differs: joint \`foot\` has 2 screws, but there is 1 hole in \`sensor\``,
    ])
  })

  test("a diameter that is not there", () => {
    const text = changed(sensorArm, ["holes: 4.5 in plate, bag", "holes: 5.5 in plate, bag"])
    const { findings } = resolved(kernel, text)
    expect(told(findings)).toEqual([
      `${lineOf(text, "5.5 in plate, bag")} error hole-not-found: joint \`foot\`: \`plate\` has no round hole of 5.5 mm`,
    ])
    expect(findings[0]?.why).toBe("round holes in it: 2 of 2.5 mm, 2 of 4.5 mm".replaceAll(" mm", "\u00a0mm"))
  })

  test("0.15 mm off is taken, 0.2 mm is not", () => {
    const off = (mm: string) =>
      told(resolved(kernel, changed(sensorArm, ["holes: 4.5 in plate, bag", `holes: ${mm} in plate, bag`])).findings)
        .length
    expect([off("4.65"), off("4.35"), off("4.7"), off("4.3")]).toEqual([0, 0, 1, 1])
  })

  test("holes in a part without a shape", () => {
    check(
      [
        ["holes: 4.5 in plate, bag", "holes: 4.5 in bracket, bag"],
        ["  cover: {", "  bracket: { name: Bracket }\n  cover: {"],
      ],
      "foot: { screws: 2 x ISO 4762 M4x14",
      ["error holes-without-shape: joint `foot` looks for holes in `bracket`, which has no model and no shape"],
    )
  })

  test("a nut, no holes typed, and none that fit: a note", () => {
    const text = changed(
      sensorArm,
      ["through: clip, into: { holes: 2.5 in plate }", "through: plate, nut: ISO 4032 M3"],
      ["thread-forming pan 3x10 PZ1", "ISO 4762 M3x16"],
    )
    const { findings, kit } = resolved(kernel, text)
    expect(told(findings)).toEqual([
      `${lineOf(text, "{ screws: 2 x ISO 4762 M3x16")} note joint-without-places: joint \`clips\` does not say where its screws go, so they are not drawn`,
    ])
    expect(findings[0]?.why?.replaceAll("\u00a0", " ")).toBe(
      "`plate` has 0 round holes of 3.2 mm to 3.6 mm for 2 screws; its round holes: 2 of 2.5 mm, 2 of 4.5 mm",
    )
    expect(kit.joints.find(({ id }) => id === "clips")?.points).toEqual([])
  })

  test("a hole through two walls counts once when that makes the number right", () => {
    const fork =
      "{ box: 80 x 60 x 6, holes: [4.5 at 20, 30, 4.5 at 60, 30, 2.5 at 10, 10, 2.5 at 70, 10, 70 x 2 at 0, 30, 3 along right depth 70] }"
    const text = changed(sensorArm, [
      "{ plate: 80 x 60 x 6, corner: 5, holes: [4.5 at 20, 30, 4.5 at 60, 30, 2.5 at 10, 10, 2.5 at 70, 10] }",
      fork,
    ])
    const { findings, kit } = resolved(kernel, text)
    expect(told(findings)).toEqual([])
    expect(kit.joints[0]?.points.map(({ at }) => at)).toEqual([
      [20, 30, 0],
      [60, 30, 0],
    ])
  })
})

describe("fasteners and threads", () => {
  test("a designation that cannot be read leaves its joint out, and the acts on it, without a second finding", () => {
    const text = changed(sensorArm, ["ISO 4762 M4x14", "ISO 47620 M4x14"])
    const { findings, kit } = resolved(kernel, text)
    expect(findings.map(({ id, where }) => [id, where.line])).toEqual([
      ["unreadable-designation", lineOf(text, "ISO 47620")],
    ])
    expect(kit.joints.map(({ id }) => id)).toEqual(["clips"])
    expect(kit.steps[1]?.acts.map(({ verb }) => verb)).toEqual(["remove", "unscrew", "set-aside", "place"])
  })

  test("a washer where a screw belongs", () => {
    check([["2 x ISO 4762 M4x14", "2 x ISO 7089 M4"]], "2 x ISO 7089 M4", [
      "error wrong-kind-of-fastener: `screws` of joint `foot` names a washer, `ISO 7089 M4`; a screw belongs here",
    ])
  })

  test("a thread that does not exist", () => {
    check([["thread: M4,", "thread: M4.3,"]], "thread: M4.3", [
      "error unreadable-thread: bore `sensor.foot` has the thread `M4.3`, which is not known",
    ])
  })

  test("a bore and a nut at once", () => {
    check([["into: sensor.foot,", "into: sensor.foot, nut: ISO 4032 M4,"]], "ISO 4032 M4", [
      "error keys-exclude-each-other: joint `foot` has both `into` and `nut`",
    ])
  })

  test("a tie wider than long is told once", () => {
    check([["2 x 4.8x200", "2 x 200x4.8"]], "2 x 200x4.8", [
      "error width-above-length: tie `hoop` is 200 mm wide and 4.8 mm long; width and length are swapped",
    ])
  })

  test("a plastic that is a slip of the pen, and one that is only rare", () => {
    const withPlastic = (name: string) => changed(sensorArm, ["plastic: PETG", `plastic: ${name}`])
    expect(told(resolved(kernel, withPlastic("PCTG")).findings)).toEqual([])
    expect(told(resolved(kernel, withPlastic("PTEG")).findings)).toEqual([
      expect.stringMatching(/warning word-doubtful: `plastic` of part `\w+` is `PTEG`, which is near `PETG`/),
    ])
  })

  test("neither bore nor nut", () => {
    check([["into: { holes: 2.5 in plate }, bag", "bag"]], "{ screws: 2 x thread", [
      "error joint-without-thread: joint `clips` has neither `into` nor `nut`",
    ])
  })
})

describe("models", () => {
  const withModel = (): string =>
    changed(sensorArm, ["shape: { box: 20 x 20 x 5 }, at: [30, 20, 50]", "model: cover.stl"])

  test("a file that is not there, is cut short, is open, is inside out", () => {
    const block = kernel.make({ kind: "box", sizeMm: [20, 20, 20], holes: [] })
    const open = { positions: block.positions, triangles: block.triangles.slice(3) }
    const turned = { positions: block.positions, triangles: block.triangles.slice().reverse() }
    const of = (files: Parameters<typeof models>[0]) => {
      const { findings, kit } = resolved(kernel, withModel(), models(files))
      const mesh = kit.instances.find(({ id }) => id === "cover")?.mesh
      return [...told(findings), mesh === undefined ? "not drawn" : "drawn"]
    }
    const line = lineOf(withModel(), "model: cover.stl")
    expect(of({})).toEqual([`${line} error model-not-found: there is no model \`cover.stl\``, "not drawn"])
    expect(of({ "cover.stl": new Uint8Array(100) })[0]).toMatch(new RegExp(`^${line} error model-unreadable: `))
    expect(of({ "cover.stl": open })).toEqual([
      expect.stringMatching(
        new RegExp(`^${line} error model-not-closed: .cover.stl. is open: 3 edges have one triangle near`),
      ),
      "not drawn",
    ])
    expect(of({ "cover.stl": turned })).toEqual([
      `${line} note model-inside-out: \`cover.stl\` has 12 of 12 triangles turned inside out`,
      "drawn",
    ])
  })

  test("a model drawn in inches, and the same with its unit", () => {
    const inches = kernel.make({ kind: "box", sizeMm: [2.4, 1, 1], holes: [] })
    const { findings } = resolved(kernel, withModel(), models({ "cover.stl": inches }))
    expect(told(findings)).toEqual([
      `${lineOf(withModel(), "model: cover.stl")} warning model-unit-doubtful: \`cover.stl\` is 2.4 mm long; drawn in inch it would be 60.96 mm`,
    ])
    const text = changed(withModel(), ["model: cover.stl", "model: { file: cover.stl, unit: inch }"])
    const right = resolved(kernel, text, models({ "cover.stl": inches }))
    expect(right.findings).toEqual([])
    const key = right.kit.instances.find(({ id }) => id === "cover")?.mesh ?? ""
    expect(Math.max(...(right.kit.meshes[key]?.positions ?? []))).toBeCloseTo(60.96, 4)
  })

  test("one file of two parts is one finding", () => {
    const text = changed(
      withModel(),
      ["shape: { box: 10 x 10 x 4, holes: [3.4 at 5, 5] }", "model: cover.stl"],
      ["through: clip,", "through: [],"],
    )
    expect(resolved(kernel, text).findings.filter(({ id }) => id === "model-not-found").length).toBe(1)
  })

  test("copies without places share the solids of the model, in order from left to right", () => {
    const text = changed(sensorArm, [
      "    shape: { box: 10 x 10 x 4, holes: [3.4 at 5, 5] }\n    copies: { front: { at: [5, 5, 6] }, rear: { at: [65, 5, 6] } }",
      "    model: clips.stl\n    copies: 2",
    ])
    const clip = kernel.make({
      kind: "box",
      sizeMm: [10, 10, 4],
      holes: [{ at: [5, 5, 4], along: [0, 0, -1], diameterMm: 3.4, depthMm: 0 }],
    })
    const both = kernel.union([
      moveMesh(clip, poseFrom([65, 5, 6], [0, 0, 0])),
      moveMesh(clip, poseFrom([5, 5, 6], [0, 0, 0])),
    ])
    if (both === undefined) throw new Error("no mesh")
    const { kit, findings } = resolved(kernel, text, models({ "clips.stl": both }))
    expect(told(findings)).toEqual([])
    const low = (id: string): number =>
      Math.min(
        ...(kit.meshes[kit.instances.find((one) => one.id === id)?.mesh ?? ""]?.positions.filter(
          (_, index) => index % 3 === 0,
        ) ?? []),
      )
    expect([low("clip.1"), low("clip.2")]).toEqual([5, 65])
    expect(kit.joints.find(({ id }) => id === "clips")?.points.map(({ at }) => at)).toEqual([
      [10, 10, 10],
      [70, 10, 10],
    ])
  })

  test("copies without places and one solid: told once, one is drawn", () => {
    const text = changed(sensorArm, ["copies: { front: { at: [5, 5, 6] }, rear: { at: [65, 5, 6] } }", "copies: 2"])
    const { kit, findings } = resolved(kernel, text)
    expect(told(findings)).toEqual([
      `${lineOf(text, "copies: 2")} warning copies-without-places: part \`clip\` has 2 copies, 1 without a place; its shape has one solid`,
    ])
    expect(kit.instances.filter(({ of }) => of === "clip").map(({ mesh }) => mesh !== undefined)).toEqual([true, false])
  })

  test("a hole that takes all of its shape away", () => {
    check([["{ box: 20 x 20 x 5 }", "{ box: 20 x 20 x 5, holes: [30 x 30 at 10, 10] }"]], "{ box: 20 x 20 x 5, holes", [
      "error shape-leaves-nothing: `shape` of part `cover` leaves no solid",
    ])
  })
})

describe("shapes", () => {
  const cover = "{ box: 20 x 20 x 5 }"
  test.each([
    [
      "{ box: 20 x 20 x 5, holes: [3 at 40, 10] }",
      "3 at 40",
      "warning hole-misses-shape: part `cover`: hole 1 of 3 mm lies beside the shape",
    ],
    [
      "{ box: 20 x 20 x 5, holes: [3 at 10, 10, 5 along up depth 2] }",
      "3 at 10, 10, 5",
      "warning hole-misses-shape: part `cover`: hole 1 of 3 mm lies beside the shape",
    ],
    [
      "{ box: 20 x 20 x 5, holes: [3 at 10, 10, 4 along down depth 2] }",
      "3 at 10, 10, 4",
      "warning hole-misses-shape: part `cover`: hole 1 of 3 mm begins inside the material",
    ],
    [
      "{ cylinder: 20 x 5, bore: 25 }",
      "bore: 25",
      "error shape-impossible: part `cover`: `bore` is 25 mm wide in a cylinder of 20 mm",
    ],
    [
      "{ plate: 20 x 20 x 5, corner: 12 }",
      "corner: 12",
      "error shape-impossible: part `cover`: `corner` is 12 mm, 10 mm is the most",
    ],
    [
      "{ tube: round 20, length: 30, wall: 11 }",
      "wall: 11",
      "error shape-impossible: part `cover`: `wall` is 11 mm thick in a tube of 20 mm",
    ],
  ])("%s", (shape, at, message) => {
    const text = changed(sensorArm, [cover, shape])
    expect(told(resolved(kernel, text).findings)).toEqual([`${lineOf(text, at)} ${message}`])
  })

  test.each([
    "{ box: 20 x 20 x 5, holes: [8 at 10, 10 depth 2, 3 at 10, 10, 3 along down depth 2] }",
    "{ box: 20 x 20 x 5, holes: [6 at 20, 10] }",
    "{ plate: 20 x 20 x 5, corner: 10 }",
    "{ cylinder: 20 x 5, bore: 19 }",
    "{ saddle: 20 x 40 x 20, seat: round 32, depth: 10, holes: [4 at 10, 20, 0 along up depth 18] }",
  ])("%s is fine", (shape) => {
    expect(told(resolved(kernel, changed(sensorArm, [cover, shape])).findings)).toEqual([])
  })
})

describe("names", () => {
  test("a name of 60 words", () => {
    const long = Array.from({ length: 60 }, (_, index) => `word${index}`).join(" ")
    check([["    plastic: PETG\n", `    plastic: PETG\n    name: ${long}\n`]], "name: word0", [
      `warning name-too-long: part \`plate\` has a name of 60 words, ${long.length} letters; 60 fit a label`,
    ])
  })

  test("a part with the name of the unit", () => {
    const text = changed(sensorArm, ["  cover: {", "  sensor: { name: Sensor cap }\n  cover: {"])
    expect(told(resolved(kernel, text).findings)).toEqual([
      `${lineOf(text, "sensor: { name")} error name-taken: part \`sensor\` has the name of host \`sensor\`: \`sensor\``,
    ])
  })

  test("an item of the box that is nothing", () => {
    const text = `${sensorArm}box: { plat: 1 }\n`
    expect(told(resolved(kernel, text).findings)).toEqual([
      `${lineOf(text, "plat: 1")} error unknown-name: the box holds \`plat\`, which nothing is called`,
    ])
  })

  test("an act without its other end", () => {
    const text = changed(sensorArm, ["feed: lead.plug through gate", "feed: lead.plug"])
    expect(told(resolved(kernel, text).findings)).toEqual([
      `${lineOf(text, "feed: lead.plug")} error act-incomplete: act \`feed: lead.plug\` does not say through which passage`,
    ])
  })
})

test("five faults in different places are five findings", () => {
  const text = changed(
    sensorArm,
    ["through: plate, into", "through: plat, into"],
    ["via: [gate]", "via: [gat]"],
    ["round: mast,", "round: masst,"],
    ["tighten: clips]", "tighten: clops]"],
    ["[](part:plate)", "[](part:platee)"],
  )
  expect(
    resolved(kernel, text)
      .findings.map(({ id }) => id)
      .sort(),
  ).toEqual(["unknown-name", "unknown-name", "unknown-name", "unknown-name", "unknown-reference"])
})
