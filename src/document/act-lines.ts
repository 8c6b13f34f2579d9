/** The acts of a step as its lines: with the order of tightening, and screws that are changed one at a time told once. */
import type { Drawing } from "../drawing/types.ts"
import type { TighteningFace, TighteningSequence } from "../fit/types.ts"
import type { Joint } from "../kit/joint-types.ts"
import type { Act, Step } from "../kit/types.ts"
import { type ActView, viewAct } from "./acts.ts"
import { findLastChance } from "./advice.ts"
import { type Context, findJointFit, sayTorque } from "./context.ts"
import { renderPicture, shorten } from "./figures.ts"
import type { Html } from "./render.ts"
import type { PatternPlace } from "./words/tightening.ts"

/** An act with a sentence and small pictures below it. */
export type ActLine = ActView & {
  /** Checks to make before it, since they cannot be made afterwards. */
  readonly lastChance: string | null
  readonly note: string | null
  readonly plans: readonly Html[]
  /** Room that the pictures take on paper, side by side. */
  readonly plansMm: { readonly width: number; readonly height: number } | null
}

/** Runs of acts this long are looked for: take out, set aside, start, tighten. */
const longestRun = 4

/** The lines of one step. */
export function viewActLines(context: Context, step: Step): readonly ActLine[] {
  const lines: ActLine[] = []
  const chance = findLastChance(context, step.id)
  let index = 0
  while (index < step.acts.length) {
    const run = findRun(context, step.acts, index)
    const acts = step.acts.slice(index, index + (run?.length ?? 1))
    for (const [place, act] of acts.entries()) {
      const again =
        run === undefined
          ? [act]
          : step.acts.filter((_, at) => isInRun(run, at - index) && (at - index) % run.length === place)
      const isLastChance = again.some(({ path }) => path === chance?.act)
      const line = { ...viewLine(context, act), lastChance: isLastChance ? (chance?.line ?? null) : null }
      const isLast = run !== undefined && place === acts.length - 1
      lines.push(isLast ? { ...line, note: context.words.tightening.oneByOne(run.times) } : line)
    }
    index += run === undefined ? 1 : run.length * run.times
  }
  return lines
}

type Run = { readonly length: number; readonly times: number }

/** Equal acts on one screw each that follow each other again and again, and begin by taking an own screw of a unit out. */
function findRun({ kit }: Context, acts: readonly Act[], from: number): Run | undefined {
  const first = acts[from]
  const isOwn = kit.ownJoints.some(({ id }) => id === first?.target)
  if (first?.verb !== "unscrew" || first.count !== 1 || !isOwn) return undefined
  for (let length = 2; length <= longestRun; length += 1) {
    let times = 1
    const repeats = (): boolean =>
      Array.from({ length }, (_, place) => place).every((place) =>
        isSame(acts[from + place], acts[from + times * length + place]),
      )
    while (repeats()) times += 1
    if (times > 1) return { length, times }
  }
  return undefined
}

function isInRun({ length, times }: Run, offset: number): boolean {
  return offset >= 0 && offset < length * times
}

function isSame(one: Act | undefined, other: Act | undefined): boolean {
  if (one === undefined || other === undefined) return false
  return one.verb === other.verb && one.target === other.target && one.count === 1 && other.count === 1
}

function viewLine(context: Context, act: Act): Omit<ActLine, "lastChance"> {
  const view = viewAct(context, act)
  const none = { ...view, note: null, plans: [], plansMm: null }
  const joint = act.verb === "tighten" ? findPattern(context, act.target) : undefined
  const tightening = joint?.tightening
  // Where the maker tightens a joint in several goes, those are the order.
  const acts = context.kit.steps.flatMap((step) => step.acts).filter((each) => isTightening(each, act.target))
  if (joint === undefined || tightening === undefined || acts.length > 1) return none
  if (act.count !== undefined && act.count < joint.count) return none
  const largest = tightening.faces.reduce<TighteningFace | undefined>(
    (best, face) => (best === undefined || face.order.length > best.order.length ? face : best),
    undefined,
  )
  const drawings = context.drawings.plans[joint.id] ?? []
  const torque = sayTorque(context, joint.id)
  const { firstPass } = tightening
  const passes = firstPass === undefined || torque === undefined ? undefined : { first: firstPass, torque }
  const note = context.words.tightening.note({
    pattern: largest?.pattern ?? "plain",
    isNumbered: drawings.length > 0,
    passes,
  })
  const width = drawings.reduce((sum, { widthMm }) => sum + widthMm + 3, 0)
  const height = Math.max(0, ...drawings.map(({ heightMm }) => heightMm))
  return {
    ...none,
    note: note === "" ? null : note,
    plans: drawings.map((drawing) => drawPlan(context, joint, drawing)),
    plansMm: drawings.length === 0 ? null : { width, height },
  }
}

type Pattern = Pick<Joint, "id" | "name" | "count"> & { readonly tightening: TighteningSequence | undefined }

/** A joint of the kit, or the screws of a unit that hold one of its pieces. */
function findPattern(context: Context, id: string): Pattern | undefined {
  const { kit, fit } = context
  const joint = kit.joints.find((each) => each.id === id)
  if (joint !== undefined) return { ...joint, tightening: findJointFit(context, id)?.tightening }
  const own = kit.ownJoints.find((each) => each.id === id)
  const found = fit.ownJoints.find(({ ownJoint }) => ownJoint === id)
  const name = kit.parts.find((part) => part.id === found?.piece)?.name
  return own === undefined || name === undefined ? undefined : { ...own, name, tightening: found?.tightening }
}

function isTightening({ verb, target }: Act, joint: string): boolean {
  return verb === "tighten" && target === joint
}

function drawPlan({ sheet, words }: Context, joint: Pattern, drawing: Drawing): Html {
  const places = placesOf(drawing)
  const alt = shorten(words.tightening.planAlt(joint.name, places), 200)
  return renderPicture(sheet, drawing, drawing.id.replaceAll(".", "-"), alt)
}

/** Where each screw lies in the picture, in the order of its number: in the left, middle or right third, and so on. */
function placesOf({ strokes }: Drawing): readonly PatternPlace[] {
  const rings = strokes.filter(({ role, isClosed }) => role === "new" && isClosed)
  const middles = rings.map(({ points }) => [meanOf(points, 0), meanOf(points, 1)] as const)
  const third = (value: number, all: readonly number[]): 0 | 1 | 2 => {
    const [low, high] = [Math.min(...all), Math.max(...all)]
    if (high - low < 1) return 1
    const share = (value - low) / (high - low)
    return share < 1 / 3 ? 0 : share > 2 / 3 ? 2 : 1
  }
  const xs = middles.map(([x]) => x)
  const ys = middles.map(([, y]) => y)
  return middles.map(([x, y]) => ({
    across: (["left", "middle", "right"] as const)[third(x, xs)],
    upright: (["top", "middle", "bottom"] as const)[third(y, ys)],
  }))
}

function meanOf(points: readonly number[], first: 0 | 1): number {
  const values = points.filter((_, index) => index % 2 === first)
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length)
}
