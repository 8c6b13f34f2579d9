import { expect, test } from "vitest"
import { loadKernel } from "../../src/solids/index.ts"
import { asMark, proveFixture } from "../checks/fixture.ts"

const kernel = await loadKernel()

function found(text: string): readonly string[] {
  return proveFixture(text, kernel).map(asMark)
}

const host = `host:
  gauge: { bores: { foot: { thread: M4, in: aluminium, depth: 9 } }, sockets: { power: } }
  mast: { tube: round 32 }
`

test("a joint may have the name of the part that it holds", () => {
  const kit = `${host}
parts:
  hood: { shape: { plate: 40 x 30 x 6, holes: [4.5 at 10, 15, 4.5 at 30, 15] }, plastic: PETG, covers: gauge.power }
joints: { hood: { screws: 2 x ISO 4762 M4x14, through: hood, into: gauge.foot, holes: 4.5 in hood, torque: 0.5 } }
steps:
  hood: { do: [place: hood, start: hood, tighten: hood, inspect: hood] }
`
  expect(found(kit)).toEqual([])
})

test("an act that may mean either is told", () => {
  const kit = `${host}
parts:
  hood: { shape: { plate: 40 x 30 x 6, holes: [4.5 at 10, 15, 4.5 at 30, 15] }, plastic: PETG }
joints: { hood: { screws: 2 x ISO 4762 M4x14, through: hood, into: gauge.foot, holes: 4.5 in hood, torque: 0.5 } }
steps:
  hood:
    do:
      - place: hood
      - start: hood
      - align: hood
      - tighten: hood
`
  expect(found(kit)).toEqual([
    "kit.yaml:13 name-ambiguous: step `hood` by `align` names `hood`, which is a part and a joint",
  ])
})

test("to place a part that has the name of a pad sticks no pad", () => {
  const kit = `${host}
parts: { grip: { shape: { plate: 40 x 30 x 6 }, plastic: PETG, holds-itself: yes } }
pads: { grip: { pads: 2 x 20 x 20 x 1, on: mast, adhesive: no } }
steps:
  pads: { do: [stick: grip] }
  grip: { do: [place: grip] }
`
  expect(found(kit)).toEqual([
    "kit.yaml:9 name-ambiguous: step `grip` by `place` names `grip`, which is a part and a pad",
  ])
})

test("what is covered by a name of two things is told", () => {
  const kit = `${host}
parts:
  hood: { shape: { plate: 40 x 30 x 6, holes: [4.5 at 10, 15, 4.5 at 30, 15] }, plastic: PETG }
  cap: { shape: { plate: 40 x 30 x 1 }, plastic: PETG, covers: hood, holds-itself: yes }
joints: { hood: { screws: 2 x ISO 4762 M4x14, through: hood, into: gauge.foot, holes: 4.5 in hood, torque: 0.5 } }
steps:
  hood: { do: [place: hood, start: hood, tighten: hood] }
  cap: { do: [place: cap] }
`
  expect(found(kit)).toEqual(["kit.yaml:7 name-ambiguous: part `cap` names `hood`, which is a part and a joint"])
})

test("of a cap and its screws with one name, what came off is set aside", () => {
  const kit = `host:
  gauge:
    bores: { cap: { thread: M4, in: aluminium, depth: 9 } }
    screwed-in: { cap: 2 x ISO 4762 M4x8 }
    pieces: { cap: { shape: { box: 20 x 20 x 5 } } }
  mast: { tube: round 32 }
steps:
  off: { do: [unscrew: gauge.cap, set-aside: gauge.cap] }
  on: { do: [start: gauge.cap, tighten: gauge.cap] }
`
  expect(found(kit)).toEqual([])
})
