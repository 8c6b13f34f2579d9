/** The acts of a clean kit as operators look at them. */
import type { Act, Kit } from "../../src/kit/types.ts"
import type { Verb } from "../../src/spec/types.ts"
import type { CleanVariant } from "./clean-kits.ts"

/** One act of a step that is written as one item of `do:`; `order` counts the acts of the variant. */
export type Written = {
  readonly act: Act
  /** `steps/foot/do/2`, the name of the act in a draft. */
  readonly origin: string
  readonly step: string
  readonly file: string
  readonly order: number
}

/** All acts in the order of the steps; items that stand for several acts are left out. */
export function writtenActs({ proof: { kit } }: CleanVariant): readonly Written[] {
  const all = kit.steps.flatMap((step) =>
    step.acts.flatMap((act): readonly Omit<Written, "order">[] => {
      const origin = /^steps\/[^/]+\/do\/\d+/.exec(act.path)?.[0]
      const file = origin === undefined ? undefined : kit.places[origin]?.file
      return origin === undefined || file === undefined ? [] : [{ act, origin, step: step.id, file }]
    }),
  )
  const counts = new Map<string, number>()
  for (const { origin } of all) counts.set(origin, (counts.get(origin) ?? 0) + 1)
  return all.filter(({ origin }) => counts.get(origin) === 1).map((one, order) => ({ ...one, order }))
}

/** Pairs of acts written in one file, the first before the second. */
export function pairsOf(
  acts: readonly Written[],
  isPair: (first: Written, second: Written) => boolean,
): readonly (readonly [Written, Written])[] {
  return acts.flatMap((first) =>
    acts
      .filter((second) => second.order > first.order && second.file === first.file && isPair(first, second))
      .map((second) => [first, second] as const),
  )
}

/** Acts with one of these verbs. */
export function withVerb(acts: readonly Written[], ...verbs: readonly Verb[]): readonly Written[] {
  return acts.filter(({ act }) => verbs.includes(act.verb))
}

/** Names a pair of acts. */
export function nameAct({ act, step }: Written): string {
  return `${step} ${act.verb} ${act.target}${act.through === undefined ? "" : ` through ${act.through}`}`.trim()
}

/** The part with this id or with an instance of this id. */
export function partOf(kit: Kit, id: string): Kit["parts"][number] | undefined {
  return kit.parts.find((part) => part.id === id || part.instances.includes(id))
}

/** Instances that an id stands for. */
export function instancesOf(kit: Kit, id: string): readonly string[] {
  const owner = [...kit.parts, ...kit.units, ...kit.frames, ...kit.pads].find((one) => one.id === id)
  return owner?.instances ?? kit.instances.filter((one) => one.id === id).map((one) => one.id)
}

/** True when two ids have an instance in common. */
export function meet(kit: Kit, one: string, other: string): boolean {
  const instances = instancesOf(kit, other)
  return one === other || instancesOf(kit, one).some((id) => instances.includes(id))
}

/** Ids of all that an act has its hands on. */
export function touchedBy(kit: Kit, { verb, target, to }: Act): readonly string[] {
  const cable = kit.cables.find(({ ends }) => ends.some(({ id }) => id === target))
  if (verb === "connect" || verb === "disconnect") {
    const owner = kit.sockets.find(({ id }) => id === to)?.owner
    return [target, cable?.id, to, owner].flatMap((id) => id ?? [])
  }
  if (verb === "feed" || verb === "withdraw") return [target, cable?.id].flatMap((id) => id ?? [])
  const tie = kit.ties.find(({ id }) => id === target)
  if (verb === "strap" && tie !== undefined) return [tie.id, ...tie.holds]
  const joint = kit.joints.find(({ id }) => id === target)
  if (joint !== undefined) return [joint.id, joint.bore.id]
  const own = kit.ownJoints.find(({ id }) => id === target)
  if (own !== undefined) return [own.id, ...(own.bore === undefined ? [] : [own.bore])]
  const pad = kit.pads.find(({ id }) => id === target)
  if (pad !== undefined) return [pad.id, pad.on]
  const part = partOf(kit, target)
  return part === undefined ? [target] : [target, part.id]
}
