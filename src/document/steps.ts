/** Steps as the guide shows them: heading, messages, what to take, figure, text, acts, result. */
import type { Act, Step } from "../kit/types.ts"
import { type ActView, countPieces, viewAct } from "./acts.ts"
import { type Context, findFastenerItem, findItem, findName, startLine } from "./context.ts"
import { cropLifeSize, type FigureView, renderPicture, type ScaleChoice, viewStepFigure } from "./figures.ts"
import { renderMakerLine, renderMakerStatements, renderMakerText } from "./maker-text.ts"
import { fitFigure } from "./page-fit.ts"
import type { Html } from "./render.ts"
import { type MessageView, viewStepMessages } from "./safety.ts"

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
  readonly figure: FigureView | null
  readonly text: Html | null
  readonly acts: readonly ActView[]
  readonly results: readonly Html[]
  /** Width of the figure on paper, made smaller when the step would not fit on a page. */
  readonly figureMm: number
}

/** All steps of the guide; figures are counted from 2, since the finished view is figure 1. */
export function viewSteps(context: Context): readonly StepView[] {
  const { kit, words } = context
  let figureCount = 1
  const startedBefore = new Set<string>()
  return kit.steps.map((step, index) => {
    const figure = viewStepFigure(context, step.id, figureCount + 1)
    if (figure !== undefined) figureCount += 1
    const takes = viewTakes(context, step, startedBefore)
    const results = step.result === undefined ? [] : renderMakerStatements(context, step.result)
    const view = {
      id: `step-${step.id}`,
      heading: words.steps.heading(words.measures.number(index + 1)),
      title: titleOf(context, step),
      time: step.minutes === undefined ? null : words.steps.time(words.measures.duration(step.minutes)),
      messages: viewStepMessages(context, step),
      before: step.caution.map((text) => renderMakerLine(context, text)),
      takes,
      hasTakes: takes.length > 0,
      figure: figure ?? null,
      text: step.text === undefined ? null : renderMakerText(context, step.text),
      acts: step.acts.map((act) => viewAct(context, act)),
      results: results.length === 0 ? [{ html: words.steps.noResult }] : results,
    }
    return { ...view, figureMm: figure === undefined ? 0 : Math.round(figure.widthMm * fitFigure(view) * 10) / 10 }
  })
}

/** The maker's title, else the words of the first act. */
export function titleOf(context: Context, step: Step): string {
  if (step.title !== undefined) return step.title
  const [first] = step.acts
  return first === undefined ? findName(context, step.id).name : viewAct(context, first).words
}

/** `startedBefore` remembers which joints already had their screws taken, over all steps. */
function viewTakes(context: Context, step: Step, startedBefore: Set<string>): readonly TakeView[] {
  const takes: TakeView[] = []
  for (const act of step.acts) {
    for (const take of takesOfAct(context, step, act, startedBefore))
      if (!takes.some((each) => isSameTake(each, take))) takes.push(take)
  }
  return takes
}

function takesOfAct(context: Context, step: Step, act: Act, startedBefore: Set<string>): readonly TakeView[] {
  const { kit, words } = context
  const { times } = words.measures
  if (act.verb === "place") {
    const part = kit.parts.find(
      (each) => each.id === act.target || act.instances.some((id) => isOf(context, id, each.id)),
    )
    if (part === undefined || part.ownedBy !== undefined) return []
    return [takeOf(context, step, part.id, times(countPieces(context, act).count))]
  }
  if (act.verb === "start" || act.verb === "tighten") {
    if (startedBefore.has(act.target)) return []
    startedBefore.add(act.target)
    const joint = kit.joints.find((each) => each.id === act.target)
    if (joint === undefined) return []
    const count = times(act.count ?? joint.count)
    const nut = joint.bore.kind === "nut" ? joint.bore.fastener : undefined
    return [
      { fastener: joint.fastener, reference: joint.itemReference },
      { fastener: joint.washer, reference: joint.washerReference },
      { fastener: nut, reference: joint.nutReference },
    ].flatMap(({ fastener, reference }) => {
      if (fastener === undefined) return []
      const item = findFastenerItem(context, fastener.designation, joint.bag)
      return [
        {
          reference: reference === undefined ? "" : words.measures.number(reference),
          count,
          designation: fastener.designation,
          bag: sayBag(context, joint.bag ?? item?.bag),
          ...pictureOf(context, item?.item, fastener.designation, fastener.lengthMm, step.id, inStep),
        },
      ]
    })
  }
  if (act.verb === "strap" || act.verb === "stick") {
    const thing = [...kit.ties, ...kit.pads].find((each) => each.id === act.target)
    return thing === undefined ? [] : [takeOf(context, step, thing.id, times(act.count ?? thing.count))]
  }
  if (act.verb === "feed" || act.verb === "connect") {
    const cable = kit.cables.find((each) => each.ends.some((end) => end.id === act.target))
    if (cable === undefined || !cable.isSupplied || startedBefore.has(cable.id)) return []
    startedBefore.add(cable.id)
    return [takeOf(context, step, cable.id, times(1))]
  }
  return []
}

function takeOf(context: Context, step: Step, id: string, count: string): TakeView {
  const { name, reference } = findName(context, id)
  const item = findItem(context, id)
  return {
    reference: reference === undefined ? "" : context.words.measures.number(reference),
    count,
    designation: startLine(name),
    bag: sayBag(context, item?.bag),
    ...pictureOf(context, item?.item, name, undefined, step.id, inStep),
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
  return bag === undefined ? context.words.box.loose : bag
}

function isOf(context: Context, instance: string, part: string): boolean {
  return context.kit.instances.find((piece) => piece.id === instance)?.of === part
}

function isSameTake(one: TakeView, other: TakeView): boolean {
  return (
    one.designation === other.designation &&
    one.count === other.count &&
    one.bag === other.bag &&
    one.reference === other.reference
  )
}
