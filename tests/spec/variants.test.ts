import { expect, test } from "vitest"
import { baseKit, change } from "./base-kit.ts"
import { brief, first, load } from "./kit.ts"

const header = "kit: arm\n"

test("a kit without a variants folder gives one variant", () => {
  const { value, findings } = load(baseKit)
  expect(findings).toEqual([])
  expect(value.map((spec) => spec.variant)).toEqual([{ id: "base", title: "Base", axes: { variant: "base" } }])
})

test("`variant:` names what the kit itself stands for", () => {
  const { value } = load(change("title: Arm\n", "title: Arm\nvariant: { id: mast-32, title: Mast of 32 mm }\n"), {
    "mast-48": `${header}variant: mast-48\n`,
  })
  expect(value.map((spec) => [spec.variant.id, spec.variant.title])).toEqual([
    ["mast-32", "Mast of 32 mm"],
    ["mast-48", "Mast 48"],
  ])
})

test("variants are the product of the axes in declared order", () => {
  const axes = "title: Arm\naxes: { tube: round-32, hand: none }\n"
  const { value, findings } = load(change("title: Arm\n", axes), {
    left: `${header}variant: left\naxis: hand\n`,
    right: `${header}variant: right\naxis: hand\n`,
    "round-48": `${header}variant: round-48\naxis: tube\ntitle: Round, 48 mm\n`,
  })
  expect(findings).toEqual([])
  expect(value.map((spec) => spec.variant.id)).toEqual([
    "round-32+left",
    "round-32+right",
    "round-48+left",
    "round-48+right",
  ])
  expect(value[3]?.variant).toEqual({
    id: "round-48+right",
    title: "Round, 48 mm, Right",
    axes: { tube: "round-48", hand: "right" },
  })
})

/** What a variant file changes, and what the spec then holds. */
test.each([
  { name: "a single value replaces", file: "joints: { foot: { torque: 0.7 } }", get: "torque", gives: 0.7 },
  { name: "`null` removes", file: "joints: { foot: { torque: null } }", get: "torque", gives: undefined },
  {
    name: "a short form replaces the whole",
    file: "joints: { foot: { screws: 3 x ISO 4762 M4x16 } }",
    get: "screws",
    gives: [3, "ISO 4762 M4x16"],
  },
  {
    name: "a long form changes one part of a short one",
    file: "joints: { foot: { screws: { of: ISO 4762 M4x16 } } }",
    get: "screws",
    gives: [2, "ISO 4762 M4x16"],
  },
  {
    name: "a list replaces",
    file: "joints: { foot: { through: [hood, plate] } }",
    get: "through",
    gives: ["hood", "plate"],
  },
])("$name", ({ file, get, gives }) => {
  const { value, findings } = load(baseKit, { other: `${header}${file}\n` })
  expect(brief(findings)).toEqual([])
  const joint = value[1]?.joints[0]
  const found =
    get === "torque"
      ? joint?.torqueNm
      : get === "through"
        ? joint?.through
        : [joint?.screws.count, joint?.screws.fastener.written]
  expect(found).toEqual(gives)
  expect(value[0]).toEqual(load(baseKit).value[0])
})

test("a mesh pushes out the kit's shape, a width the kit's diameter, a square tube the round one", () => {
  const kit = change("host:\n", "fits: { tube: round, diameter: 31.5 to 32.5 }\nhost:\n")
  const { value, findings } = load(kit, {
    square: `${header}fits: { tube: square, width: 39.5 to 40.5 }\nhost: { mast: { tube: square 40 } }\nparts: { plate: { model: plate-40.stl } }\n`,
  })
  expect(brief(findings)).toEqual([])
  const spec = value[1]
  expect(spec?.fits).toMatchObject({ tube: "square", tubeMm: { min: 39.5, max: 40.5 } })
  expect(spec?.hosts[1]).toMatchObject({ kind: "frame", profile: { kind: "square", widthMm: 40, heightMm: 40 } })
  expect(spec?.parts[0]?.body).toMatchObject({ kind: "model", file: "plate-40.stl" })
})

