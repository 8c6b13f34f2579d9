/** Which of the eight corners a step is drawn from: where its new parts and their places are seen best. */
import { flattenScene } from "./flatten.ts"
import { countPixels, fillItemBuffer } from "./item-buffer.ts"
import { cornerViews, findViews, projectPoint, type View } from "./projection.ts"
import { groupOf, type StepScene, type Thing } from "./things.ts"

/** Raster for the comparison of views. */
const longSidePx = 260
/** A view from above, and the view of the step before, count this much more (a change must be worth it). */
const topBonus = 1.3
const sameBonus = 1.15
/** For a view that looks from the same two of three sides as the one before. */
const nearBonus = 1.06
/** A finished view is turned away from the last step's view when another shows this much more: four parts against three. */
const clearlyMore = 1.3
/** Share of a thing that must be seen to count in full. */
const enoughShare = 0.45

/** What is seen of a scene from one corner. */
export type Look = {
  readonly view: View
  /** Share of each new thing that is seen, by id; several solids of one id count together. */
  readonly shares: ReadonlyMap<string, number>
}

/** Looks from the best of the views that the maker named, or of all; `before` is the view of the drawing before. */
export function chooseView(scene: StepScene, named: string | undefined, before: View | undefined): Look {
  const fitting = named === undefined ? cornerViews : findViews(named)
  const ranked = rankViews(fitting.length === 0 ? cornerViews : fitting, before)
  let best: { look: Look; score: number } | undefined
  for (const { view, bonus } of ranked) {
    // The others cannot be better, even if they showed everything.
    if (best !== undefined && bestRating * bonus <= best.score) break
    const rated = rateView(scene, view)
    const score = rated.score * bonus
    if (best === undefined || score > best.score + 1e-9) best = { look: { view, shares: rated.shares }, score }
  }
  if (best === undefined) throw new Error("there is no view")
  return best.look
}

/** Views with what each counts more than the plainest one, the most welcome first. */
function rankViews(views: readonly View[], before: View | undefined): readonly { view: View; bonus: number }[] {
  const first = before ?? cornerViews[0]
  return views
    .map((view) => ({ view, bonus: (view.from[2] > 0 ? topBonus : 1) * turnBonus(view, first) }))
    .sort((one, other) => other.bonus - one.bonus)
}

/**
 * The view for a finished assembly: the one from which most of the kit's parts show, equal copies counted as one part. The most
 * welcome view is kept unless another shows clearly more. Units, frames and fasteners do not count.
 */
export function chooseOverview(scene: StepScene, before: View | undefined): View {
  const isPart = ({ id, role }: Thing): boolean => role === "context" && !id.includes(":")
  const things = scene.things.map((thing) => (isPart(thing) ? { ...thing, role: "new" as const } : thing))
  const scored = rankViews(cornerViews, before).map(({ view }) => {
    const { score } = rateView({ ...scene, things }, view)
    return { view, score: score * (view.from[2] > 0 ? topBonus : 1) }
  })
  const [first] = scored
  if (first === undefined) throw new Error("there is no view")
  const best = scored.reduce((one, other) => (other.score > one.score + 1e-9 ? other : one))
  return (best.score > clearlyMore * first.score ? best : first).view
}

/** Looks at a scene from a given view. */
function lookFrom(scene: StepScene, view: View): Look {
  return { view, shares: rateView(scene, view).shares }
}

function turnBonus(view: View, before: View | undefined): number {
  if (before === undefined) return 1
  const flipCount = view.from.filter((value, axis) => value * (before.from[axis] ?? 0) < 0).length
  return flipCount === 0 ? sameBonus : flipCount === 1 ? nearBonus : 1
}

/** Score of a view that shows all parts and places in full. */
const bestRating = 1.5

