/** The way back: acts of mounting in reversed order, as far as they can be reversed. */
import type { Act } from "../kit/types.ts"
import type { Action } from "../sequence/types.ts"
import { countPieces, isGland, positionOf, sayItems, viewAct } from "./acts.ts"
import { type Context, sayOwnScrews, sayTools } from "./context.ts"
import { sayOther, sayTarget, startLine } from "./names.ts"

/**
 * Lists the acts of removal. Work on a unit that carries energy begins by switching it off; own screws go back last.
 * Acts with nothing to reverse (align, trim, clean, check, wait) are left out, and so is `start`, which `tighten` covers.
 * What is done twice to the same things (tightened, tightened again) is undone once.
 */
export function listRemoval(context: Context): readonly string[] {
  const acts = context.kit.steps.flatMap((step) => step.acts)
  const off = acts
    .filter((act) => act.verb === "isolate" || act.verb === "verify")
    .map((act) => startLine(viewAct(context, act).words))
  const lines = [...new Set(off)]
  const told = new Set(off)
  for (const act of takeTogether(context, acts).toReversed()) {
    for (const line of reverseAct(context, act).map(startLine)) {
      if (!isOfSome(context, act) && told.has(line)) continue
      told.add(line)
      lines.push(line)
    }
  }
  return lines
}

/** True for an act on some of several equal things: the same words then mean other ones. */
function isOfSome({ kit }: Context, { verb, target, count }: Act): boolean {
  if (verb === "place" || verb === "remove") return true
  const all = [...kit.joints, ...kit.ownJoints, ...kit.ties, ...kit.pads].find(({ id }) => id === target)?.count
  return count !== undefined && all !== undefined && count < all
}

/** Joins the placing of equal pieces to one act, at the last of them, where the earlier ones can come off with it. */
function takeTogether(context: Context, acts: readonly Act[]): readonly Act[] {
  const kept: { readonly act: Act; readonly from: readonly Act[] }[] = []
  for (const act of acts) {
    const earlier = kept.findLastIndex((other) => isOfOneKind(context, other.act, act))
    const first = kept[earlier]
    const later = kept.slice(earlier + 1).map((other) => other.act)
    if (first === undefined || !comesOffEarly(context, first.from, later)) {
      kept.push({ act, from: [act] })
      continue
    }
    kept.splice(earlier, 1)
    const count = countPieces(context, first.act).count + countPieces(context, act).count
    const joined = { ...act, count, instances: [...first.act.instances, ...act.instances] }
    kept.push({ act: joined, from: [...first.from, act] })
  }
  return kept.map(({ act }) => act)
}

/** True when both acts place copies of one part, each its own. */
function isOfOneKind(context: Context, one: Act, other: Act): boolean {
  if (one.verb !== "place" || other.verb !== "place") return false
  const isPart = one.instances.length > 0 && sayTarget(context, one) === sayTarget(context, other)
  // `place: 1 x saddle` twice names both saddles each time, and means one after the other.
  const isOfSomeOnly = [one, other].every(({ count, instances }) => count !== undefined && count < instances.length)
  return isPart && (isOfSomeOnly || !one.instances.some((id) => other.instances.includes(id)))
}

/** True when none of the later acts, as far as they are undone, builds on the placed pieces or bars their way. */
function comesOffEarly(context: Context, placed: readonly Act[], later: readonly Act[]): boolean {
  const factsOf = (acts: readonly Act[]): readonly Action[] =>
    context.sequence.actions.filter(({ act }) => acts.some(({ path }) => path === act.path))
  const own = factsOf(placed)
  const built = new Set(own.flatMap(({ gives }) => gives))
  const way = new Set(own.flatMap(({ needs }) => needs.map(({ fact }) => fact)))
  return later.every((act) => {
    const tied = factsOf([act]).filter(
      ({ needs, takes }) => needs.some(({ fact }) => built.has(fact)) || takes.some((fact) => way.has(fact)),
    )
    for (const fact of tied.flatMap(({ gives }) => gives)) built.add(fact)
    return tied.length === 0 || reverseAct(context, act).length === 0
  })
}

function reverseAct(context: Context, act: Act): readonly string[] {
  const { removal, acts } = context.words
  const target = sayTarget(context, act)
  const other = sayOther(context, act)
  switch (act.verb) {
    case "tighten":
      return [removal.takeOut(sayItems(context, act), sayTools(context, act.target))]
    case "place":
      return [removal.takeOff(countPieces(context, act), positionOf(context, act))]
    case "remove":
      return [removal.putBack(countPieces(context, act))]
    case "strap":
      return [removal.cutTie(sayItems(context, act))]
    case "stick":
      return [removal.peel(sayItems(context, act))]
    case "connect":
      return [acts.disconnect(target, other)]
    case "disconnect":
      return [acts.connect(target, other)]
    case "feed":
      return [acts.withdraw(target, other)]
    case "withdraw":
      return [acts.feed(target, other ?? "")]
    case "open":
      return [isGland(context, act) ? acts.tightenGland(target) : acts.close(target)]
    case "close":
      return [isGland(context, act) ? acts.loosenGland(target) : acts.open(target)]
    case "unscrew": {
      const own = context.kit.ownJoints.find((each) => each.id === act.target)
      if (own === undefined) return []
      return [removal.ownScrewsBack(sayOwnScrews(context, own, act.count ?? own.count), removal.ownTorque)]
    }
    default:
      return []
  }
}
