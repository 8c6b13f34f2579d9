/** What `clamps` of an opening may say, and what `open` and `close` act on. */
import { expect, test } from "vitest"
import { loadKernel } from "../../src/solids/index.ts"
import { proveFixture } from "../checks/fixture.ts"
import { proofOf } from "../fit/proof-of.ts"

const kernel = await loadKernel()

/** A lead through a gland with these words. */
function kitWith(gland: string, acts = "feed: lead.plug through gland", variant = ""): string {
  return `
host:
  gauge: { sockets: { power: {} } }
parts:
  wall: { plastic: PETG, holds-itself: yes }
cables:
  lead: { ends: { plug: round 7, tail: round 4 }, via: [gland] }
passages:
  gland: { in: wall, opening: round 8, ${gland} }
steps:
  wall: { do: [place: wall] }
  lead: { do: [${acts}] }
${variant}`
}

const [least, most] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]

test.each([
  ["clamps: yes", { cableMm: undefined }],
  ["clamps: 4 to 6.5", { cableMm: { min: 4, max: 6.5 } }],
  ["clamps: 4 mm to 0.25 in", { cableMm: { min: 4, max: 6.35 } }],
  ["clamps: { min: 4, max: 6.5 }", { cableMm: { min: 4, max: 6.5 } }],
  ["clamps: up to 6.5", { cableMm: { min: least, max: 6.5 } }],
  ["clamps: at least 4", { cableMm: { min: 4, max: most } }],
  ["clamps: 5", { cableMm: { min: 5, max: 5 } }],
  ["clamps: no", undefined],
  ["closed: yes", undefined],
])("%s", (written, clamps) => expect(proofOf(kitWith(written)).kit.passages[0]?.clamps).toEqual(clamps))

test("a variant changes it, and null takes it away", () => {
  const text = kitWith("clamps: yes", undefined, "--- variants/wide.yaml\npassages: { gland: { clamps: 5 to 9 } }\n")
  const taken = kitWith("clamps: yes", undefined, "--- variants/none.yaml\npassages: { gland: { clamps: null } }\n")
  const clampsOf = (fixture: string): readonly string[] =>
    proveFixture(fixture, kernel).flatMap(({ message, variants }) =>
      message.includes("not tightened") ? variants : [],
    )
  expect(clampsOf(text)).toEqual(["base", "wide"])
  expect(clampsOf(taken)).toEqual(["base"])
})

test.each([
  ["clamps: 6.5 to 4", "range-reversed"],
  ["clamps: tight", "not-a-number"],
])("%s is told", (written, id) => expect(proveFixture(kitWith(written), kernel).map((one) => one.id)).toContain(id))

test("only a gland is closed or opened", () => {
  const text = kitWith("closed: yes", "feed: lead.plug through gland, close: gland")
  expect(proveFixture(text, kernel).find(({ id }) => id === "unknown-name")).toMatchObject({
    message: "step `lead` has the act `close: gland`, which is a passage",
    fix: "write `clamps: yes` at passage `gland` when it is a gland",
  })
})
