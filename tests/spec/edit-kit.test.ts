import { expect, test } from "vitest"
import { moveSteps } from "../../src/spec/edit/place-words.ts"
import { reorderKit } from "../../src/spec/edit/reorder-kit.ts"
import { loadSpecs } from "../../src/spec/index.ts"
import { baseKit } from "./base-kit.ts"
import { file } from "./kit.ts"

/** Files by path, after the steps were put into an order; or where and why not. */
function reorder(variants: Readonly<Record<string, string>>, order: readonly string[]) {
  const files = [
    { path: "kit.yaml", text: baseKit },
    ...Object.entries(variants).map(([name, text]) => ({ path: `variants/${name}.yaml`, text })),
  ]
  const edit = reorderKit(files, order)
  if ("refusal" in edit) {
    const { where, message, fix } = edit.refusal
    return `${where.file}:${where.line}:${where.column} ${message} | ${fix}`
  }
  const now = files.map((one) => edit.changed.find(({ path }) => path === one.path) ?? one)
  const specs = loadSpecs(now.map(({ path, text }) => file(path, text))).value
  return {
    orders: Object.fromEntries(specs.map(({ variant, steps }) => [variant.id, steps.map(({ id }) => id).join(" ")])),
    changed: Object.fromEntries(edit.changed.map(({ path, text }) => [path, text])),
  }
}

const strips = `kit: arm
variant: wide
steps: # of this tube only
  strips: { new: true, place-before: mast, do: [wait: 1 min] } # before the ties
`

test("steps of kit.yaml move there; a variant's step keeps its line while its neighbour is the same", () => {
  const done = reorder({ wide: strips }, ["lead", "plate", "strips", "mast"])
  expect(done).toMatchObject({ orders: { base: "lead plate mast", wide: "lead plate strips mast" } })
  expect(Object.keys(typeof done === "string" ? {} : done.changed)).toEqual(["kit.yaml"])
})

test("a variant's step that must move gets another neighbour, and the rest of its file stays", () => {
  expect(reorder({ wide: strips }, ["plate", "mast", "strips", "lead"])).toEqual({
    orders: { base: "plate mast lead", wide: "plate mast strips lead" },
    changed: { "variants/wide.yaml": strips.replace("place-before: mast", "place-before: lead") },
  })
})

test("a word in quotes stays in quotes, with CR LF and several words on one line", () => {
  const text = `variant: wide\r\nsteps: { a: { new: true, place-after: 'plate', do: [wait: 1] }, b: { new: true, place-after: mast, do: [wait: 2] } }\r\n`
  expect(reorder({ wide: text }, ["plate", "mast", "a", "lead", "b"])).toMatchObject({
    orders: { wide: "plate mast a lead b" },
    changed: { "variants/wide.yaml": text.replace("'plate'", "'mast'").replace("after: mast", "after: lead") },
  })
})

test("steps of one file that stand side by side keep one neighbour", () => {
  const text = `variant: wide\nsteps:\n  a: { new: true, place-after: plate, do: [wait: 1] }\n  b: { new: true, place-after: plate, do: [wait: 2] }\n`
  expect(reorder({ wide: text }, ["plate", "mast", "a", "b", "lead"])).toMatchObject({
    orders: { wide: "plate mast a b lead" },
    changed: { "variants/wide.yaml": text.replaceAll("place-after: plate", "place-after: mast") },
  })
})

test.each([
  [
    "a step that no line puts anywhere",
    { wide: "variant: wide\nsteps:\n  strips: { new: true, do: [wait: 1] }\n" },
    ["plate", "strips", "mast", "lead"],
    "variants/wide.yaml:3:3 step `strips` of variant `wide` would not come to stand after step `plate` | in step `strips`, write `place-after: plate` by hand",
  ],
  [
    "a step that would have no neighbour on its side",
    { wide: strips },
    ["plate", "mast", "lead", "strips"],
    "variants/wide.yaml:4:38 step `strips` would stand before no other step | in step `strips`, write `place-after` in place of `place-before: mast` by hand",
  ],
  [
    "an alias for the neighbour",
    { wide: "x: &m mast\nvariant: wide\nsteps:\n  strips: { new: true, place-before: *m, do: [wait: 1] }\n" },
    ["plate", "mast", "strips", "lead"],
    /^variants\/wide\.yaml:4:3 step `strips` of variant `wide` would not come to stand after step `mast`/,
  ],
])(
  "%s is refused, with the line to change by hand",
  (_, variants: Readonly<Record<string, string>>, order, expected) => {
    const told = reorder(variants, order)
    if (typeof expected === "string") expect(told).toBe(expected)
    else expect(told).toMatch(expected)
  },
)

test("a neighbour that differs between the variants of a file is refused", () => {
  const axes = "axes: { tube: { value: round }, hand: { value: right } }\n"
  const kit = { path: "kit.yaml", text: `${axes}${baseKit}` }
  const wide = { path: "variants/wide.yaml", text: `axis: tube\n${strips}` }
  const left = {
    path: "variants/left.yaml",
    text: "kit: arm\nvariant: left\naxis: hand\nsteps:\n  mirror: { new: true, place-after: mast, do: [wait: 1 min] }\n",
  }
  const edit = reorderKit([kit, wide, left], ["plate", "mast", "strips", "mirror", "lead"])
  expect("refusal" in edit && `${edit.refusal.where.file}:${edit.refusal.where.line} ${edit.refusal.message}`).toBe(
    "variants/wide.yaml:5 step `strips` would have to stand before `lead` and `mirror`, by variant",
  )
})

test("a step of kit.yaml that every variant leaves out stays behind the one it follows", () => {
  expect(reorder({}, ["lead", "plate"])).toMatchObject({ orders: { base: "lead plate mast" } })
})

test("a step without such a line, or with two, is refused", () => {
  const text = "steps:\n  a: { place-before: b, place-after: c }\n  d: {}\n"
  for (const [step, line] of [
    ["a", 2],
    ["d", 1],
  ] as const) {
    const edit = moveSteps(text, new Map([[step, "x"]]), "variants/wide.yaml")
    expect("refusal" in edit && edit.refusal.where.line).toBe(line)
  }
})
