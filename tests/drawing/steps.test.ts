import { expect, test } from "vitest"
import { drawKit } from "../../src/drawing/index.ts"
import type { Drawing, Drawings } from "../../src/drawing/types.ts"
import type { Outcome } from "../../src/findings/types.ts"
import { computeFit } from "../../src/fit/index.ts"
import { resolveKit } from "../../src/kit/index.ts"
import { proveSequence } from "../../src/sequence/index.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { loadSpecs } from "../../src/spec/index.ts"

const kernel = await loadKernel()

/** Draws the first variant of a kit written as text. */
function drawText(text: string): Drawings {
  return drawWithFindings(text).value
}

function drawWithFindings(text: string): Outcome<Drawings> {
  const files = [{ path: "kit.yaml", bytes: new TextEncoder().encode(text) }]
  const [spec] = loadSpecs(files).value
  if (spec === undefined) throw new Error("no spec")
  const readModel = (file: string): { problem: { message: string } } => ({ problem: { message: `no ${file}` } })
  const kit = resolveKit(spec, { kernel, readModel }).value
  const fit = computeFit(kit)
  return drawKit({ kit, fit, sequence: proveSequence(kit, fit), columnMm: 144 })
}

const bench = `
kit: bench-arm
title: Arm for a gauge
supplier: { name: Example Workshop, address: 1 Example Lane, contact: hello@example.invalid }
revision: { id: A, date: 2026-05-04 }
host:
  mast: { tube: round 40, length: 400, along: z, wall: 3, material: steel }
  gauge:
    shape: { box: 40 x 40 x 30, holes: [4.2 at 10, 20, 4.2 at 30, 20] }
    at: [60, -20, 8]
    bores: { foot: { thread: M5, in: steel, depth: 10, holes: [10, 20, 0 along up, 30, 20, 0 along up] } }
parts:
  shelf:
    material: aluminium
    shape: { plate: 100 x 60 x 8, holes: [5.5 at 50, 30, 5.5 at 70, 30] }
    at: [20, -30, 0]
    bag: A
  shim: { material: rubber, copies: [{ at: [0, 200, 0] }, { at: [60, 200, 0] }], shape: { plate: 40 x 40 x 4, holes: [5 at 20, 20] }, bag: A }
  slip: { material: rubber, shape: { plate: 20 x 20 x 2 }, at: [100, -10, 8], bag: A, goes: down }
joints:
  foot: { screws: 2 x ISO 4762 M5x16, through: shelf, into: gauge.foot, bag: A }
ties:
  arm: { bands: { count: 3, width: 9, length: 300 }, holds: shelf, round: mast, at: [0, 0, 4], bag: A }
bags: { A: All }
steps:
  shims: { do: [place: shim] }
  arm: { do: [place: shelf] }
  bands: { do: [strap: arm] }
  gauge: { do: [place: gauge] }
  first: { do: [start: 1 x foot] }
  second: { do: [start: 1 x foot] }
  tight: { do: [tighten: foot] }
`

const drawings = drawText(bench)

function drawn(step: string): Drawing {
  const drawing = drawings.steps[step]
  if (drawing === undefined) throw new Error(`no drawing of ${step}`)
  return drawing
}

function idsOf(drawing: Drawing, role?: string): ReadonlySet<string | undefined> {
  return new Set(drawing.strokes.filter((stroke) => role === undefined || stroke.role === role).map(({ of }) => of))
}

test("a unit that a step places is not drawn before", () => {
  expect(idsOf(drawn("arm"))).not.toContain("gauge")
  expect(idsOf(drawn("bands"))).not.toContain("gauge")
  expect(idsOf(drawn("gauge"), "new")).toContain("gauge")
  expect(idsOf(drawn("first"), "host")).toContain("gauge")
})

test("a unit that is dressed on the table before it is placed is drawn from the start", () => {
  const dressed = bench
    .replace("  gauge: { do: [place: gauge] }\n", "")
    .replace("  tight: {", "  gauge: { do: [place: gauge] }\n  tight: {")
  expect(idsOf(drawText(dressed).steps.arm ?? drawn("arm"))).toContain("gauge")
})

test("screws that are started one by one are shown and counted one by one", () => {
  const [first, second] = [drawn("first"), drawn("second")]
  expect(first.references.map(({ count }) => count)).toEqual([1])
  expect(second.references.map(({ count }) => count)).toEqual([1])
  expect([...idsOf(first)].filter((id) => id?.startsWith("screw:"))).toEqual(["screw:foot.1"])
  expect(idsOf(second, "new")).toContain("screw:foot.2")
  expect(idsOf(second, "new")).not.toContain("screw:foot.1")
  expect(first.shows.fastened).toEqual([{ joint: "foot", count: 1 }])
})

