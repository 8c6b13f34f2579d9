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

test("words stand beside a figure that leaves room for them, else below it", () => {
  const [beside, wide] = layOutSteps(
    [step(), step({ figure: { label: "", caption: "", drawing: { widthMm: 140, heightMm: 92 } }, text: long })],
    letter,
  )
  expect(beside?.isBeside).toBe(true)
  expect(wide?.isBeside).toBe(false)
})

test("two short steps share a page, both figures at one scale that keeps counts readable (2.5 of 3.5 mm)", () => {
  const high = step({ figure: { label: "", caption: "", drawing: { widthMm: 80, heightMm: 110 } } })
  const layouts = layOutSteps([high, high, high], letter)
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

test("a higher page takes larger figures", () => {
  const tall = step({ text: { html: `<p>${"Turn it a little and look at the line. ".repeat(75)}</p>` } })
  const [onLetter] = layOutSteps([tall], letter)
  const [onA4] = layOutSteps([tall], { heightMm: 297 })
  expect(onLetter?.scale).toBeLessThan(1)
  expect(onA4?.scale).toBeGreaterThan(onLetter?.scale ?? 1)
})

test("first steps without a figure make no other figure smaller", () => {
  const layouts = layOutSteps([step({ figure: null, text: long }), step()], letter)
  expect(layouts).toEqual([
    { scale: 1, isBeside: false },
    { scale: 1, isBeside: true },
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
