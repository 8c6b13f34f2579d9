/** Numbers of all kinds of pieces (ISO 6433: one number for one kind, the same everywhere), in the order of assembly. */
import type { CableDraft } from "./cables.ts"
import type { JointDraft } from "./joints.ts"
import type { PadDraft, TieDraft } from "./ties.ts"
import type { Act, Part, Step } from "./types.ts"

/** What is to be numbered. */
export type Numbered = {
  readonly steps: readonly Pick<Step, "acts">[]
  readonly arrives: readonly Act[]
  readonly parts: readonly Omit<Part, "itemReference">[]
  readonly joints: readonly JointDraft[]
  readonly ties: readonly TieDraft[]
  readonly pads: readonly PadDraft[]
  readonly cables: readonly CableDraft[]
}

/** Keys: `part:plate`, `fastener:<designation>`, `tie:clamp`, `pad:grip`, `cable:lead`. */
export type ItemReferences = ReadonlyMap<string, number>

/**
 * Counts from 1: first what the steps bring into play, in their order; a joint brings its screw, washer and nut, equal
 * designations share a number. Then what no step names, in the order of writing. Pieces of the buyer's unit come last,
 * so that the list of the box has no gaps. Cables that are not in the box have no number.
 */
export function numberItems(items: Numbered): ItemReferences {
  const keys = new Set<string>()
  const owned = new Set(items.parts.filter(({ ownedBy }) => ownedBy !== undefined).map(({ id }) => id))
  const partOf = new Map(items.parts.flatMap(({ id, instances }) => [id, ...instances].map((name) => [name, id])))
  const joints = new Map(items.joints.map((joint) => [joint.id, joint]))
  const supplied = new Set(items.cables.filter(({ isSupplied }) => isSupplied).map(({ id }) => id))
  const ties = new Set(items.ties.map(({ id }) => id))
  const pads = new Set(items.pads.map(({ id }) => id))
  const addPart = (id: string | undefined): void => {
    if (id !== undefined && !owned.has(id)) keys.add(`part:${id}`)
  }
  const addJoint = (joint: JointDraft | undefined): void => {
    if (joint === undefined) return
    for (const key of fastenerKeys(joint)) keys.add(key)
  }
  const addAct = ({ verb, target }: Act): void => {
    if (verb === "place") addPart(partOf.get(target))
    if (verb === "start" || verb === "tighten") addJoint(joints.get(target))
    if ((verb === "strap" || verb === "place") && ties.has(target)) keys.add(`tie:${target}`)
    if ((verb === "stick" || verb === "place") && pads.has(target)) keys.add(`pad:${target}`)
    if (verb === "feed" || verb === "connect") {
      const cable = target.split(".")[0] ?? target
      if (supplied.has(cable)) keys.add(`cable:${cable}`)
    }
  }
  for (const act of [...items.steps.flatMap(({ acts }) => acts), ...items.arrives]) addAct(act)
  for (const { id } of items.parts) addPart(id)
  for (const joint of items.joints) addJoint(joint)
  for (const { id } of items.ties) keys.add(`tie:${id}`)
  for (const { id } of items.pads) keys.add(`pad:${id}`)
  for (const id of supplied) keys.add(`cable:${id}`)
  for (const id of owned) keys.add(`part:${id}`)
  return new Map([...keys].map((key, index) => [key, index + 1]))
}

/** Screw, washer and nut of a joint, as keys. */
function fastenerKeys({ fastener, washer, bore }: JointDraft): readonly string[] {
  const nut = bore.kind === "nut" ? bore.fastener : undefined
  return [fastener, washer, nut].flatMap((one) => (one === undefined ? [] : [`fastener:${one.designation}`]))
}