test("screws that are only tightened are strong, numbered and turned clockwise", () => {
  const tight = drawn("tight")
  expect(tight.references.map(({ count }) => count)).toEqual([2])
  expect(tight.shows.fastened).toEqual([{ joint: "foot", count: 2 }])
  const arc = tight.strokes.find(({ role, isClosed }) => role === "arrow" && !isClosed)
  expect(arc?.of).toMatch(/^screw:foot\./)
  expect(idsOf(tight, "new")).toContain(arc?.of)
  // On paper, y downward, a way round with the clock has a positive sum of the cross products of its chords.
  const points = arc?.points ?? []
  let turn = 0
  for (let index = 0; index + 5 < points.length; index += 2) {
    const [ax = 0, ay = 0, bx = 0, by = 0, cx = 0, cy = 0] = points.slice(index, index + 6)
    turn += (bx - ax) * (cy - by) - (by - ay) * (cx - bx)
  }
  expect(points.length).toBeGreaterThan(10)
  expect(turn).toBeGreaterThan(0)
})

test("as many loops are drawn as ties are counted, also at one place", () => {
  const loops = [...idsOf(drawn("bands"), "new")].filter((id) => id?.startsWith("tie:"))
  expect(loops.sort()).toEqual(["tie:arm.1", "tie:arm.2", "tie:arm.3"])
})

test("pieces that lie alone on the table have no arrows", () => {
  expect(drawn("shims").strokes.filter(({ role }) => role === "arrow" || role === "path")).toEqual([])
})

test("arrows of equal pieces point the same way", () => {
  const onShelf = bench.replace(
    "{ at: [0, 200, 0] }, { at: [60, 200, 0] }",
    "{ at: [20, -30, 8] }, { at: [80, -10, -4] }",
  )
  const shown = drawText(
    onShelf
      .replace("  shims: { do: [place: shim] }\n", "")
      .replace("  bands:", "  shims: { do: [place: shim] }\n  bands:"),
  )
  const shafts = shown.steps.shims?.strokes.filter(({ role, isClosed }) => role === "arrow" && !isClosed) ?? []
  expect(shafts.length).toBe(2)
  const ways = shafts.map(({ points: [ax = 0, ay = 0, bx = 0, by = 0] }) => Math.atan2(by - ay, bx - ax).toFixed(3))
  expect(new Set(ways).size).toBe(1)
})

test("the finished view leaves out what lies apart from unit and frame", () => {
  const ids = idsOf(drawings.overview)
  expect(ids).toContain("shelf")
  expect(ids).not.toContain("shim.1")
})

const deep = `
kit: deep-hood
title: Hood
supplier: { name: Example Workshop, address: 1 Example Lane, contact: hello@example.invalid }
revision: { id: A, date: 2026-05-04 }
parts:
  plate: { material: aluminium, shape: { plate: 120 x 60 x 8, holes: [3.3 at 10, 30, 3.3 at 110, 30] }, bag: A }
  hood:
    plastic: PETG
    shape: { box: 120 x 60 x 85, holes: [4.5 at 10, 30, 4.5 at 110, 30, 9 at 10, 30 depth 80, 9 at 110, 30 depth 80] }
    at: [0, 0, 8]
    goes: down
    bag: A
joints:
  hood: { screws: 2 x ISO 4762 M4x12, through: hood, into: { thread: M4, holes: 3.3 in plate, depth: 8 }, bag: A }
bags: { A: All }
steps:
  plate: { do: [place: plate] }
  hood: { do: [place: hood, start: hood, tighten: hood] }
`

test("screws that sink in a deep counterbore are drawn clear of it, with their number", () => {
  const { value, findings } = drawWithFindings(deep)
  expect(findings).toEqual([])
  const screws = value.steps.hood?.references.find(({ of }) => of.startsWith("screw:hood."))
  expect(screws?.count).toBe(2)
  for (const id of ["screw:hood.1", "screw:hood.2"])
    expect(idsOf(value.steps.hood ?? drawn("arm"), "new")).toContain(id)
})

test("washers in a counterbore over nuts show in the same picture, each with its number", () => {
  const washers = deep
    .replace("120 x 60 x 85", "120 x 60 x 12")
    .replace(
      /4\.5 at 10, 30, .* depth 80\]/,
      "4.5 at 20, 20, 4.5 at 100, 20, 10 at 20, 20 depth 6, 10 at 100, 20 depth 6]",
    )
    .replace("3.3 at 10, 30, 3.3 at 110, 30", "4.5 at 20, 20, 4.5 at 100, 20")
    .replace("120 x 60 x 8", "120 x 40 x 8")
    .replace(
      "M4x12, through: hood, into: { thread: M4, holes: 3.3 in plate, depth: 8 }",
      "M4x25, washer: ISO 7089 M4, through: [hood, plate], nut: ISO 4032 M4",
    )
    .replace("  plate: { do: [place: plate] }\n", "")
    .replace("do: [place: hood", "do: [place: plate, place: hood")
  const { value, findings } = drawWithFindings(washers)
  expect(findings).toEqual([])
  const numbered = value.steps.hood?.references.map(({ of }) => of.split(".")[0]) ?? []
  expect(numbered.sort()).toEqual(["hood", "nut:hood", "plate", "screw:hood", "washer:hood"])
})

