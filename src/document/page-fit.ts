/**
 * Puts steps on pages: estimates how high each will be, gives figures their size, and lets short steps share a page.
 * The estimate counts letters per line on the narrow side, so that a page is rather left with some room.
 */
import type { Drawing } from "../drawing/types.ts"
import type { Html } from "./render.ts"
import type { Sheet } from "./types.ts"

/** What of a step takes room on paper. */
export type StepSize = {
  readonly heading: string
  readonly title: string
  readonly messages: readonly { readonly signal: string; readonly avoid: Html; readonly why: Html }[]
  readonly before: readonly Html[]
  readonly takes: readonly {
    readonly designation: string
    readonly bag: string
    readonly widePicture: Html | null
    readonly pictureMm: number
  }[]
  readonly figure: {
    readonly label: string
    readonly caption: string
    readonly drawing: Pick<Drawing, "widthMm" | "heightMm">
  } | null
  readonly text: Html | null
  readonly acts: readonly {
    readonly words: string
    readonly value: string | null
    readonly lastChance?: string | null
    readonly note?: string | null
    readonly plansMm?: { readonly width: number; readonly height: number } | null
  }[]
  readonly results: readonly Html[]
  readonly bags?: string | null
  readonly whyNow?: string | null
  readonly stop?: string | null
}

/** `isBeside`: the words stand beside the figure, not below it. */
export type StepLayout = { readonly scale: number; readonly isBeside: boolean }

/** Margins above and below, a reserve, and the gap above a step, which falls away at the top of a page. */
const marginsMm = 19 + 16
const reserveMm = 2
const gapMm = 5
/** The heading over all steps and the sentences under it, which stay with the first step. */
const introMm = 24
/** Width of the text, and of what stands right of the labels. */
const textMm = 170
const columnMm = 144
/** Room between a figure and words beside it, and the least width of those words. */
const besideGapMm = 6
const leastBesideMm = 60
/** Least width of the words beside the picture of a pattern of screws. */
const leastNoteMm = 40

/** 10 pt at a line height of 1.35; 12 pt for messages about injuries. */
const lineMm = 4.77
const bigLineMm = 5.72

/** Letters of the face at 10 pt that surely fit in a millimetre, and in the words of a message: bold ones, plain ones. */
const lettersPerMm = 77 / columnMm
const messageLetters = { avoid: 70, why: 79 }
const bigMessageLetters = { avoid: 54, why: 58 }

/** A figure shares a page down to this scale: its counts of 3.5 mm stay 2.5 mm high (ISO 3098-1, smallest lettering). */
const leastSharedScale = 0.72
/** A step alone on its page is not split: its figure may get as small as this. */
const leastScale = 0.45

/**
 * Gives the layout of each step: as many steps to a page as fit, their figures at the largest scale that lets them.
 * Steps without a figure at the start stand below what comes before the steps, so that they make no other one smaller.
 */
export function layOutSteps(steps: readonly StepSize[], { heightMm }: Pick<Sheet, "heightMm">): readonly StepLayout[] {
  const wholeMm = heightMm - marginsMm - reserveMm + gapMm
  const firstFigure = steps.findIndex(({ figure }) => figure !== null)
  const layouts: StepLayout[] = steps.slice(0, Math.max(0, firstFigure)).map(() => ({ scale: 1, isBeside: false }))
  while (layouts.length < steps.length) {
    const pageMm = layouts.length === 0 ? wholeMm - introMm : wholeMm
    layouts.push(...layOutPage(steps.slice(layouts.length), pageMm))
  }
  return layouts
}

/** Layouts of the steps that go on the next page, at least one. */
function layOutPage(steps: readonly StepSize[], pageMm: number): readonly StepLayout[] {
  const [first] = steps
  if (first === undefined) return []
  let page = [layOutAlone(first, pageMm)]
  while (page.length < steps.length) {
    const next = layOutTogether(steps.slice(0, page.length + 1), pageMm)
    if (next === undefined) break
    page = next
  }
  return page
}

/** Lines that an act may take beside a figure which is small below it. */
const mostLines = 4

/**
 * A step alone: downward while its figure stays readable, else beside it when that makes the figure larger and leaves
 * its acts a few lines each; one that does not fit downward gets the lowest layout, since the estimate is on the safe side.
 */
function layOutAlone(step: StepSize, pageMm: number): StepLayout {
  const [below] = findScale([step], pageMm, leastScale, layOutBelow) ?? []
  if (below !== undefined && below.scale >= leastSharedScale) return below
  const [beside] = findScale([step], pageMm, leastScale, layOutBeside) ?? []
  if (below === undefined) return beside ?? layOutLowest(step)
  const isBetter = beside !== undefined && beside.scale > below.scale && hasShortActs(step, beside.scale, mostLines)
  return isBetter ? beside : below
}

/** True when beside the figure no act takes more than so many lines. */
function hasShortActs(step: StepSize, scale: number, lines: number): boolean {
  const widthMm = besideMm(step, scale) - 9
  return step.acts.every(({ words, value }) => linesMm(words + (value ?? ""), widthMm) <= lines * lineMm)
}

function layOutLowest(step: StepSize): StepLayout {
  let lowest = layOutBelow(step, leastScale)
  for (let percent = leastScale * 100; percent <= 100; percent += 1) {
    const beside = layOutBeside(step, percent / 100)
    if (beside.isBeside && estimateMm(step, beside) < estimateMm(step, lowest)) lowest = beside
  }
  return lowest
}

/**
 * Steps that share a page: at the largest common scale at which they fit, undefined when they do not. A step reads
 * downward; words stand beside a figure only where that lets the steps share, and where each act has three lines at most.
 */
