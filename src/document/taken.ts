/** What a step takes from the box: the same counts stand in its table, its caption and its text alternative. */
import type { Fastener } from "../fasteners/types.ts"
import type { BoxItem } from "../fit/types.ts"
import type { Act, Step } from "../kit/types.ts"
import { type Context, findFastenerItem, findItem } from "./context.ts"

/** One line of the box, and how many pieces of it a step takes. */
export type Taken = { readonly item: BoxItem; readonly count: number }

/** What each step takes, by step id, in the order of its acts; equal pieces from one bag are one line. */
export function listTaken(context: Context): ReadonlyMap<string, readonly Taken[]> {
  const used = new Map<string, number>()
  return new Map(context.kit.steps.map((step) => [step.id, takenBy(context, step, used)]))
}

/** `used` counts what earlier steps took: screws of a joint, cables. */
function takenBy(context: Context, step: Step, used: Map<string, number>): readonly Taken[] {
  const taken = new Map<BoxItem, number>()
  for (const act of step.acts) {
    for (const { item, count } of takenFor(context, act, used)) {
      if (item !== undefined && count > 0) taken.set(item, (taken.get(item) ?? 0) + count)
    }
  }
  return [...taken].map(([item, count]) => ({ item, count }))
}

type Found = { readonly item: BoxItem | undefined; readonly count: number }

function takenFor(context: Context, act: Act, used: Map<string, number>): readonly Found[] {
  const { kit } = context
  /** How many of `count` nobody has taken yet, of `all` there are. */
  const takeNew = (key: string, count: number, all: number): number => {
    const before = used.get(key) ?? 0
    used.set(key, Math.min(before + count, all))
    return Math.min(count, all - before)
  }
  const ofBox = (kind: BoxItem["kind"], id: string, count: number): readonly Found[] => [
    { item: findItem(context, kind, id), count },
  ]
  switch (act.verb) {
    case "place":
    case "stick":
    case "strap": {
      const tie = kit.ties.find((each) => each.id === act.target)
      if (act.verb === "strap") return tie === undefined ? [] : ofBox("tie", tie.id, act.count ?? tie.count)
      const part = act.verb === "stick" ? undefined : findPlaced(context, act)
      if (part !== undefined) return ofBox("part", part, Math.max(act.count ?? act.instances.length, 1))
      const pad = kit.pads.find((each) => each.id === act.target)
      if (pad !== undefined) return ofBox("pad", pad.id, act.count ?? pad.count)
      return tie === undefined ? [] : ofBox("tie", tie.id, act.count ?? tie.count)
    }
    case "start":
    case "tighten": {
      const joint = kit.joints.find((each) => each.id === act.target)
      if (joint === undefined) return []
      // Screws that were started are in hand already: tightening takes only what is still missing.
      const wanted =
        act.verb === "start" ? (act.count ?? joint.count) : joint.count - (used.get(`joint:${joint.id}`) ?? 0)
      const count = takeNew(`joint:${joint.id}`, wanted, joint.count)
      const under = takeNew(`washer:${joint.id}`, wanted, joint.count)
      const nut = joint.bore.kind === "nut" ? joint.bore.fastener : undefined
      const found = (fastener: Fastener | undefined, many: number): readonly Found[] =>
        fastener === undefined
          ? []
          : [{ item: findFastenerItem(context, fastener.designation, joint.bag), count: many }]
      return [...found(joint.fastener, count), ...found(joint.washer, under), ...found(nut, under)]
    }
    case "unscrew": {
      // A screw with thread lock that was taken out is replaced by a new one; washers and nuts are used again.
      const joint = kit.joints.find((each) => each.id === act.target && each.surface === "thread-lock")
      const key = `joint:${joint?.id ?? ""}`
      if (joint !== undefined) used.set(key, Math.max(0, (used.get(key) ?? 0) - (act.count ?? joint.count)))
      return []
    }
    case "feed":
    case "connect": {
      const cable = kit.cables.find((each) => each.ends.some((end) => end.id === act.target))
      return cable === undefined ? [] : ofBox("cable", cable.id, takeNew(`cable:${cable.id}`, 1, 1))
    }
    default:
      return []
  }
}

/** Id of the part that an act places; undefined for the buyer's own things, pads and ties. */
function findPlaced({ kit }: Context, act: Act): string | undefined {
  const piece = kit.instances.find((each) => act.instances.includes(each.id) && each.owner === "part")
  return kit.parts.find((part) => part.id === act.target)?.id ?? piece?.of
}
