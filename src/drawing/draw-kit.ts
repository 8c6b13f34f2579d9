/** All drawings of a variant: one for each step that changes what is there, the finished view, life-size side views. */
import { finding } from "../findings/order.ts"
import { placeAt } from "../findings/places.ts"
import type { Finding, Outcome } from "../findings/types.ts"
import type { Fit } from "../fit/types.ts"
import type { Kit, Step } from "../kit/types.ts"
import { stateAt } from "../sequence/index.ts"
import type { Sequence } from "../sequence/types.ts"
import type { Kernel } from "../solids/types.ts"
import { trimmed } from "../units/print.ts"
import { buildOverviewScene, buildStepScene, type Spread, type StepStory } from "./build-scene.ts"
import { chooseOverview, chooseView, type Look, openScene } from "./choose-view.ts"
import { drawScene, fitScale, type Paper, type Room, traceScene } from "./draw-scene.ts"
import { followFasteners } from "./fastener-work.ts"
import { findLateUnits } from "./late-units.ts"
import { drawItems } from "./life-size.ts"
import { openLeaves } from "./open-leaves.ts"
import type { View } from "./projection.ts"
import { groupedPieces } from "./scene-pieces.ts"
import { makeSolidStore, type SolidStore } from "./solid-store.ts"
import { groupOf, type StepScene } from "./things.ts"
import { drawTighteningPlans } from "./tightening-plan.ts"
import type { Drawing, Drawings } from "./types.ts"

/** A new thing of which less than this share is seen is reported. */
const leastShare = 0.12
/** How things are drawn apart: the first way in which every new thing shows. */
const spreads: readonly Spread[] = [
  { parts: 1, fasteners: 1 },
  { parts: 2, fasteners: 1 },
  { parts: 1, fasteners: 3 },
  { parts: 2, fasteners: 3 },
]
/** Steps whose own scale is at most this much larger than the common one are drawn at the common one. */
const commonScaleReach = 1.3
/** Shape of a step's figure: height over width of the column. */
const stepShape = 0.655
/** The finished view stands beside text: its width over the column's, and its own height over its width. */
const overviewShare = 0.61
const overviewShape = 0.79
/** Widest life-size view, in mm. */
const itemWidthMm = 42

type DrawRequest = {
  readonly kit: Kit
  readonly fit: Fit
  readonly sequence: Sequence
  /** Widest a figure may be, in mm. */
  readonly columnMm: number
  readonly kernel?: Kernel
}

type Prepared = {
  readonly story: StepStory
  readonly scene: StepScene
  readonly look: Look
  readonly scale: number
}

/**
 * Draws a kit. A step has a drawing when it places, removes, fastens, straps, sticks, feeds or connects something that has a
 * shape. Findings: `new-part-hidden` (a new thing cannot be seen from any corner), `reference-without-room`.
 */
export function drawKit(request: DrawRequest): Outcome<Drawings> {
  const { kit, fit, sequence, columnMm } = request
  const store = makeSolidStore()
  const { steps, findings, lastView } = drawSteps(request, store)
  const overview = drawOverview(kit, fit, sequence, store, columnMm, lastView)
  const plans = drawTighteningPlans(kit, fit, store)
  return { value: { overview, steps, items: drawItems(kit, fit, itemWidthMm), plans }, findings }
}

/** The findings of `drawKit` without its drawings: finished view and life-size views are left out. */
export function reviewDrawings(request: DrawRequest): readonly Finding[] {
  return drawSteps(request, makeSolidStore()).findings
}

function drawSteps(
  { kit, fit, sequence, columnMm }: DrawRequest,
  store: SolidStore,
): { steps: Record<string, Drawing>; findings: readonly Finding[]; lastView: View | undefined } {
  const room: Room = { widthMm: columnMm, heightMm: stepShape * columnMm }
  const findings: Finding[] = []
  const prepared: Prepared[] = []
  let lastView: View | undefined
  const openKits = openLeaves(kit, sequence)
  for (const story of tellStories(kit, sequence)) {
    const { scene, look } = sceneOf(openKits.get(story.step.id) ?? kit, fit, story, store, lastView)
    if (!scene.things.some(({ role }) => role === "new")) continue
    prepared.push({ story, scene, look, scale: fitScale(scene, look.view, room) })
    lastView = look.view
  }
  const common = Math.min(...prepared.map(({ scale }) => scale))
  const steps: Record<string, Drawing> = {}
  prepared.forEach(({ story, scene, look, scale }, index) => {
    const { view } = look
    const earlier = prepared[index - 1]?.look.view
    const isTurned = earlier !== undefined && earlier.name !== view.name
    const chosen = scale <= common * commonScaleReach ? common : scale
    const { paper, scale: drawnScale } = drawWithRoom(scene, view, chosen, room, isTurned ? earlier : undefined)
    const { step, state } = story
    findings.push(...judge(kit, story, scene, look, paper))
    steps[step.id] = makeDrawing(`step-${state.number}`, story, paper, scene, view, isTurned, drawnScale)
  })
  return { steps, findings, lastView }
}

/** The steps of a kit that have a state, each with what its picture must know of the others. */
function tellStories(kit: Kit, sequence: Sequence): readonly StepStory[] {
  const fasteners = followFasteners(kit, sequence)
  const away = findLateUnits(kit, sequence)
  const indexOf = new Map(sequence.steps.map(({ step }, index) => [step, index]))
  return kit.steps.flatMap((step, index) => {
    const state = stateAt(sequence, indexOf.get(step.id) ?? -1)
    if (state === undefined) return []
    return [{ step, state, fasteners: fasteners[index] ?? new Map(), away: away[index] ?? new Set() }]
  })
}

/**
 * The scene of a step and its view. When a new thing hardly shows, parts and fasteners are drawn further apart; when that
 * does not help, what stands before it becomes see-through.
 */