test("a unit's mesh pushes out its shape, which `null` would otherwise have to remove", () => {
  const { value, findings } = load(baseKit, { new: `${header}host: { gauge: { model: gauge-2.stl } }\n` })
  expect(brief(findings)).toEqual([])
  expect(value[1]?.hosts[0]).toMatchObject({ body: { kind: "model", file: "gauge-2.stl" } })
})

test("a frame keeps its kind when a variant changes only its length", () => {
  const { value, findings } = load(baseKit, { long: `${header}host: { mast: { length: 500 } }\n` })
  expect(brief(findings)).toEqual([])
  expect(value[1]?.hosts[1]).toMatchObject({ kind: "frame", lengthMm: 500, profile: { kind: "round", diameterMm: 32 } })
})

test("places point into the file that wrote the value", () => {
  const { value } = load(baseKit, { other: `${header}joints:\n  foot:\n    torque: 0.7\n` })
  const [base, other] = value
  expect(base?.places["joints/foot/torque"]).toMatchObject({ file: "kit.yaml", line: 19, column: 81 })
  expect(other?.places["joints/foot/torque"]).toMatchObject({ file: "variants/other.yaml", line: 4, column: 13 })
  expect(other?.places["joints/foot/screws/count"]).toMatchObject({
    file: "kit.yaml",
    line: 19,
    column: 19,
    endColumn: 20,
  })
  expect(other?.places["joints/foot/screws/of"]).toMatchObject({
    file: "kit.yaml",
    line: 19,
    column: 23,
    endColumn: 37,
  })
})

const washer = "  spacer: { new: true, shape: { box: 10 x 10 x 5 } }\n"

test.each([
  {
    name: "an id that the kit lacks needs `new: true`",
    file: "parts:\n  plaet: { mass: 0.1 kg }\n",
    told: ["3:3 unknown-id"],
    says: /part `plaet` is unknown to the kit.*write `plate`/s,
  },
  { name: "`new: true` brings it", file: `parts:\n${washer}`, told: [] },
  {
    name: "`new: true` for an id that is there",
    file: "parts:\n  plate: { new: true, mass: 0.1 kg }\n",
    told: ["3:3 id-not-new"],
  },
  {
    name: "`null` for an id that the kit lacks",
    file: "parts:\n  hod: null\n",
    told: ["3:3 unknown-id"],
    says: /part `hod` is to be removed.*write `hood`/s,
  },
  {
    name: "an empty value removes nothing",
    file: "joints:\n  foot:\n    torque:\n",
    told: ["4:12 value-missing"],
    says: /or `null` to remove/,
  },
  {
    name: "a fault in a variant points into it",
    file: "joints:\n  foot:\n    torque: 5 kg\n",
    told: ["4:13 wrong-unit"],
  },
  { name: "a mistyped key in a variant", file: "joints:\n  foot:\n    torqe: 0.5\n", told: ["4:5 unknown-key"] },
  { name: "another kit", file: "", kit: "kit: leg\n", told: ["1:6 variant-of-other-kit"] },
  { name: "an axis that the kit lacks", file: "axis: tubes\n", told: ["2:7 unknown-axis"] },
  {
    name: "a step before one that is not there",
    file: "steps:\n  x: { new: true, place-before: plaet }\n",
    told: ["3:33 unknown-step"],
    says: /write `plate`/,
  },
])("$name", ({ file, told, says, kit = header }) => {
  const { findings } = load(baseKit, { other: kit + file })
  expect(brief(findings)).toEqual(told.map((line) => `variants/other.yaml:${line}`))
  if (says !== undefined) expect(findings.map((one) => `${one.message}\n${one.fix}`).join()).toMatch(says)
})

test("two files of one name are told", () => {
  const { findings, value } = load(baseKit, {
    a: `${header}variant: mast-48\n`,
    b: `${header}variant: mast-48\n`,
    c: `${header}variant: base\n`,
  })
  expect(brief(findings)).toEqual(["variants/b.yaml:2:10 duplicate-variant", "variants/c.yaml:2:10 duplicate-variant"])
  expect(value.map((spec) => spec.variant.id)).toEqual(["base", "mast-48"])
})

const twoAxes = change("title: Arm\n", "title: Arm\naxes: { tube: round-32, hand: right }\n")

