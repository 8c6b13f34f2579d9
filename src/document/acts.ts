/** One line per act: a command, and the value that matters at the line's end. */

import { actsOn } from "../kit/acts.ts"
import type { Act } from "../kit/types.ts"
import { type Context, sayFasteners, sayOwnScrews, sayTies, sayTools, sayTorque } from "./context.ts"
import { pieceKinds, sayName, sayOther, sayTarget, startLine } from "./names.ts"
import type { Counted } from "./words/types.ts"

/** `value` stands at the end of the line: a torque, a time, a count. */
export type ActView = { readonly words: string; readonly value: string | null }

/** Words one act. Counts, torques and tools come from the kit and its computed facts. */
export function viewAct(context: Context, act: Act): ActView {
  const { kit, words } = context
  const { acts, measures } = words
  const target = (): string => sayTarget(context, act)
  const items = (): string => sayItems(context, act)
  const other = (): string | undefined => sayOther(context, act)
  const line = (text: string, value: string | null = null): ActView => ({ words: startLine(text), value })
  if (act.words !== undefined && act.target === "") {
    const time = act.minutes === undefined ? null : measures.duration(act.minutes)
    return line(acts.inWords(act.verb, act.words.trim().replace(/\.$/, "")), time)
  }
  switch (act.verb) {
    case "place":
      return line(acts.place(countPieces(context, act), positionOf(context, act)))
    case "remove":
      return line(acts.remove(countPieces(context, act)))
    case "align":
      return line(acts.align(target()))
    case "start": {
      const joint = kit.joints.find((each) => each.id === act.target)
      if (joint === undefined) return line(acts.start(items(), [], []))
      const through = joint.through.map((id) => sayName(context, id, pieceKinds))
      const owners = [...new Set(joint.bore.owners.map((id) => sayName(context, id, pieceKinds)))]
      return line(acts.start(sayFasteners(context, joint, act.count ?? joint.count, true), through, owners))
    }
    case "tighten": {
      const torque = sayTorque(context, act.target)
      const tools = sayTools(context, act.target)
      return torque === undefined
        ? line(acts.tightenToSeat(items(), tools))
        : line(acts.tighten(items(), tools), torque)
    }
    case "unscrew": {
      const own = kit.ownJoints.find((each) => each.id === act.target)
      return line(acts.unscrew(items(), own === undefined ? undefined : sayName(context, own.unit, ["unit"])))
    }
    case "feed": {
      const cable = kit.cables.find(({ ends }) => ends.some(({ id }) => id === act.target))
      const isOpen = kit.passages.some(({ id, isClosed }) => id === act.through && !isClosed)
      if (isOpen && cable !== undefined) return line(acts.layIn(sayName(context, cable.id, ["cable"]), other() ?? ""))
      return line(acts.feed(target(), other() ?? "", turnOf(context, act)))
    }
    case "withdraw":
      return line(acts.withdraw(target(), other()))
    case "connect":
      return line(acts.connect(target(), other()))
    case "disconnect":
      return line(acts.disconnect(target(), other()))
    case "strap": {
      const tie = kit.ties.find((each) => each.id === act.target)
      const frame =
        tie?.frame === undefined ? undefined : sayName(context, tie.frame, ["frame", "unit", "part", "instance"])
      return line(acts.strap(items(), frame, tie?.until?.replace(/[.\s]+$/, "")))
    }
    case "trim":
      return line(acts.trim(items()))
    case "clean":
      return line(acts.clean(target()))
    case "stick": {
      const pad = kit.pads.find((each) => each.id === act.target)
      return line(acts.stick(items(), pad === undefined ? undefined : sayName(context, pad.on, pieceKinds)))
    }
    case "open":
      return line(isGland(context, act) ? acts.loosenGland(target()) : acts.open(target()))
    case "close":
      return line(isGland(context, act) ? acts.tightenGland(target()) : acts.close(target()))
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
      return line(acts.inspect(act.target === "all" ? undefined : target()))
    case "set-aside": {
      const bag = kit.bags.find((each) => each.isForOwnScrews)
      return line(acts.setAside(items(), bag?.name))
    }
    case "discard":
      return line(acts.discard(items()))
    case "wait":
      return line(
        act.target === "" ? acts.wait : acts.waitFor(items()),
        act.minutes === undefined ? null : measures.duration(act.minutes),
      )
  }
}

/** Whole degrees that an end must be turned by to pass a closed opening; undefined when it passes as it lies. */
function turnOf({ kit, fit }: Context, { target, through }: Act): number | undefined {
  const isClosed = kit.passages.some((each) => each.id === through && each.isClosed)
  const passing = fit.passages.find((one) => one.passage === through && one.end === target)
  const turnDeg = Math.round(passing?.turnDeg ?? 0)
  return isClosed && turnDeg > 0 ? turnDeg : undefined
}

/** True for an act that tightens or loosens a cable gland. */
function isGland({ kit }: Context, { target, instances }: Act): boolean {
  return instances.length === 0 && kit.passages.some(({ id, clamps }) => id === target && clamps !== undefined)
}

/** What an act is done to: fasteners, ties and pads with their count, anything else by its name. */
export function sayItems(context: Context, act: Act): string {
  const { kit, words } = context
  const { target: id, count } = act
  for (const kind of actsOn[act.verb]) {
    const joint = kind === "joint" ? kit.joints.find((each) => each.id === id) : undefined
    if (joint !== undefined) return sayFasteners(context, joint, count ?? joint.count)
    const own = kind === "own-joint" ? kit.ownJoints.find((each) => each.id === id) : undefined
    if (own !== undefined) return sayOwnScrews(context, own, count ?? own.count)
    const tie = kind === "tie" ? kit.ties.find((each) => each.id === id) : undefined
    if (tie !== undefined) return sayTies(context, tie, count ?? tie.count)
    const pad = kind === "pad" ? kit.pads.find((each) => each.id === id) : undefined
    if (pad !== undefined) return `${words.measures.times(count ?? pad.count)}\u00a0${sayName(context, id, ["pad"])}`
    if (kind === "part" && kit.parts.some((each) => each.id === id)) break
  }
  return sayTarget(context, act)
}

/** How many pieces an act moves, and their name. */
export function countPieces(context: Context, act: Act): Counted {
  return { count: Math.max(act.count ?? act.instances.length, 1), what: sayTarget(context, act) }
}

/** `front` for an act that moves only the piece `saddle.front` of several. */
export function positionOf(context: Context, act: Act): string | undefined {
  const [only] = act.instances
  if (only === undefined || act.instances.length !== 1) return undefined
  const piece = context.kit.instances.find((each) => each.id === only)
  const pieces = context.kit.instances.filter((each) => each.of === piece?.of)
  const name = only.split(".").at(-1)
  return pieces.length > 1 && name !== undefined && !/^\d+$/.test(name) ? name : undefined
}
