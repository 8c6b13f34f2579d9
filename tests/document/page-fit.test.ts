import { expect, test } from "vitest"
import { layOutSteps, type StepSize } from "../../src/document/page-fit.ts"

const letter = { heightMm: 279.4 }

function step(more: Partial<StepSize> = {}): StepSize {
  return {
    heading: "Step 1",
    title: "Place the arm",
    messages: [],
    before: [],
    takes: [],
    figure: { label: "Figure 2", caption: "Seen from above.", drawing: { widthMm: 80, heightMm: 88 } },
    text: null,
    acts: [{ words: "Place the arm", value: null }],
    results: [{ html: "It lies flat." }],
    ...more,
  }
}

const long = { html: `<p>${"Turn it a little and look at the line. ".repeat(50)}</p>` }

const longAct = { words: "Tighten the four screws of the arm with the hex key 3 mm to ".repeat(3), value: "1.2 N·m" }
/** Two of these are higher than a page when their words stand below the figure. */
const high = step({ text: { html: `<p>${"Turn it a little and look. ".repeat(12)}</p>` } })

test("a step alone reads downward, whatever room its figure leaves", () => {
  expect(layOutSteps([step()], letter)).toEqual([{ scale: 1, isBeside: false }])
})

test("words stand beside the figure where that lets two steps share a page", () => {
  const layouts = layOutSteps([high, high], letter)
  expect(layouts.map(({ isBeside }) => isBeside)).toEqual([true, true])
})

test("words never stand beside a wide figure, nor acts of many lines in a narrow column", () => {
  const wide = step({ figure: { label: "", caption: "", drawing: { widthMm: 140, heightMm: 92 } }, text: long })
  const wordy = { ...high, acts: [longAct] }
  for (const one of [wide, wordy]) {
    expect(layOutSteps([one, one], letter).map(({ isBeside }) => isBeside)).toEqual([false, false])
  }
})

test("two short steps share a page, both figures at one scale that keeps counts readable (2.5 of 3.5 mm)", () => {
  const lofty = step({ figure: { label: "", caption: "", drawing: { widthMm: 80, heightMm: 110 } } })
  const layouts = layOutSteps([lofty, lofty, lofty], letter)
  expect(layouts[0]?.scale).toBeLessThan(1)
  expect(layouts[2]?.scale).toBe(1)
  expect(layouts.slice(0, 2).map(({ scale }) => scale)).toEqual([layouts[0]?.scale, layouts[0]?.scale])
  for (const { scale } of layouts) {
    expect(scale).toBeLessThanOrEqual(1)
    expect(scale * 3.5).toBeGreaterThanOrEqual(2.5)
  }
})

test("a step with much to say has the page alone, and its figure keeps its size where it can", () => {
  const [before, alone, after] = layOutSteps([step(), step({ text: long }), step()], letter)
  expect([before?.scale, after?.scale]).toEqual([1, 1])
  expect(alone?.scale).toBeGreaterThan(0.72)
})

test("a step that would need a tiny figure has its words beside a readable one", () => {
  const many = Array.from({ length: 34 }, () => ({ words: "Tighten the screw", value: null }))
  const [layout] = layOutSteps([step({ acts: many })], letter)
  expect(layout?.isBeside).toBe(true)
  expect(layout?.scale).toBeGreaterThan(0.72)
})

test("a figure that would get small below the words stands beside them, also beside acts of four lines", () => {
  const words = "Tighten the four screws of the arm with the hex key 3 mm, ".repeat(3).slice(0, 150)
  const take = { designation: "Cap screw", bag: "A", widePicture: null, pictureMm: 12 }
  const full = step({
    takes: [take, take, take],
    text: { html: `<p>${"Turn it a little and look at the line. ".repeat(5)}</p>` },
    acts: Array.from({ length: 4 }, () => ({ words, value: "1.2 N·m" })),
  })
  expect(layOutSteps([full], letter)).toEqual([{ scale: 1, isBeside: true }])
})

test("a higher page takes larger figures", () => {
  const tall = step({ text: { html: `<p>${"Turn it a little and look at the line. ".repeat(55)}</p>` } })
  const [onLetter] = layOutSteps([tall], letter)
  const [onA4] = layOutSteps([tall], { heightMm: 297 })
  expect(onLetter?.scale).toBeLessThan(1)
  expect(onA4?.scale).toBeGreaterThan(onLetter?.scale ?? 1)
})

test("the heading over all steps stays with the first one and takes its room", () => {
  const full = step({ text: { html: `<p>${"Turn it a little and look at the line. ".repeat(42)}</p>` } })
  const [first, second] = layOutSteps([full, full], letter)
  expect(first?.scale).toBeLessThan(second?.scale ?? 0)
})

test("first steps without a figure make no other figure smaller", () => {
  const layouts = layOutSteps([step({ figure: null, text: long }), step()], letter)
  expect(layouts).toEqual([
    { scale: 1, isBeside: false },
    { scale: 1, isBeside: false },
  ])
})

test("no steps, no layouts; every step has one", () => {
  expect(layOutSteps([], letter)).toEqual([])
  for (const count of [1, 2, 5, 25]) {
    expect(
      layOutSteps(
        Array.from({ length: count }, () => step()),
        letter,
      ),
    ).toHaveLength(count)
    expect(
      layOutSteps(
        Array.from({ length: count }, () => step({ figure: null })),
        letter,
      ),
    ).toHaveLength(count)
  }
})
