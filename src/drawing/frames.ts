/** When a frame is in the picture, and how much of it. */
import type { Instance, Kit, Step } from "../kit/types.ts"
import type { StepState } from "../sequence/types.ts"
import { moveMesh } from "../solids/poses.ts"
import { dot, unit } from "../solids/vectors.ts"
import { clipAlong } from "./clip-mesh.ts"
import type { SolidStore } from "./solid-store.ts"
import { extentAlong, type Thing } from "./things.ts"
import { restPose } from "./vector.ts"

/** Length of frame shown beyond what is mounted on it, as a share of that and at least this much. */
const beyondShare = 0.2
const beyondMm = 30

/**
 * True when the work of this step, or what was done before, is on the frame: a tie closed round it, an act on it, or
 * a part laid on it that only ties will hold, a group of pieces placed on it that ties will hold. A cradle that is put together on the table is drawn without the tube.
 */
export function isFrameShown(kit: Kit, frame: string, step: Step, state: StepState): boolean {
  const ties = kit.ties.filter((tie) => tie.frame === frame)
  if (ties.some(({ id }) => state.tiesBefore.includes(id) || state.tiesClosed.includes(id))) return true
  if (step.acts.some(({ target }) => target === frame)) return true
  const groups = kit.assemblies.filter(({ id }) => state.assembliesPlaced.includes(id))
  const isGrouped = ({ id, of }: Instance): boolean =>
    groups.some(({ instances }) => instances.includes(id) || instances.includes(of))
  if (
    kit.instances.some(
      (piece) => isGrouped(piece) && ties.some(({ holds }) => holds.includes(piece.id) || holds.includes(piece.of)),
    )
  )
    return true
  const held = new Set(ties.flatMap(({ holds }) => holds))
  const isTied = kit.instances.some(
    ({ id, of }) => held.has(of) && state.placed.includes(id) && !isScrewed(kit, of, state),
  )
  return ties.length === 0 || isTied
}

function isScrewed(kit: Kit, part: string, state: StepState): boolean {
  const joints = [...state.jointsBefore, ...state.jointsStarted]
  return kit.joints.some(
    ({ id, through, bore }) => joints.includes(id) && (through.includes(part) || bore.owner?.split(".")[0] === part),
  )
}

/** Cuts frames to the neighbourhood of all other things in the picture. */
export function clipFrames(kit: Kit, things: readonly Thing[], store: SolidStore): readonly Thing[] {
  return things.map((thing) => {
    const frame = kit.frames.find(({ instances }) => instances.includes(thing.id))
    const others = things.filter(({ id }) => !kit.frames.some(({ instances }) => instances.includes(id)))
    if (frame === undefined || others.length === 0) return thing
    const axis = unit(frame.axis.along)
    const reach = extentAlong(thing.mesh, thing.pose, axis)
    const extents = others.map(({ mesh, pose }) => extentAlong(mesh, pose, axis))
    const low = Math.min(...extents.map(({ min }) => min))
    const high = Math.max(...extents.map(({ max }) => max))
    const margin = Math.max(beyondMm, beyondShare * (high - low))
    if (reach.min > low - margin - 5 && reach.max < high + margin + 5) return thing
    const origin = dot(frame.axis.at, axis)
    const from = Math.max(low - margin - origin, reach.min - origin - 20)
    const to = Math.min(high + margin - origin, reach.max - origin + 20)
    const waveMm = profileMm(frame.profile) / 20
    const key = `frame ${frame.id} ${thing.id} ${from.toFixed(2)} ${to.toFixed(2)}`
    const mesh = store.get(key, () =>
      clipAlong(moveMesh(thing.mesh, thing.pose), frame.axis.at, axis, from, to, waveMm),
    )
    return { ...thing, mesh, pose: restPose }
  })
}

function profileMm(profile: Kit["frames"][number]["profile"]): number {
  return profile.kind === "round" ? profile.diameterMm : profile.widthMm
}