test.each([
  {
    name: "two axes that change one value",
    tube: "joints: { foot: { torque: 0.6 } }",
    hand: "joints: { foot: { torque: 0.7 } }",
    told: ["variants/left.yaml:4:19 axes-collide"],
  },
  {
    name: "two axes that change one short form",
    tube: "ties: { clamp: { ties: 4 x 4.8x370 } }",
    hand: "ties: { clamp: { ties: 2 x 4.8x300 } }",
    told: ["variants/left.yaml:4:18 axes-collide"],
  },
  {
    name: "one axis removes what the other changes",
    tube: "joints: { foot: null }",
    hand: "joints: { foot: { torque: 0.7 } }",
    told: ["variants/left.yaml:4:11 axes-collide"],
  },
  {
    name: "one axis changes what the other removes",
    tube: "joints: { foot: { torque: 0.7 } }",
    hand: "joints: { foot: null }",
    told: ["variants/left.yaml:4:11 axes-collide"],
  },
  {
    name: "one axis writes a mesh and the other a shape",
    tube: "parts: { hood: { model: hood.stl } }",
    hand: "parts: { hood: { shape: { box: 5 x 5 x 5 } } }",
    told: ["variants/left.yaml:4:18 axes-collide"],
  },
  {
    name: "two axes that change neighbours",
    tube: "joints: { foot: { torque: 0.6 } }",
    hand: "joints: { foot: { spare: 1 } }",
    told: [],
  },
])("$name", ({ tube, hand, told }) => {
  const { findings } = load(twoAxes, {
    left: `kit: arm\nvariant: left\naxis: hand\n${hand}\n`,
    "round-48": `kit: arm\nvariant: round-48\naxis: tube\n${tube}\n`,
  })
  expect(brief(findings)).toEqual(told)
  for (const one of findings) expect(one.variants).toEqual(["round-48+left"])
})

test("what a variant file writes inside a map of the kit has its place there, the rest stays where it was", () => {
  const kit = change("into: gauge.foot", "into: { holes: 2.7 in hood, depth: 11 }")
  const { value, findings } = load(kit, { other: `${header}joints: { foot: { into: { holes: 2.5 in hood } } }\n` })
  expect(brief(findings)).toEqual([])
  const file = (path: string) => value[1]?.places[path]?.file
  expect(file("joints/foot/into/holes")).toBe("variants/other.yaml")
  expect(file("joints/foot/into/depth")).toBe("kit.yaml")
  expect(file("joints/foot/into")).toBe("kit.yaml")
})

test("new steps stand where the variant puts them", () => {
  const { value, findings } = load(baseKit, {
    other: `${header}steps:\n  a: { new: true, place-after: plate }\n  b: { new: true, place-after: plate }\n  c: { new: true, place-before: lead }\n  d: { new: true }\n  mast: { place-before: plate }\n`,
  })
  expect(brief(findings)).toEqual([])
  expect(value[1]?.steps.map((step) => step.id)).toEqual(["mast", "plate", "a", "b", "c", "lead", "d"])
})

test("a removed step is gone and the others keep their order", () => {
  const { value } = load(baseKit, { other: `${header}steps: { mast: null }\n` })
  expect(value[1]?.steps.map((step) => step.id)).toEqual(["plate", "lead"])
})

test("findings in the kit are told once for all variants", () => {
  const { findings } = load(change("in: hood, ", ""), { other: header })
  expect(brief(findings)).toEqual(["kit.yaml:17:3 missing-key"])
  expect(findings[0]?.variants).toEqual(["base", "other"])
})

test("axes that give too many variants are told instead of built", () => {
  const axes = Array.from({ length: 9 }, (_, index) => `a${index}`)
  const kit = change("title: Arm\n", `title: Arm\naxes: { ${axes.map((axis) => `${axis}: own`).join(", ")} }\n`)
  const files = Object.fromEntries(axes.map((axis) => [`${axis}-b`, `kit: arm\nvariant: ${axis}-b\naxis: ${axis}\n`]))
  expect(brief(load(kit, files).findings)).toEqual(["kit.yaml:3:9 too-many-variants"])
})

test("specs are plain data", () => {
  const spec = first(load(baseKit).value)
  expect(structuredClone(spec)).toEqual(spec)
})