/** Score: 0 to 1 for parts, half as much again for places that receive something. */
function rateView(scene: StepScene, view: View): { score: number; shares: Look["shares"] } {
  const flat = flattenScene(scene.things, view, "faces")
  const buffer = fillItemBuffer(flat, longSidePx)
  const { visible, whole } = countPixels(flat, buffer, areNew(scene))
  const groups = new Map<string, number[]>()
  scene.things.forEach(({ id, role }, index) => {
    if (role !== "new" || (whole[index] ?? 0) === 0) return
    const share = (visible[index] ?? 0) / (whole[index] ?? 1)
    const group = groupOf(id)
    groups.set(group, [...(groups.get(group) ?? []), Math.min(1, share / enoughShare)])
  })
  const shares = [...groups.values()].map((list) => list.reduce((sum, value) => sum + value, 0) / list.length)
  const parts = shares.length === 0 ? 1 : shares.reduce((sum, value) => sum + value, 0) / shares.length
  const seen = scene.places.filter((place) => {
    const { x, y, depth } = projectPoint(view, place)
    const column = Math.floor((x - buffer.leftMm) * buffer.pxPerMm)
    const row = Math.floor((y - buffer.topMm) * buffer.pxPerMm)
    const pixel = row * buffer.widthPx + column
    // A plug stands before its own socket.
    const isOwnPlug = scene.things[buffer.item[pixel] ?? -1]?.id.startsWith("cable:") === true
    return isOwnPlug || (buffer.depth[pixel] ?? 0) < depth + 2
  }).length
  const places = scene.places.length === 0 ? parts : seen / scene.places.length
  return { score: parts + 0.5 * places, shares: sumShares(scene, visible, whole) }
}

function sumShares(scene: StepScene, visible: Float64Array, whole: Float64Array): Look["shares"] {
  const sums = new Map<string, { visible: number; whole: number }>()
  scene.things.forEach(({ id, role }, index) => {
    if (role !== "new") return
    const sum = sums.get(id) ?? { visible: 0, whole: 0 }
    sums.set(id, { visible: sum.visible + (visible[index] ?? 0), whole: sum.whole + (whole[index] ?? 0) })
  })
  return new Map([...sums].map(([id, sum]) => [id, sum.whole === 0 ? 0 : sum.visible / sum.whole]))
}

/**
 * Makes those things see-through that hide new things of which less than `leastShare` is seen, the one that hides most
 * first; gives the scene back as it is when every new thing shows enough.
 */
export function openScene(scene: StepScene, look: Look, leastShare: number): { scene: StepScene; look: Look } {
  let open = { scene, look }
  for (let round = 0; round < 4; round += 1) {
    const hidden = [...open.look.shares].filter(([, share]) => share < leastShare).map(([id]) => id)
    const cover = hidden.length === 0 ? undefined : findCover(open.scene, look.view, hidden)
    if (cover === undefined) return open
    const things = open.scene.things.map((thing) =>
      thing.id === cover ? { ...thing, role: "phantom" as const } : thing,
    )
    const opened = { ...open.scene, things }
    open = { scene: opened, look: lookFrom(opened, look.view) }
  }
  return open
}

/** The thing that stands before most of the pixels of the given new things; never another new thing. */
function findCover(scene: StepScene, view: View, hidden: readonly string[]): string | undefined {
  const buffer = fillItemBuffer(flattenScene(scene.things, view, "faces"), longSidePx)
  const alone = scene.things.map((thing) =>
    hidden.includes(thing.id) ? thing : { ...thing, role: "phantom" as const },
  )
  const own = fillItemBuffer(flattenScene(alone, view, "faces"), longSidePx)
  const counts = new Map<string, number>()
  own.item.forEach((item, pixel) => {
    const cover = item < 0 ? undefined : scene.things[buffer.item[pixel] ?? -1]
    if (cover === undefined || cover.role === "new") return
    counts.set(cover.id, (counts.get(cover.id) ?? 0) + 1)
  })
  const ranked = [...counts].sort((one, other) => other[1] - one[1] || (one[0] < other[0] ? -1 : 1))
  return ranked[0]?.[0]
}

function areNew(scene: StepScene): readonly boolean[] {
  return scene.things.map(({ role }) => role === "new")
}
