import { Resvg } from "@resvg/resvg-js"
import { expect, test } from "vitest"
import { chooseView } from "../../src/drawing/choose-view.ts"
import { drawScene, fitScale, traceScene } from "../../src/drawing/draw-scene.ts"
import { renderSvg } from "../../src/drawing/index.ts"
import { lineStyles } from "../../src/drawing/line-widths.ts"
import { prepareMesh } from "../../src/drawing/prepare-mesh.ts"
import { cornerViews } from "../../src/drawing/projection.ts"
import type { StepScene, Thing, ThingRole } from "../../src/drawing/things.ts"
import type { Drawing } from "../../src/drawing/types.ts"
import { restPose } from "../../src/drawing/vector.ts"
import type { Mesh, Vec3 } from "../../src/solids/types.ts"
import { box, isometricShare, pin, usualView } from "./scenes.ts"

const room = { widthMm: 144, heightMm: 94 }

function thing(id: string, role: ThingRole, mesh: Mesh): Thing {
  return { id, role, mesh: prepareMesh(mesh), pose: restPose, moved: undefined }
}

/** A block with a plate held over it and two pins over the plate. */
function plateScene(): StepScene {
  const pins = [-12, 12].map((x, index) => thing(`screw:top.${index + 1}`, "new", pin(2.5, 55, 70, x)))
  const from: Vec3 = [0, 0, 40]
  return {
    things: [
      thing("block", "host", box([-25, -15, 0], [25, 15, 20])),
      thing("plate", "new", box([-25, -15, 36], [25, 15, 40])),
      ...pins,
    ],
    paths: [-12, 12].map((x, index) => ({ of: `screw:top.${index + 1}`, from: [x, 0, 55], to: [x, 0, 20] })),
    turns: [],
    motions: [{ of: "plate", from, direction: [0, 0, -1], lengthMm: 16, behindMm: 4 }],
    places: [],
    wanted: [
      { itemReference: 1, count: 1, of: ["plate"] },
      { itemReference: 12, count: 2, of: ["screw:top.1", "screw:top.2"] },
    ],
  }
}

function draw(scene: StepScene, before = cornerViews[1]): Drawing {
  const view = usualView()
  const scale = fitScale(scene, view, room)
  const paper = drawScene(traceScene(scene, view), scale, room, before)
  expect(paper.lacksRoom).toBe(false)
  return {
    id: "step-1",
    step: "one",
    ...paper,
    view: { name: view.name, from: view.from, up: view.up, isTurned: before !== undefined },
    scale,
    shows: { placed: [], fastened: [], context: [], exploded: true },
  }
}

const alt = { title: "Plate & pins", description: "A plate <above> a block" }

/** Pixels darker than half: ink. */
function inkOf(svg: string): { ink: Uint8Array; widthPx: number } {
  const { pixels, width: widthPx } = new Resvg(svg, { fitTo: { mode: "zoom", value: 3 }, background: "white" }).render()
  const ink = new Uint8Array(pixels.length / 4)
  for (let pixel = 0; pixel < ink.length; pixel += 1) {
    const sum = (pixels[4 * pixel] ?? 0) + (pixels[4 * pixel + 1] ?? 0) + (pixels[4 * pixel + 2] ?? 0)
    ink[pixel] = sum < 384 ? 1 : 0
  }
  return { ink, widthPx }
}

test("the picture is unchanged when every fill is removed", () => {
  const drawing = draw(plateScene())
  expect(drawing.fills.length).toBeGreaterThan(0)
  const full = inkOf(renderSvg(drawing, "a", alt)).ink
  const bare = inkOf(renderSvg({ ...drawing, fills: [] }, "a", alt)).ink
  let inkCount = 0
  let differenceCount = 0
  full.forEach((value, pixel) => {
    inkCount += value
    if (value !== bare[pixel]) differenceCount += 1
  })
  expect(inkCount).toBeGreaterThan(5000)
  // The tint only moves the grey of a line's soft edge across the threshold.
  expect(differenceCount).toBeLessThan(0.01 * inkCount)
})

