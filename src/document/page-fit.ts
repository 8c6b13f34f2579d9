/**
 * Keeps a step on one page: estimates how high everything but its figure will be, and gives the figure the rest.
 * The estimate counts characters per line on the narrow side, so that a page is rather left with some room.
 */
import type { StepView } from "./steps.ts"

/** Text height of a Letter page inside the margins (279.4 - 19 - 16), less a reserve; A4 has more. */
const pageMm = 244.4 - 3

/** 10 pt at a line height of 1.35; 12 pt for messages about injuries. */
const lineMm = 4.77
const bigLineMm = 5.72

/** Letters of the face at 10 pt that surely fit in the 144 mm column, and in the words of a message. */
const columnLetters = 77
const messageLetters = 68
const bigMessageLetters = 52

/** A figure is not made smaller than this: lines would get too thin. */
const leastScale = 0.45

/** Scale between `leastScale` and 1 at which the figure of a step lets the whole step fit on one page. */
export function fitFigure(step: Omit<StepView, "figureMm">): number {
  if (step.figure === null) return 1
  const restMm = estimateStepMm(step)
  const scale = (pageMm - restMm) / step.figure.heightMm
  return Math.min(1, Math.max(leastScale, scale))
}

/** Height of a step without its figure, in mm on paper. */
function estimateStepMm(step: Omit<StepView, "figureMm">): number {
  let mm = 11 + (step.heading.length + step.title.length > 62 ? 6 : 0)
  for (const { signal, avoid, why } of step.messages) {
    const isBig = signal !== "notice"
    const letters = isBig ? bigMessageLetters : messageLetters
    const lines = countLines(stripTags(avoid.html), letters) + countLines(stripTags(why.html), letters)
    mm += lines * (isBig ? bigLineMm : lineMm) + 4.5
  }
  for (const { html } of step.before) mm += countLines(stripTags(html), columnLetters) * lineMm + 2
  if (step.takes.length > 0) mm += 10
  for (const take of step.takes) {
    const words = Math.max(countLines(take.designation, 25), countLines(take.bag, 12)) * lineMm + 2.6
    mm += take.widePicture === null ? Math.max(words, take.pictureMm + 2.6) : words + take.pictureMm + 2.6
  }
  if (step.figure !== null) mm += countLines(step.figure.caption, columnLetters - 10) * lineMm + 7
  if (step.text !== null) {
    for (const block of step.text.html.split(/<\/(?:p|li|h\d|pre)>/)) {
      const words = stripTags(block).trim()
      if (words !== "") mm += countLines(words, columnLetters) * lineMm + 2.2
    }
    mm += 4
  }
  for (const { words, value } of step.acts) mm += countLines(words + (value ?? ""), columnLetters - 5) * lineMm
  mm += 5
  for (const { html } of step.results) mm += countLines(stripTags(html), columnLetters - 6) * lineMm + 3
  return mm
}

function countLines(text: string, letters: number): number {
  return Math.max(1, Math.ceil(text.length / letters))
}

function stripTags(html: string): string {
  return html.replace(/<[^>]*>/g, "").replace(/&[a-z#0-9]+;/g, "x")
}