function sceneOf(
  kit: Kit,
  fit: Fit,
  story: StepStory,
  store: SolidStore,
  before: View | undefined,
): { scene: StepScene; look: Look } {
  let best: { scene: StepScene; look: Look; least: number } | undefined
  for (const spread of spreads) {
    const scene = buildStepScene(kit, fit, story, store, spread)
    const look = chooseView(scene, story.step.view, before)
    const least = Math.min(1, ...groupShares(look, groupedPieces(kit, story.state)).values())
    if (least >= leastShare) return { scene, look }
    if (best === undefined || least > best.least) best = { scene, look, least }
  }
  if (best === undefined) throw new Error("there is no way to draw things apart")
  return openScene(best.scene, best.look, leastShare)
}

function drawOverview(
  kit: Kit,
  fit: Fit,
  sequence: Sequence,
  store: SolidStore,
  columnMm: number,
  before: View | undefined,
): Drawing {
  const scene = buildOverviewScene(kit, fit, stateAt(sequence, sequence.steps.length - 1), store)
  const view = chooseOverview(scene, before)
  const widthMm = overviewShare * columnMm
  const room: Room = { widthMm, heightMm: overviewShape * widthMm }
  const scale = fitScale(scene, view, room)
  const paper = drawScene(traceScene(scene, view), scale, room, undefined)
  return makeDrawing("overview", undefined, paper, scene, view, false, scale)
}

/** Draws smaller until every number has a place, at most three times. */
function drawWithRoom(
  scene: StepScene,
  view: View,
  scale: number,
  room: Room,
  before: View | undefined,
): { paper: Paper; scale: number } {
  const traced = traceScene(scene, view)
  let result = { paper: drawScene(traced, scale, room, before), scale }
  for (let round = 0; round < 3 && result.paper.lacksRoom; round += 1) {
    const smaller = result.scale * 0.87
    result = { paper: drawScene(traced, smaller, room, before), scale: smaller }
  }
  return result
}

function makeDrawing(
  id: string,
  story: StepStory | undefined,
  paper: Paper,
  scene: StepScene,
  view: View,
  isTurned: boolean,
  scale: number,
): Drawing {
  return {
    id,
    step: story?.step.id,
    widthMm: paper.widthMm,
    heightMm: paper.heightMm,
    strokes: paper.strokes,
    fills: paper.fills,
    references: paper.references,
    view: { name: view.name, from: view.from, up: view.up, isTurned },
    scale,
    shows: {
      placed: [...(story?.state.placed ?? []), ...(story?.state.assembliesPlaced ?? [])],
      fastened: [...(story?.fasteners ?? [])].flatMap(([joint, { started, tightened }]) => {
        const drawn = new Set(scene.things.map(({ id }) => id))
        const count = new Set([...started, ...tightened].filter((number) => drawn.has(`screw:${joint}.${number}`))).size
        return count === 0 ? [] : [{ joint, count }]
      }),
      context: [...new Set(scene.things.filter(({ role }) => role !== "new").map((thing) => thing.id))],
      exploded: scene.things.some(({ moved }) => moved !== undefined),
    },
  }
}

/** Largest share that is seen of each group of equal new things; pieces that are placed together count as one. */
function groupShares({ shares }: Look, together: ReadonlySet<string>): ReadonlyMap<string, number> {
  const groups = new Map<string, number>()
  const seen = [...shares].filter(([id]) => together.has(id))
  for (const [id, share] of seen.length === 0
    ? shares
    : [...shares, ["assembly", Math.max(...seen.map(([, one]) => one))] as const]) {
    if (together.has(id)) continue
    const group = groupOf(id)
    groups.set(group, Math.max(groups.get(group) ?? 0, share))
  }
  return groups
}

function judge(kit: Kit, { step, state }: StepStory, scene: StepScene, look: Look, paper: Paper): readonly Finding[] {
  const findings: Finding[] = []
  for (const [group, share] of groupShares(look, groupedPieces(kit, state))) {
    if (share >= leastShare) continue
    const { id, message, path } = tellHidden(kit, step, group)
    findings.push(
      finding("new-part-hidden", "warning", {
        message,
        why: `${trimmed(100 * share, 0)} % is seen from ${look.view.name}, the best of eight views; ${100 * leastShare} % is needed`,
        fix: "Name another `view` for the step, or move the act into an earlier step.",
        where: placeAt(kit.places, path),
        subjects: [id, step.id],
        scene: { subjects: [id], step: step.id },
      }),
    )
  }
  if (paper.lacksRoom) {
    findings.push(
      finding("reference-without-room", "warning", {
        message: `the drawing of step \`${step.id}\` has no room for its ${scene.wanted.length} item references`,
        why: "each number needs free paper beside the picture and a leader that crosses no other",
        fix: "Split the step, so that fewer kinds of parts are new in it.",
        where: placeAt(kit.places, step.path),
        subjects: [step.id],
      }),
    )
  }
  return findings
}

/** What is hidden, and where to point: fasteners are named by their joint, whose id a part may have too. */
function tellHidden(kit: Kit, step: Step, group: string): { id: string; message: string; path: string } {
  const [kind = group, id = group] = group.split(":")
  const isFastener = ["screw", "washer", "nut"].includes(kind) && id !== group
  const joint = isFastener ? [...kit.joints, ...kit.ownJoints].find((candidate) => candidate.id === id) : undefined
  if (joint === undefined) {
    const message = `\`${id}\` is new in step \`${step.id}\`, and other parts hide it in the drawing`
    return { id, message, path: step.path }
  }
  const message = `the ${kind}s of joint \`${id}\` are hidden by other parts in the drawing of step \`${step.id}\``
  return { id, message, path: joint.path }
}
