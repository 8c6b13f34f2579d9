import { expect, test } from "vitest"
import { loadKernel } from "../../src/solids/index.ts"
import { proveFixture } from "../checks/fixture.ts"

const kernel = await loadKernel()

const kit = `host:
  gauge:
    powered: yes
    bores: { foot: { thread: M4, in: aluminium, depth: 12 } }
    screwed-in: { foot: 2 x ISO 4762 M4x8 }
    sockets: { power: {} }
  mast: { tube: round 32 }
parts:
  plate: { plastic: PETG }
  saddle: { plastic: PETG }
  hood: { plastic: PETG, covers: gauge.power, holds-itself: yes }
joints:
  foot: { screws: 2 x ISO 4762 M4x14, through: plate, into: gauge.foot, grip: 6, torque: 0.5 }
cables:
  lead: { ends: { plug: 12 x 9, inner: fixed }, via: [hood-hole] }
passages:
  hood-hole: { in: hood, opening: 14 x 10, closed: yes }
ties:
  clamp: { ties: 2 x 4.8x300, holds: saddle, round: mast }
pads:
  grip: { pads: 1 x 60 x 20 x 1.5, on: saddle, adhesive: no }
steps:
  off: { do: [isolate: gauge, verify: gauge] }
  plate: { do: [unscrew: gauge.foot, set-aside: gauge.foot, place: plate, start: foot, tighten: foot] }
  pad: { do: [stick: grip] }
  mast: { do: [place: saddle, strap: clamp] }
  lead: { do: [feed: lead.plug through hood-hole, connect: lead.plug to gauge.power] }
  hood: { do: [place: hood] }
  on: { do: [restore: gauge, inspect: all] }
`

/** Warnings and errors of the kit with one stretch of its text changed. */
function judge(from: string, to: string): readonly string[] {
  expect(kit).toContain(from)
  return proveFixture(kit.replace(from, to), kernel)
    .filter(({ severity }) => severity !== "note")
    .map(({ id }) => id)
}

test("the kit itself is clean", () => expect(judge("plate", "plate")).toEqual([]))

test.each([
  ["isolate: gauge", "isolate: gaug"],
  ["unscrew: gauge.foot", "unscrew: gauge.fot"],
  ["set-aside: gauge.foot", "set-aside: gauge.fot"],
  ["place: plate", "place: plat"],
  ["start: foot", "start: fot"],
  ["tighten: foot", "tighten: fot"],
  ["place: saddle", "place: sadle"],
  ["strap: clamp", "strap: clmp"],
  ["stick: grip", "stick: gripp"],
  ["lead.plug through hood-hole,", "lead.plug through hood-hol,"],
  ["to gauge.power", "to gauge.powr"],
  ["place: hood", "place: hod"],
  ["restore: gauge", "restore: gaug"],
])("a slip in the name of an act is told once: %s, written as %s", (from, to) =>
  expect(judge(from, to)).toEqual(["unknown-name"]),
)

test("a slip in a name hides no other fault of the same kind", () => {
  const text = kit
    .replace("start: foot", "start: fot")
    .replace("ties:\n", "ties:\n  belt: { ties: 1 x 4.8x300, holds: plate }\n")
  const ids = proveFixture(text, kernel)
    .filter(({ severity }) => severity === "error")
    .map(({ id }) => id)
  expect([...ids].sort()).toEqual(["item-never-used", "unknown-name"])
})

test("a screw that cannot be read is told once", () =>
  expect(judge("ISO 4762 M4x14", "ISO 476 M4x14")).toEqual(["unreadable-designation"]))
