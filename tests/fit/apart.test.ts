/** Which pieces stand clear of what the buyer has. Sizes are those of the shapes written in each kit. */
import { expect, test } from "vitest"
import { proofOf } from "./proof-of.ts"

/** A tube of 30 mm along x, and a box whose underside is so far above the axis. */
function apartAt(at: string, more = ""): readonly string[] {
  return proofOf(`
host:
  rail: { tube: round 30, length: 100, along: x }
${more}
parts:
  block: { shape: { box: 10 x 10 x 10 }, at: ${at} }
steps:
  fit: { do: [place: block] }
`).fit.apart
}

test("a piece a millimetre off the tube is apart, a nearer one is not", () => {
  // The tube reaches to z = 15.
  expect(apartAt("[0, 0, 16]")).toEqual(["block"])
  expect(apartAt("[0, 0, 15.9]")).toEqual([])
})

test("the tube goes on beyond the length that is drawn", () => {
  expect(apartAt("[500, 0, 0]")).toEqual([])
  expect(apartAt("[500, 0, 40]")).toEqual(["block"])
})

test("a unit stands in the way where it is, and not where an act puts it in its place", () => {
  const unit = (placed: boolean): readonly string[] =>
    proofOf(`
host:
  gauge: { shape: { box: 20 x 20 x 20 } }
parts:
  block: { shape: { box: 10 x 10 x 10 }, at: [0, 0, 20] }
steps:
  fit: { do: [place: block${placed ? ", place: gauge" : ""}] }
`).fit.apart
  expect(unit(false)).toEqual([])
  expect(unit(true)).toEqual(["block"])
})

test("nothing is apart from a unit without a shape, or a tube that lies askew", () => {
  expect(apartAt("[0, 0, 90]", "  gauge: {}")).toEqual([])
  expect(apartAt("[0, 90, 90]", "  strut: { tube: round 20, along: [1, 1, 0] }")).toEqual([])
})
