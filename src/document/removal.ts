/** The way back, as the order proof found it. */
import type { Act } from "../kit/types.ts"
import type { RemovalAct } from "../sequence/advice-types.ts"
import { countPieces, positionOf, sayItems, viewAct } from "./acts.ts"
import { type Context, sayOwnScrews, sayTies, sayTools } from "./context.ts"
import { findPart, sayName, startLine } from "./names.ts"

/**
 * Lists the acts of removal, each as one line. Own screws that go back are one line, not two; where they hold something else
 * as well and follow the screws in their place, both are changed in one line, one screw at a time.
 */
export function listRemoval(context: Context): readonly string[] {
  const { acts } = context.sequence.removal
  const changes = new Set<string>()
  const lines = acts.flatMap((act, index) => {
    const change = context.sequence.advice.oneAtATime.find(
      ({ joint }) => act.verb === "unscrew" && joint === act.target,
    )
    const isChange = change !== undefined && acts[index + 1]?.target === change.ownJoint
    if (isChange) changes.add(change.ownJoint)
    if (changes.has(act.target)) return []
    const own = isChange ? context.kit.ownJoints.find(({ id }) => id === change.ownJoint) : undefined
    if (own === undefined) return sayRemovalAct(context, act)
    const { removal } = context.words
    const items = sayItems(context, toAct(act))
    return [removal.changeOneByOne(items, sayOwnScrews(context, own, own.count), removal.ownTorque)]
  })
  return lines.map(startLine)
}

/** Single-use things that mounting the kit again needs, as one sentence; undefined when there are none. */
export function sayNeededAgain(context: Context): string | undefined {
  const { kit, fit, sequence, words } = context
  const items = sequence.removal.neededAgain.flatMap(({ item, count }) => {
    const [kind, ...rest] = item.split(":")
    const id = rest.join(":")
    const tie = kind === "tie" ? kit.ties.find((one) => one.id === id) : undefined
    if (tie !== undefined) return [sayTies(context, tie, count)]
    const times = `${words.measures.times(count)}\u00a0`
    if (kind === "pad") return [times + sayName(context, id, ["pad"])]
    const line = fit.box.find((one) => one.item === item)
    const joint = kit.joints.find(({ fastener }) => fastener === line?.fastener || fastener.designation === id)
    return joint === undefined ? [] : [times + sayName(context, joint.id, ["joint"])]
  })
  return items.length === 0 ? undefined : words.removal.neededAgain(items)
}

/** Acts of mounting that cannot be undone, as one sentence; undefined when all can. */
export function sayStuck(context: Context): string | undefined {
  const paths = new Set(context.sequence.removal.stuck.map(({ act }) => act))
  const acts = context.kit.steps.flatMap((step) => step.acts).filter(({ path }) => paths.has(path))
  const said = acts.map((act) => viewAct(context, act).words)
  return said.length === 0 ? undefined : context.words.removal.stuck([...new Set(said)])
}

function sayRemovalAct(context: Context, removalAct: RemovalAct): readonly string[] {
  const { removal } = context.words
  const act = toAct(removalAct)
  const own = context.kit.ownJoints.find(({ id }) => id === act.target)
  const isBuyers = findPart(context, act.target)?.ownedBy !== undefined
  switch (act.verb) {
    case "unscrew":
      return own === undefined
        ? [removal.takeOut(sayItems(context, act), sayTools(context, act.target))]
        : [viewAct(context, act).words]
    case "start":
      return []
    case "tighten":
      return own === undefined
        ? [viewAct(context, act).words]
        : [removal.ownScrewsBack(sayOwnScrews(context, own, own.count), removal.ownTorque)]
    case "place":
      return [removal.putBack(countPieces(context, act))]
    case "remove": {
      const tie = act.instances.length === 0 ? context.kit.ties.find(({ id }) => id === act.target) : undefined
      if (tie !== undefined) {
        const isCarrying = tie.holds.some((id) => !context.kit.cables.some((cable) => cable.id === id))
        return [removal.cutTie(sayTies(context, tie, tie.count), isCarrying)]
      }
      if (isPad(context, act)) return [removal.peel(sayItems(context, act))]
      return isBuyers
        ? [viewAct(context, act).words]
        : [removal.takeOff(countPieces(context, act), positionOf(context, act))]
    }
    default: {
      const { words, value } = viewAct(context, act)
      return [value === null ? words : `${words} ${value}`]
    }
  }
}

function isPad({ kit }: Context, { target }: Act): boolean {
  return kit.pads.some(({ id }) => id === target) && !kit.parts.some(({ id }) => id === target)
}

/** An act as the steps have them, so that it is worded alike. */
function toAct({ verb, target, other, instances, count, minutes }: RemovalAct): Act {
  const isThrough = verb === "feed" || verb === "withdraw"
  return {
    verb,
    path: "",
    target,
    instances,
    through: isThrough ? other : undefined,
    to: isThrough ? undefined : other,
    count,
    minutes,
    words: undefined,
  }
}
