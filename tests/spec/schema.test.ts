import { expect, test } from "vitest"
import { parse } from "yaml"
import { kitSchema, makeSchemas, variantSchema } from "../../src/spec/index.ts"
import { change } from "./base-kit.ts"
import { findSchemaFaults } from "./json-schema.ts"

test.each([
  { name: "the kit", from: "title: Arm", to: "title: Arm", isRight: true },
  { name: "a short form", from: "length: 600", to: "length: 60 cm", isRight: true },
  { name: "yes for true", from: "copies: 2", to: "flexible: yes", isRight: true },
  { name: "a mistyped key", from: "length: 600", to: "lenght: 600", isRight: false },
  { name: "a missing title", from: "title: Arm\n", to: "", isRight: false },
  { name: "a missing `through`", from: ", through: plate", to: "", isRight: false },
  { name: "a list for a map", from: "sockets: { power: {} }", to: "sockets: [power]", isRight: false },
  { name: "a word that is not on the list", from: "torque: 0.5 }", to: "surface: wet }", isRight: false },
  { name: "an unknown act", from: "trim: clamp", to: "cut: clamp", isRight: false },
  { name: "`null` in the kit", from: "length: 600", to: "length: null", isRight: false },
  { name: "`new: true` in the kit", from: "length: 600", to: "length: 600, new: true", isRight: false },
])("the schema of the kit judges $name", ({ from, to, isRight }) => {
  expect(findSchemaFaults(kitSchema(), parse(change(from, to))).length === 0).toBe(isRight)
})

test.each([
  { file: "joints: { foot: { torque: null } }", isRight: true },
  { file: "parts: { plate: null }", isRight: true },
  { file: "parts: { shim: { new: true, shape: { plate: 40 x 20 x 2 } } }", isRight: true },
  { file: "host: { mast: { tube: round 48 } }", isRight: true },
  { file: "host: { pole: { new: true, tube: round 48 } }", isRight: true },
  { file: "variant: left\naxis: hand\ntitle: Left", isRight: true },
  { file: "axes: { hand: left }", isRight: false },
  { file: "joints: { foot: { torqe: 0.5 } }", isRight: false },
  { file: "variant: Left one", isRight: true },
])("the schema of a variant judges $file", ({ file, isRight }) => {
  const faults = findSchemaFaults(variantSchema(), parse(file))
  // Patterns of ids are checked by loading; an editor is told by the pattern.
  expect(faults.filter((one) => !one.includes("does not fit")).length === 0).toBe(isRight)
})

test("every property is described", () => {
  const bare: string[] = []
  const walk = (schema: unknown, path: string): void => {
    if (typeof schema !== "object" || schema === null) return
    for (const [key, value] of Object.entries(schema)) {
      if (key === "properties" && typeof value === "object" && value !== null) {
        for (const [name, inner] of Object.entries(value)) {
          const isDescribed =
            typeof inner === "object" &&
            inner !== null &&
            ("description" in inner || "const" in inner || "enum" in inner)
          if (!isDescribed) bare.push(`${path}/${name}`)
        }
      }
      walk(value, `${path}/${key}`)
    }
  }
  walk(kitSchema(), "kit")
  walk(variantSchema(), "variant")
  expect(bare).toEqual([])
})

test("schemas are plain data, equal in every call, and name their draft", () => {
  expect(JSON.parse(JSON.stringify(makeSchemas()))).toEqual(makeSchemas())
  expect(kitSchema()).toMatchObject({ $schema: "https://json-schema.org/draft/2020-12/schema", title: "Kit" })
})

test("equal parts are written once, so that the schemas stay small enough for an editor", () => {
  for (const schema of [kitSchema(), variantSchema()])
    expect(JSON.stringify(schema, null, 2).length).toBeLessThan(120_000)
})
