/** The way back, proved like the way in: from the finished work to what the buyer had on arrival. */
import type { Fit } from "../../fit/types.ts"
import type { Removal, RemovalAct } from "../advice-types.ts"
import { describeFact } from "../facts.ts"
import type { Lookup } from "../lookup.ts"
import type { Action, FactKey, Need } from "../types.ts"
import { arrangeActs, simulate } from "./arrange.ts"
import { findArrivalGoals } from "./arrival-goals.ts"
import { listCandidates, type Mounted, type WayBack } from "./candidates.ts"
import { chooseActs } from "./choose.ts"
import { findKeptTogether } from "./kept-together.ts"
import { listNeededAgain } from "./needed-again.ts"

/**
 * Proves the removal of the kit: the fewest acts after which everything of the kit is off the buyer's unit and frame, in the
 * reversed order of mounting as far as the needs of the acts let it. `final` are the facts when the last step is done.
 * What cannot be met is in `stuck`, once for each cause; the acts are given all the same.
 */
export function proveRemoval(
  lookup: Lookup,
  fit: Fit,
  initial: readonly FactKey[],
  actions: readonly Action[],
  final: ReadonlySet<FactKey>,
): Removal {
  const had = new Set(initial)
  const goals = findArrivalGoals(lookup, had, findKeptTogether(lookup, fit, actions, final))
  const mounted: Mounted = { lookup, fit, initial: had, final, actions, goals }
  const candidates = listCandidates(mounted)
  const isWork = goals.some(({ fact }) => !final.has(fact))
  const forced = isWork ? candidates.flatMap(({ act }, index) => (isOfPower(act.verb) ? [index] : [])) : []
  const { chosen, missing, isFewest } = chooseActs({ candidates, final, goals, forced })
  const picked = chosen.flatMap((index) => candidates[index] ?? [])
  const arranged = arrangeActs(picked, final, new Set(goals.map(({ fact }) => fact)))
  const order = changeOneByOne(lookup, joinCopies(arranged.order, final), final)
  const told = new Set(missing.map(({ need }) => need.fact))
  const stuck = [
    ...missing.map(({ need, by }) => tellStuck(mounted, need, by === undefined ? undefined : candidates[by])),
    ...arranged.unmet.filter(({ need }) => !told.has(need.fact)).map(({ need, by }) => tellStuck(mounted, need, by)),
  ]
  return {
    acts: order.map(viewAct),
    stuck,
    isFewest,
    neededAgain: listNeededAgain(
      lookup,
      fit,
      order.map(({ act }) => act),
    ),
  }
}

/** Where the kit switches the power off for the work, the way back does so as well. */
function isOfPower(verb: string): boolean {
  return verb === "isolate" || verb === "verify" || verb === "restore"
}

function viewAct({ act, undoes }: WayBack): RemovalAct {
  const { verb, target, through, to, instances, minutes } = act
  return {
    verb,
    target,
    other: through ?? to,
    instances,
    count: instances.length > 0 ? instances.length : undefined,
    minutes,
    undoes,
  }
}

/** `act` is the act of mounting that cannot be undone; of a goal, the last act that ended it. */
function tellStuck(
  { actions }: Mounted,
  need: Need,
  by: WayBack | undefined,
): { readonly act: string; readonly fact: FactKey; readonly why: string } {
  const ender = actions.findLast(
    ({ takes, verb, act }) => takes.includes(need.fact) || isThrownAway(verb, act.target, need),
  )
  return {
    act: by?.undoes ?? ender?.act.path ?? "",
    fact: need.fact,
    why: `${need.why}, and ${describeFact(need.fact)} never again`,
  }
}

function isThrownAway(verb: string, target: string, { fact }: Need): boolean {
  return verb === "discard" && fact.split(":")[1] === target
}

/**
 * Own screws that hold something else as well go back as soon as those in their place are out, so that they can be changed one
 * at a time; where they cannot be reached then, they wait.
 */
function changeOneByOne(lookup: Lookup, acts: readonly WayBack[], final: ReadonlySet<FactKey>): readonly WayBack[] {
  let changed = acts
  for (const own of lookup.kit.ownJoints) {
    if (own.alsoHolds === undefined) continue
    const joint = lookup.kit.joints.find(({ bore }) => bore.id === own.bore)
    const isBack = ({ act }: WayBack): boolean =>
      act.target === own.id && (act.verb === "start" || act.verb === "tighten")
    const rest = changed.filter((one) => !isBack(one))
    const out = rest.findIndex(({ act }) => act.verb === "unscrew" && act.target === joint?.id)
    if (out < 0) continue
    const moved = rest.toSpliced(out + 1, 0, ...changed.filter(isBack))
    if (simulate(moved, final).unmet.length <= simulate(changed, final).unmet.length) changed = moved
  }
  return changed
}

/** Joins the removal of copies of one part to one act, where the earlier ones can wait or the later ones come sooner. */
function joinCopies(acts: readonly WayBack[], final: ReadonlySet<FactKey>): readonly WayBack[] {
  const counts = new Map<string, number>()
  const nameOf = ({ act }: WayBack): string | undefined =>
    act.verb === "remove" && act.instances.length > 0 ? act.target.split(".")[0] : undefined
  for (const one of acts) {
    const name = nameOf(one)
    if (name !== undefined) counts.set(name, (counts.get(name) ?? 0) + 1)
  }
  let joined = acts
  for (const [name, count] of counts) if (count > 1) joined = joinCopiesOf(joined, final, (one) => nameOf(one) === name)
  return joined
}

function joinCopiesOf(
  acts: readonly WayBack[],
  final: ReadonlySet<FactKey>,
  isCopy: (one: WayBack) => boolean,
): readonly WayBack[] {
  let joined = acts
  let at = joined.findIndex(isCopy)
  while (at >= 0) {
    const first = joined[at]
    const next = joined.findIndex((one, index) => index > at && isCopy(one))
    const other = joined[next]
    if (first === undefined || other === undefined) return joined
    const rest = joined.filter((_, index) => index !== at && index !== next)
    const both = joinActs(first, other)
    // A piece that is free must not hang about while other things are taken off; the screws of its like may come out.
    const canWait = joined.slice(at + 1, next).every(({ act }) => act.verb === "unscrew")
    const places = canWait ? [next - 1, at] : [at]
    const tries = places.map((place) => ({ place, order: rest.toSpliced(place, 0, both) }))
    const fits = tries.find(({ order }) => simulate(order, final).unmet.length === 0)
    if (fits !== undefined) joined = fits.order
    at = fits === undefined ? next : fits.place
  }
  return joined
}

function joinActs(one: WayBack, other: WayBack): WayBack {
  const gives = [...new Set([...one.facts.gives, ...other.facts.gives])]
  return {
    act: {
      ...one.act,
      target: one.act.target.split(".")[0] ?? one.act.target,
      instances: [...one.act.instances, ...other.act.instances],
    },
    facts: {
      needs: [...new Map([...one.facts.needs, ...other.facts.needs].map((need) => [need.fact, need])).values()],
      gives,
      takes: [...new Set([...one.facts.takes, ...other.facts.takes])],
    },
    rank: Math.min(one.rank, other.rank),
    undoes: one.undoes,
  }
}
