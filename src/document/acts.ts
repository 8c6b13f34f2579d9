/** One line per act: a command, and the value that matters at the line's end. */
import type { Act } from "../kit/types.ts"
import {
  type Context,
  sayFasteners,
  sayName,
  sayOwnScrews,
  sayTies,
  sayTools,
  sayTorque,
  startLine,
} from "./context.ts"
import type { Counted } from "./words/types.ts"

/** `value` stands at the end of the line: a torque, a time, a count. */
export type ActView = { readonly words: string; readonly value: string | null }

/** Words one act. Counts, torques and tools come from the kit and its computed facts. */
export function viewAct(context: Context, act: Act): ActView {
  const { kit, words } = context
  const { acts, measures } = words
  const target = (): string => sayName(context, act.target)
  const other = (id: string | undefined): string | undefined => (id === undefined ? undefined : sayName(context, id))
  const line = (text: string, value: string | null = null): ActView => ({ words: startLine(text), value })
  switch (act.verb) {
    case "place":
      return line(acts.place(countPieces(context, act), positionOf(context, act)))
    case "remove":
      return line(acts.remove(countPieces(context, act)))
    case "align":
      return line(acts.align(target()))
    case "start": {
      const joint = kit.joints.find((each) => each.id === act.target)
      if (joint === undefined) return line(acts.start(sayItems(context, act, act.target), [], []))
      const through = joint.through.map((id) => sayName(context, id))
      const owners = [...new Set(joint.bore.owners.map((id) => sayName(context, id)))]
      return line(acts.start(sayFasteners(context, joint, act.count ?? joint.count, true), through, owners))
    }
    case "tighten": {
      const torque = sayTorque(context, act.target)
      const tools = sayTools(context, act.target)
      const items = sayItems(context, act, act.target)
      return torque === undefined ? line(acts.tightenToSeat(items, tools)) : line(acts.tighten(items, tools), torque)
    }
    case "unscrew": {
      const own = kit.ownJoints.find((each) => each.id === act.target)
      return line(acts.unscrew(sayItems(context, act, act.target), other(own?.unit)))
    }
    case "feed":
      return line(acts.feed(target(), other(act.through ?? act.to) ?? ""))
    case "withdraw":
      return line(acts.withdraw(target(), other(act.through ?? act.to)))
    case "connect":
      return line(acts.connect(target(), other(act.to)))
    case "disconnect":
      return line(acts.disconnect(target(), other(act.to ?? act.through)))
    case "strap": {
      const tie = kit.ties.find((each) => each.id === act.target)
      const frame = tie?.frame === undefined ? undefined : sayName(context, tie.frame)
      return line(acts.strap(sayItems(context, act, act.target), frame, tie?.until?.replace(/[.\s]+$/, "")))
    }
    case "trim":
      return line(acts.trim(sayItems(context, act, act.target)))
    case "clean":
      return line(acts.clean(target()))
    case "stick": {
      const pad = kit.pads.find((each) => each.id === act.target)
      return line(acts.stick(sayItems(context, act, act.target), other(pad?.on)))
    }
    case "open":
      return line(acts.open(target()))
    case "close":
      return line(acts.close(target()))
    case "turn": {
      const what = act.target === "all" ? acts.everything : target()
      return line(acts.turn(what, act.to))
    }
    case "isolate":
      return line(acts.isolate(target()))
    case "verify":
      return line(acts.verify(target()))
    case "restore":
      return line(acts.restore(target()))
    case "inspect":
      return line(acts.inspect(act.target === "all" ? undefined : (act.words ?? target())))
    case "set-aside": {
      const bag = kit.bags.find((each) => each.isForOwnScrews)
      return line(acts.setAside(sayItems(context, act, act.target), bag?.name))
    }
    case "discard":
      return line(acts.discard(sayItems(context, act, act.target)))
    case "wait":
      return line(acts.wait, act.minutes === undefined ? null : measures.duration(act.minutes))
  }
}

/** Fasteners, ties and pads with their count, anything else by its name. */
export function sayItems(context: Context, act: Act, id: string): string {
  const { kit, words } = context
  const joint = kit.joints.find((each) => each.id === id)
  if (joint !== undefined) return sayFasteners(context, joint, act.count ?? joint.count)
  const own = kit.ownJoints.find((each) => each.id === id)
  if (own !== undefined) return sayOwnScrews(context, own, act.count ?? own.count)
  const tie = kit.ties.find((each) => each.id === id)
  if (tie !== undefined) return sayTies(context, tie, act.count ?? tie.count)
  const pad = kit.pads.find((each) => each.id === id)
  if (pad !== undefined) return `${words.measures.times(act.count ?? pad.count)}\u00a0${sayName(context, id)}`
  return sayName(context, id)
}

/** How many pieces an act moves, and their name. */
export function countPieces(context: Context, act: Act): Counted {
  return { count: Math.max(act.count ?? act.instances.length, 1), what: sayName(context, act.target) }
}

/** `front` for an act that places only the piece `saddle.front` of several. */
function positionOf(context: Context, act: Act): string | undefined {
  const [only] = act.instances
  if (only === undefined || act.instances.length !== 1) return undefined
  const piece = context.kit.instances.find((each) => each.id === only)
  const pieces = context.kit.instances.filter((each) => each.of === piece?.of)
  const name = only.split(".").at(-1)
  return pieces.length > 1 && name !== undefined && !/^\d+$/.test(name) ? name : undefined
}