function layOutTogether(steps: readonly StepSize[], pageMm: number): StepLayout[] | undefined {
  const layOutShort = (step: StepSize, scale: number): StepLayout =>
    hasShortActs(step, scale, 3) ? layOutBeside(step, scale) : layOutBelow(step, scale)
  return (
    findScale(steps, pageMm, leastSharedScale, layOutBelow) ?? findScale(steps, pageMm, leastSharedScale, layOutShort)
  )
}

/** Layouts at the largest common scale, not under `least`, at which the steps fit on the page. */
function findScale(
  steps: readonly StepSize[],
  pageMm: number,
  least: number,
  layOut: (step: StepSize, scale: number) => StepLayout,
): StepLayout[] | undefined {
  for (let percent = 100; percent >= least * 100; percent -= 1) {
    const layouts = steps.map((step) => layOut(step, percent / 100))
    const heightMm = layouts.reduce((sum, layout, index) => sum + estimateMm(steps[index], layout), 0)
    if (heightMm <= pageMm) return layouts
  }
  return undefined
}

function layOutBelow(_: StepSize, scale: number): StepLayout {
  return { scale, isBeside: false }
}

/** Words beside the figure where they have room there and the step gets lower for it. */
function layOutBeside(step: StepSize, scale: number): StepLayout {
  const below = { scale, isBeside: false }
  const beside = { scale, isBeside: true }
  const plansMm = Math.max(0, ...step.acts.map((act) => (act.plansMm?.width ?? 0) + 9))
  if (besideMm(step, scale) < Math.max(leastBesideMm, plansMm)) return below
  return estimateMm(step, beside) < estimateMm(step, below) ? beside : below
}

/** Width left beside the figure. */
function besideMm({ figure }: StepSize, scale: number): number {
  return figure === null ? 0 : textMm - besideGapMm - figure.drawing.widthMm * scale
}

/** Height of a step in mm on paper. */
function estimateMm(step: StepSize | undefined, { scale, isBeside }: StepLayout): number {
  if (step === undefined) return 0
  const topMm = estimateTopMm(step)
  if (step.figure === null) return topMm + estimateWordsMm(step, columnMm)
  const { drawing, label, caption } = step.figure
  const widthMm = drawing.widthMm * scale
  const figureMm = drawing.heightMm * scale + linesMm(`${label} ${caption}`, isBeside ? widthMm : columnMm) + 5
  if (!isBeside) return topMm + figureMm + estimateWordsMm(step, columnMm)
  // Labels stand above what they label.
  const labelsMm = (step.text === null ? 2 : 3) * (lineMm + 1)
  return topMm + Math.max(figureMm + lineMm, labelsMm + estimateWordsMm(step, textMm - besideGapMm - widthMm))
}

/** Heading, messages and what to take. */
function estimateTopMm(step: StepSize): number {
  let mm = 9 + gapMm + (step.heading.length + step.title.length > 62 ? 6 : 0)
  for (const { signal, avoid, why } of step.messages) {
    const isBig = signal !== "notice"
    const letters = isBig ? bigMessageLetters : messageLetters
    const lines = countLines(stripTags(avoid.html), letters.avoid) + countLines(stripTags(why.html), letters.why)
    mm += lines * (isBig ? bigLineMm : lineMm) + 4.5
  }
  for (const { html } of step.before) mm += linesMm(stripTags(html), columnMm) + 2
  if (step.takes.length > 0) mm += 10
  if (step.takes.length > 0 && typeof step.bags === "string") mm += linesMm(step.bags, columnMm) + 1
  for (const take of step.takes) {
    const words = Math.max(countLines(take.designation, 30), countLines(take.bag, 12)) * lineMm + 2.6
    mm += take.widePicture === null ? Math.max(words, take.pictureMm + 2.6) : words + take.pictureMm + 2.6
  }
  return mm
}

/** Text, acts and checks in a column. */
function estimateWordsMm(step: StepSize, widthMm: number): number {
  let mm = 5
  if (step.text !== null) {
    for (const block of step.text.html.split(/<\/(?:p|li|h\d|pre)>/)) {
      const words = stripTags(block).trim()
      if (words !== "") mm += linesMm(words, widthMm) + 2.2
    }
    mm += 4
  }
  for (const line of [step.whyNow, step.stop]) if (line !== null && line !== undefined) mm += linesMm(line, widthMm) + 1
  for (const { words, value, note, plansMm, lastChance } of step.acts) {
    if (lastChance !== null && lastChance !== undefined) mm += linesMm(lastChance, widthMm - 18)
    mm += linesMm(words + (value ?? ""), widthMm - 9)
    mm += estimateNoteMm(note ?? "", plansMm ?? undefined, widthMm - 9)
  }
  for (const { html } of step.results) mm += linesMm(stripTags(html), widthMm - 11) + 3
  return mm
}

/** A sentence under an act, and pictures beside it where it keeps room for its words, else below it. */
function estimateNoteMm(
  note: string,
  plansMm: { readonly width: number; readonly height: number } | undefined,
  widthMm: number,
): number {
  if (plansMm === undefined) return note === "" ? 0 : linesMm(note, widthMm)
  const leftMm = widthMm - plansMm.width - 3
  if (note === "") return plansMm.height + 2
  return (
    (leftMm < leastNoteMm ? linesMm(note, widthMm) + plansMm.height : Math.max(linesMm(note, leftMm), plansMm.height)) +
    2
  )
}

function linesMm(text: string, widthMm: number): number {
  return countLines(text, Math.max(1, Math.floor(widthMm * lettersPerMm))) * lineMm
}

function countLines(text: string, letters: number): number {
  return Math.max(1, Math.ceil(text.length / letters))
}

function stripTags(html: string): string {
  return html.replace(/<[^>]*>/g, "").replace(/&[a-z#0-9]+;/g, "x")
}