test("hidden screws are named by their joint, also when a part has its name", () => {
  // Seen from below, the screws stand behind the middle of the broad hood, which is new as well and stays solid.
  const broad = deep
    .replaceAll("120 x 60", "120 x 200")
    .replaceAll(" 10, 30", " 50, 100")
    .replaceAll(" 110, 30", " 70, 100")
    .replace("tighten: hood]", "tighten: hood], view: front-right-bottom")
  const [hidden] = drawWithFindings(broad).findings
  expect(hidden?.id).toBe("new-part-hidden")
  expect(hidden?.message).toBe("the screws of joint `hood` are hidden by other parts in the drawing of step `hood`")
  const lines = broad.split("\n")
  expect(lines[(hidden?.where.line ?? 0) - 1]).toMatch(/^ {2}hood: \{ screws/)
})

test("the finished view is seen from the side where most parts show, not from that of the last step", () => {
  const sides = `
kit: ears
title: Ears
supplier: { name: Example Workshop, address: 1 Example Lane, contact: hello@example.invalid }
revision: { id: A, date: 2026-05-04 }
host: { cabinet: { shape: { box: 200 x 100 x 100 } } }
parts:
  left: { material: steel, shape: { box: 60 x 4 x 20 }, at: [10, -4, 40], goes: back, bag: A }
  right: { material: steel, shape: { box: 60 x 4 x 20 }, at: [130, -4, 40], goes: back, bag: A }
  rear: { material: steel, shape: { box: 60 x 4 x 20 }, at: [70, 100, 40], goes: front, bag: A }
bags: { A: All }
steps:
  front: { do: [place: left, place: right] }
  rear: { do: [place: rear] }
`
  const { overview, steps } = drawText(sides)
  expect(steps.rear?.view.name).toMatch(/^back/)
  expect(overview.view.name).toMatch(/^front-.*-top$/)
})

const cradle = bench
  .replace("joints:\n", "assemblies:\n  whole: { name: Whole, of: [gauge, shelf], goes: down }\njoints:\n")
  .replace(/steps:\n[\s\S]*$/, "")

test("an assembly is joined without the frame; the step that places it shows its pieces strong, on the frame", () => {
  const { value, findings } = drawWithFindings(`${cradle}steps:
  join: { do: [place: shelf, start: foot, tighten: foot] }
  hang: { do: [place: whole] }
  bands: { do: [strap: arm] }
  rest: { do: [place: shim, place: slip] }
`)
  const { join, hang, bands } = value.steps
  expect(join?.shows.context).not.toContain("mast")
  expect(hang?.shows.context).toEqual(expect.arrayContaining(["mast"]))
  expect(hang?.shows.placed).toEqual(["whole"])
  const strong = new Set(hang?.strokes.filter(({ role }) => role === "new").map(({ of }) => of))
  expect(["gauge", "shelf"].filter((piece) => strong.has(piece))).toEqual(["gauge", "shelf"])
  // Nothing is taken from the box in this step, so nothing gets a number, and nothing travels by itself.
  expect(hang?.references).toEqual([])
  expect(hang?.shows.exploded).toBe(false)
  expect(bands?.shows.context).toEqual(expect.arrayContaining(["gauge", "mast", "shelf"]))
  expect(findings.map(({ id, subjects }) => [id, subjects])).toEqual([])
})

const roofed = `
kit: roofed-box
title: Box under a roof
supplier: { name: Example Workshop, address: 1 Example Lane, contact: hello@example.invalid }
revision: { id: A, date: 2026-05-04 }
host:
  box:
    shape: { box: 60 x 60 x 60 }
    bores: { lid: { thread: M3, in: steel, depth: 8, holes: [30, 60, 30 along front] } }
    screwed-in: { lid: { screws: 1 x ISO 4762 M3x8, into: box.lid } }
    pieces: { lid: { name: Lid, shape: { box: 40 x 3 x 40 }, at: [10, 60, 10], goes: front, covers: [] } }
    sockets: { power: { name: Power socket, takes: lead.plug, at: [30, 0, 30] } }
parts:
  roof: { material: aluminium, shape: { plate: 60 x 90 x 4 }, at: [0, -90, 56], goes: down, holds-itself: yes, bag: A }
cables:
  lead:
    name: Lead
    length: 400
    diameter: 6
    slack: 10
    ends: { plug: { size: round 11, name: Plug }, tail: fixed }
    route: [[30, 0, 30], [30, -25, 30], [30, -25, -150]]
bags: { A: All }
steps:
  roof: { do: [place: roof] }
  plug: { do: [connect: lead.plug to box.power] }
  open: { do: [unscrew: box.lid, remove: lid] }
  shut: { do: [place: lid, start: box.lid, tighten: box.lid] }
`

test("a step that plugs a cable in is seen from where the plug shows, not only the rest of the cable", () => {
  const { plug } = drawText(roofed).steps
  expect(plug?.view.name).toMatch(/^front-.*-bottom$/)
})

test("a piece of the buyer's unit is drawn without a number, since no list has it", () => {
  const { open, shut } = drawText(roofed).steps
  expect(shut?.shows.placed).toEqual(["lid"])
  expect([...(open?.references ?? []), ...(shut?.references ?? [])]).toEqual([])
})