test("arrowheads and dots are solid without fills", () => {
  const drawing = { ...draw(plateScene()), fills: [] }
  const { ink, widthPx } = inkOf(renderSvg(drawing, "a", alt))
  const pxPerMm = widthPx / drawing.widthMm
  const isInk = (x: number, y: number): boolean =>
    ink[Math.floor(y * pxPerMm) * widthPx + Math.floor(x * pxPerMm)] === 1
  const dots = drawing.strokes.filter(({ role }) => role === "dot")
  expect(dots.length).toBeGreaterThan(0)
  for (const { points } of dots) expect(isInk(points[0] ?? 0, points[1] ?? 0)).toBe(true)
  for (const { points } of drawing.strokes.filter(({ role, isClosed }) => role === "arrow" && isClosed)) {
    const middle = [0, 1].map((axis) => ((points[axis] ?? 0) + (points[axis + 2] ?? 0) + (points[axis + 4] ?? 0)) / 3)
    expect(isInk(middle[0] ?? 0, middle[1] ?? 0)).toBe(true)
  }
})

test("lines of a block are drawn at the drawing's scale", () => {
  const drawing = draw({ ...plateScene(), wanted: [], motions: [] }, undefined)
  // The lower front edge of the block, 50 mm long, is whole and horizontal edges slope by 30 degrees (ISO 5456-3).
  const expected = 50 * isometricShare * drawing.scale
  const found = drawing.strokes
    .filter(({ role, of }) => role === "host" && of === "block")
    .some(({ points }) => {
      for (let index = 0; index + 3 < points.length; index += 2) {
        const [ax = 0, ay = 0, bx = 0, by = 0] = points.slice(index, index + 4)
        const isSloped = Math.abs(Math.abs((by - ay) / (bx - ax)) - Math.tan(Math.PI / 6)) < 1e-3
        if (isSloped && Math.abs(Math.hypot(bx - ax, by - ay) - expected) < 0.05) return true
      }
      return false
    })
  expect(found).toBe(true)
})

test("every reference stands on its own thing, once, with its count", () => {
  const { references } = draw(plateScene())
  expect(references.map(({ itemReference, count }) => [itemReference, count])).toEqual([
    [1, 1],
    [12, 2],
  ])
  expect(references[0]?.of).toBe("plate")
  expect(references[1]?.of).toMatch(/^screw:top\.[12]$/)
})

test("a drawing stays within its room and is the same each time", () => {
  const drawing = draw(plateScene())
  expect(drawing.widthMm).toBeLessThanOrEqual(room.widthMm)
  expect(drawing.heightMm).toBeLessThanOrEqual(room.heightMm + 0.1)
  expect(renderSvg(draw(plateScene()), "a", alt)).toBe(renderSvg(drawing, "a", alt))
  expect(structuredClone(drawing)).toEqual(drawing)
})

test("SVG holds no text, no script, prefixed ids, escaped words, short numbers, lines of 0.18 mm and more", () => {
  const svg = renderSvg(draw(plateScene()), "step-1", alt)
  expect(svg).not.toMatch(/<text|<script|<style|href|NaN|Infinity|undefined|e-\d/)
  expect([...svg.matchAll(/ id="([^"]*)"/g)].every(([, id = ""]) => id.startsWith("step-1"))).toBe(true)
  expect(svg).toContain("Plate &amp; pins")
  expect(svg).toContain("A plate &lt;above&gt; a block")
  expect(svg).not.toMatch(/\d\.\d{4}/)
  for (const { widthMm } of Object.values(lineStyles)) expect(widthMm).toBeGreaterThanOrEqual(0.18)
  for (const [, width] of svg.matchAll(/stroke-width="([^"]*)"/g)) expect(Number(width)).toBeGreaterThanOrEqual(0.18)
})

test("wide lines are twice the narrow ones (ISO 128-2), within a tenth", () => {
  expect(lineStyles.new.widthMm / lineStyles.context.widthMm).toBeGreaterThan(1.8)
  expect(lineStyles.new.widthMm / lineStyles.context.widthMm).toBeLessThan(2.2)
})

test("a part behind a wall turns the view; the view stays when nothing is gained", () => {
  const wall = thing("wall", "host", box([-40, -20, -40], [40, -18, 80]))
  const part = thing("plate", "new", box([-10, 5, 0], [10, 15, 10]))
  const scene: StepScene = { things: [wall, part], paths: [], motions: [], turns: [], wanted: [], places: [] }
  expect(chooseView(scene, undefined, usualView()).view.from[1]).toBeGreaterThan(0)
  const open: StepScene = { ...scene, things: [part] }
  for (const before of cornerViews.slice(0, 4)) expect(chooseView(open, undefined, before).view.name).toBe(before.name)
  expect(chooseView(open, "top back left", undefined).view.name).toBe("back-left-top")
})
