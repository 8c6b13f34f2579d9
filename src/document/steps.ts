/** Steps as the guide shows them: heading, messages, what to take, figure, text, acts, result. */
import type { Step } from "../kit/types.ts"
import { type ActLine, viewActLines } from "./act-lines.ts"
import { viewAct } from "./acts.ts"
import { sayStop, sayWhyNow } from "./advice.ts"
import { sayBagsToOpen } from "./bags.ts"
import { type Context, nameItem } from "./context.ts"
import {
  cropLifeSize,
  draftStepFigure,
  type FigureView,
  renderFigure,
  renderPicture,
  type ScaleChoice,
} from "./figures.ts"
import { renderMakerLine, renderMakerStatements, renderMakerText } from "./maker-text.ts"
import { layOutSteps } from "./page-fit.ts"
import type { Html } from "./render.ts"
import { type MessageView, viewStepMessages } from "./safety.ts"
import { sheets } from "./sheets.ts"
import { listTaken, type Taken } from "./taken.ts"

/** One row of what to take in hand before a step. */
export type TakeView = {
  readonly reference: string
  readonly count: string
  readonly designation: string
  readonly bag: string
  /** Beside the words when it is small, else below them. */
  readonly picture: Html | null
  readonly widePicture: Html | null
  readonly pictureMm: number
}

export type StepView = {
  readonly id: string
  /** `Step 3` */
  readonly heading: string
  readonly title: string
  readonly time: string | null
  readonly messages: readonly MessageView[]
  readonly before: readonly Html[]
  readonly takes: readonly TakeView[]
  readonly hasTakes: boolean
  /** Which bag to open; at the steps that open one. */
  readonly bags: string | null
  readonly figure: FigureView | null
  readonly text: Html | null
  readonly acts: readonly ActLine[]
  readonly results: readonly Html[]
  /** Why this step cannot wait; at few steps only. */
  readonly whyNow: string | null
  /** That the work may be left here; at few steps only. */
  readonly stop: string | null
  /** On paper the words stand beside the figure. */
  readonly isBeside: boolean
}

/** All steps of the guide; figures are counted from 2, since the finished view is figure 1. */
export function viewSteps(context: Context): readonly StepView[] {
  const { kit, words, sheet } = context
  let figureCount = 1
  const takenBy = listTaken(context)
  const drafts = kit.steps.map((step, index) => {
    const taken = takenBy.get(step.id) ?? []
    const figure = draftStepFigure(context, step.id, figureCount + 1, taken)
    if (figure !== undefined) figureCount += 1
    const takes = taken.map((each) => viewTake(context, step, each))
    const results = step.result === undefined ? [] : renderMakerStatements(context, step.result)
    return {
      id: `step-${step.id}`,
      heading: words.steps.heading(words.measures.number(index + 1)),
      title: titleOf(context, step),
      time: step.minutes === undefined ? null : words.steps.time(words.measures.duration(step.minutes)),
      messages: viewStepMessages(context, step),
      before: step.caution.map((text) => renderMakerLine(context, text)),
      takes,
      hasTakes: takes.length > 0,
      bags: sayBagsToOpen(context, index) ?? null,
      figure: figure ?? null,
      text: step.text === undefined ? null : renderMakerText(context, step.text),
      acts: viewActLines(context, step),
      whyNow: sayWhyNow(context, step.id) ?? null,
      stop: sayStop(context, step.id) ?? null,
      results: results.length === 0 ? [{ html: words.steps.noResult }] : results,
    }
  })
  const layouts = layOutSteps(drafts, sheet.name === "screen" ? sheets.letter : sheet)
  return drafts.map((draft, index) => {
    const { scale, isBeside } = layouts[index] ?? { scale: 1, isBeside: false }
    const figure = draft.figure === null ? null : renderFigure(sheet, draft.figure, scale)
    return { ...draft, figure, isBeside }
  })
}

/** The maker's title, else the words of the main act: the first that is no preparation. */
export function titleOf(context: Context, step: Step): string {
  if (step.title !== undefined) return step.title
  const main = step.acts.find(({ verb }) => !besidesVerbs.has(verb)) ?? step.acts[0]
  return main === undefined ? step.id : viewAct(context, main).words
}

/** Acts that no step is about when it does something else as well. */
const besidesVerbs: ReadonlySet<string> = new Set(["clean", "wait", "inspect", "align", "set-aside", "discard", "turn"])

function viewTake(context: Context, step: Step, { item, count }: Taken): TakeView {
  const { measures } = context.words
  const { fastener } = item
  const designation = nameItem(context, item)
  return {
    reference: measures.number(item.itemReference),
    count: measures.times(count),
    designation,
    bag: sayBag(context, item.bag),
    ...pictureOf(context, item.item, designation, fastener?.lengthMm, `${step.id}-${item.bag ?? ""}`, inStep),
  }
}

/** How wide a picture beside the words may be, how much of its scale it shows, and whether only screws have one. */
export type PictureChoice = {
  readonly mostMm?: number
  readonly scale?: ScaleChoice
  readonly onlyScrews?: boolean
}

/** In a step, screws alone are pictured, since rows must be low; the list of the box has the numbered scale. */
const inStep: PictureChoice = { scale: "ticks", onlyScrews: true }

/** Widest life-size picture that has room beside the words of its row. */
const besideMm = 44

/** Life-size picture of an item of the box, if it has one. `place` keeps ids apart where it is shown twice. */
export function pictureOf(
  context: Context,
  item: string | undefined,
  designation: string,
  lengthMm: number | undefined,
  place: string,
  { mostMm = besideMm, scale = "numbered", onlyScrews = false }: PictureChoice = {},
): { readonly picture: Html | null; readonly widePicture: Html | null; readonly pictureMm: number } {
  const scaled = item === undefined ? undefined : context.drawings.items[item]
  const isScrew = item !== undefined && isScrewItem(context, item)
  if (scaled === undefined || (onlyScrews && !isScrew)) return { picture: null, widePicture: null, pictureMm: 0 }
  const drawing = cropLifeSize(scaled, scale)
  const { words, sheet } = context
  const alt = words.box.itemAlt(designation, lengthMm === undefined ? undefined : words.measures.mm(lengthMm))
  const prefix = `${place}-${drawing.id}`.replace(/[^A-Za-z0-9]+/g, "-")
  const picture = renderPicture(sheet, drawing, prefix, alt)
  const isWide = drawing.widthMm > mostMm
  return { picture: isWide ? null : picture, widePicture: isWide ? picture : null, pictureMm: drawing.heightMm }
}

function isScrewItem({ fit }: Context, item: string): boolean {
  return fit.box.some((each) => each.item === item && each.fastener?.kind === "screw")
}

/** Name of a bag in a table: its id, since that is printed on it. */
function sayBag(context: Context, bag: string | undefined): string {
  return bag === undefined ? context.words.box.looseShort : bag
}
