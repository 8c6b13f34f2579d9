/** The faults of an order: one for each cause. */
import type { Act, Kit } from "../kit/types.ts"
import type { Verb } from "../spec/types.ts"
import { describeAct } from "./actions/build.ts"
import type { Broken } from "./broken.ts"
import { type Cause, groupByCause, pairKey } from "./causes.ts"
import type { Circle } from "./circles.ts"
import { describeMissed, subjectOf } from "./facts.ts"
import type { Goal } from "./finished.ts"
import { couldGive, findLeftOut } from "./left-out.ts"
import type { ActLink } from "./links.ts"
import { pieceHeldBy } from "./own-pieces.ts"
import type { Action, AlsoBroken, FactKey, OrderFault } from "./types.ts"
import type { Miss, Walk } from "./walk.ts"

export type FaultInput = {
  readonly kit: Kit
  readonly actions: readonly Action[]
  readonly walk: Walk
  readonly goals: readonly Goal[]
  readonly broken: readonly Broken[]
  readonly unmet: readonly Miss[]
  readonly circles: readonly Circle[]
  readonly actLinks: readonly ActLink[]
}

/**
 * Circles first, then broken links by cause, needs that nobody meets, and goals missed. What a circle already tells
 * is not told again as a broken link, and a goal that only a broken link misses is not told at all.
 */
export function findFaults(input: FaultInput): readonly OrderFault[] {
  const { broken, circles } = input
  const inCircle = new Set(circles.flatMap(({ pairs }) => pairs.map(([late, early]) => pairKey(early, late))))
  const needed = indexNeeded(input)
  // Screws that a left out act would have tightened leave what they hold loose.
  const isLoose = findLeftOut(input.kit).some(({ verb }) => verb === "tighten")
  const isExplained = (one: Broken): boolean =>
    isLoose && one.kind !== "declared-later" && one.need.fact.startsWith("held:")
  const causes = groupByCause(broken.filter((one) => !inCircle.has(pairKey(one.early, one.late)) && !isExplained(one)))
  const explain = explainByLeftOut(input.kit)
  return [
    ...circles.map(({ links }): OrderFault => ({ kind: "circle", links, also: [] })),
    ...causes.map((cause) => faultOfCause(input, cause, needed)),
    ...nobodyFaults(input).map(explain),
    ...goalFaults(input).map(explain),
  ]
}

/** Gives a function that names for a fault the act left out of the kit that explains it, each act for one needing act. */
function explainByLeftOut(kit: Kit): (fault: OrderFault) => OrderFault {
  const open = [...findLeftOut(kit)]
  const explained = new Map<string, string>()
  return (fault) => {
    if (fault.kind !== "nobody-gives" && fault.kind !== "goal-missed") return fault
    // An act on several copies lacks several facts of one kind.
    const key = fault.kind === "nobody-gives" ? `${fault.need.fact.split(":")[0]} ${fault.act.path}` : fault.path
    // Screws that a left out act would have tightened leave what they hold loose, and are told as not tight besides.
    if (fault.kind === "nobody-gives" && fault.need.fact.startsWith("held:")) {
      const tighten = open.find(({ verb }) => verb === "tighten")
      if (tighten !== undefined) return { ...fault, leftOut: tighten.path }
    }
    const known = explained.get(key)
    if (known !== undefined) return { ...fault, leftOut: known }
    const index = open.findIndex(({ verb }) => couldGive(verb, fault.need.fact))
    const [explaining] = index < 0 ? [] : open.splice(index, 1)
    if (explaining !== undefined) explained.set(key, explaining.path)
    return { ...fault, leftOut: explaining?.path }
  }
}

/** Pairs of steps of which the second needs the first in any order. */
function indexNeeded({ actions, actLinks }: FaultInput): ReadonlySet<string> {
  const stepOf = (index: number): number => actions[index]?.stepIndex ?? -1
  return new Set(actLinks.flatMap(({ from, to, isHard }) => (isHard ? [pairKey(stepOf(from), stepOf(to))] : [])))
}

function faultOfCause({ kit, actions }: FaultInput, [main, ...rest]: Cause, needed: ReadonlySet<string>): OrderFault {
  const isMutual = needed.has(pairKey(main.early, main.late))
  const idOf = (step: number): string => kit.steps[step]?.id ?? ""
  const told = alternativeOf(actions, main)
  const also = [...told, ...oneForEachPair(main, rest).map((link) => tellBroken(kit, actions, link))]
  if (main.kind === "declared-later") {
    const { early, late, why, path } = main
    return { kind: "declared-later", step: idOf(early), laterStep: idOf(late), why, path, also }
  }
  const act = actAt(actions, main.action)
  const other = actAt(actions, main.other)
  const step = actions[main.action]?.step ?? ""
  const otherStep = actions[main.other]?.step ?? ""
  return main.kind === "needs-later"
    ? { kind: "needs-later", step, act, need: main.need, laterStep: otherStep, laterAct: other, isMutual, also }
    : { kind: "taken-away", step, act, need: main.need, byStep: otherStep, byAct: other, isMutual, also }
}

/** Further reasons for the same two steps add nothing, and of other pairs one reason is enough; what is declared counts. */
function oneForEachPair(main: Broken, rest: readonly Broken[]): readonly Broken[] {
  const known = new Set([pairKey(main.early, main.late)])
  return rest.filter((link) => {
    const key = pairKey(link.early, link.late)
    const isNew = link.kind === "declared-later" || !known.has(key)
    known.add(key)
    return isNew
  })
}

function actAt(actions: readonly Action[], index: number): Act {
  const action = actions[index]
  // Indexes come from the same list.
  if (action === undefined) throw new Error(`no act number ${index}`)
  return action.act
}

/** The other way to mend a link, when the fact was there before and comes back later. */
function alternativeOf(actions: readonly Action[], link: Broken): readonly AlsoBroken[] {
  if (link.kind === "declared-later" || link.alternative === undefined) return []
  const other = actions[link.alternative]
  const self = actions[link.action]
  if (other === undefined || self === undefined) return []
  const sentence =
    link.kind === "needs-later"
      ? `It was so until step \`${other.step}\` ${describeAct(other.act)}.`
      : `It is so again when step \`${other.step}\` ${describeAct(other.act)}.`
  return [{ step: self.step, otherStep: other.step, path: other.act.path, sentence }]
}

function tellBroken(kit: Kit, actions: readonly Action[], link: Broken): AlsoBroken {
  if (link.kind === "declared-later") {
    const step = kit.steps[link.early]?.id ?? ""
    const otherStep = kit.steps[link.late]?.id ?? ""
    const because = link.why === undefined ? "" : `: ${link.why.replace(/\.$/, "")}`
    const sentence = `Step \`${step}\` is declared to come after step \`${otherStep}\`${because}.`
    return { step, otherStep, path: link.path, sentence }
  }
  const self = actions[link.action]
  const other = actions[link.other]
  const step = self?.step ?? ""
  const otherStep = other?.step ?? ""
  const order = link.kind === "needs-later" ? "before" : "after"
  const tell = (action: Action | undefined): string => (action === undefined ? "" : describeAct(action.act))
  const sentence = `Step \`${step}\` ${tell(self)} ${order} step \`${otherStep}\` ${tell(other)}: ${link.need.why}.`
  return { step, otherStep, path: self?.act.path ?? "", sentence }
}

/**
 * One fault for each thing that something is missing of, at the first act that needs it: the copies of a part are one
 * thing, which one act would place. A fact that is a goal is told as a missed goal.
 */
function nobodyFaults({ kit, actions, unmet, goals }: FaultInput): readonly OrderFault[] {
  const asGoal = new Set(goals.map(({ fact }) => fact))
  const byThing = new Map<string, Miss[]>()
  const partOf = new Map(kit.parts.flatMap(({ id, instances }) => instances.map((instance) => [instance, id])))
  // Screws of a unit hold the piece of their name, which comes off with them.
  const heldBy = new Map(
    kit.ownJoints.flatMap((own) => {
      const piece = pieceHeldBy(kit.parts, own)
      return piece === undefined ? [] : [[own.id, piece.id] as const]
    }),
  )
  // A socket is empty when the end that it has on arrival is free.
  const endIn = new Map(
    kit.cables.flatMap(({ ends }) =>
      ends.flatMap(({ id, arrival }) => (arrival.state === "connected" ? [[arrival.socket, id] as const] : [])),
    ),
  )
  const notFree = new Set(unmet.flatMap(({ action, need }) => (need.fact.startsWith("free:") ? [action] : [])))
  for (const miss of unmet) {
    if (asGoal.has(miss.need.fact)) continue
    // The act that frees the end empties a socket too.
    if (miss.need.fact.startsWith("empty:") && notFree.has(miss.action)) continue
    const subject = subjectOf(miss.need.fact)
    const thing = partOf.get(subject) ?? heldBy.get(subject) ?? endIn.get(subject) ?? subject
    const known = byThing.get(thing)
    if (known === undefined) byThing.set(thing, [miss])
    else known.push(miss)
  }
  return [...byThing.values()].flatMap(([first, ...rest]): readonly OrderFault[] => {
    if (first === undefined) return []
    const step = actions[first.action]?.step ?? ""
    // An act that a step repeats needs the same each time.
    const told = new Set([`${first.need.why} ${actions[first.action]?.act.path ?? ""}`])
    const others = rest.filter(({ action, need }) => {
      const key = `${need.why} ${actions[action]?.act.path ?? ""}`
      return !told.has(key) && told.add(key).size > 0
    })
    const also = others.map(({ action, need }): AlsoBroken => {
      const self = actions[action]
      const words = self === undefined ? "" : describeAct(self.act)
      const sentence = `Step \`${self?.step ?? ""}\` ${words} and needs it too: ${need.why}.`
      return { step: self?.step ?? "", otherStep: undefined, path: self?.act.path ?? "", sentence }
    })
    return [
      { kind: "nobody-gives", step, act: actAt(actions, first.action), need: first.need, leftOut: undefined, also },
    ]
  })
}

/** Goals missed by one act are one fault; those that a broken link explains are left out. */
function goalFaults({ kit, actions, walk, goals, broken }: FaultInput): readonly OrderFault[] {
  const brokenPairs = new Set(broken.map(({ early, late }) => pairKey(early, late)))
  const stepOf = (index: number): number => actions[index]?.stepIndex ?? -1
  const isExplained = (fact: FactKey): boolean => {
    const taker = walk.lastTaker.get(fact)
    if (taker === undefined) return false
    return (walk.givers.get(fact) ?? []).some((giver) => brokenPairs.has(pairKey(stepOf(giver), stepOf(taker))))
  }
  const byAct = new Map<string, Extract<OrderFault, { kind: "goal-missed" }>>()
  for (const goal of goals) {
    if (walk.final.has(goal.fact) || isExplained(goal.fact)) continue
    const { fact, why, subject, path } = goal
    const last = lastActOn(kit, actions, walk, fact)
    const kindOfFact = fact.split(":")[0] ?? ""
    const key = last === undefined ? path : `${kindOfFact} ${last.act.path}`
    const known = byAct.get(key)
    const sentence = `Besides, ${describeMissed(fact)}.`
    const also: AlsoBroken = { step: last?.step ?? "", otherStep: undefined, path, sentence }
    byAct.set(
      key,
      known === undefined
        ? {
            kind: "goal-missed",
            need: { fact, why },
            lastStep: last?.step,
            lastAct: last?.act,
            subject,
            path,
            leftOut: undefined,
            also: [],
          }
        : { ...known, also: [...known.also, also] },
    )
  }
  return [...byAct.values()]
}

/** Verbs whose acts have to do with a goal, by the kind of its fact. */
const verbsOf: Readonly<Record<string, readonly Verb[]>> = {
  on: ["place", "remove"],
  started: ["start", "unscrew"],
  tight: ["start", "tighten", "unscrew"],
  tied: ["strap", "remove"],
  connected: ["feed", "withdraw", "connect", "disconnect"],
  thru: ["feed", "withdraw", "connect", "disconnect"],
  shut: ["open", "close", "place"],
  clamped: ["open", "close", "feed"],
  "power-on": ["isolate", "restore"],
  cured: ["stick", "tighten"],
  stuck: ["stick", "place", "remove"],
}

/** The last act that took the fact away or has to do with its subject. */
function lastActOn(kit: Kit, actions: readonly Action[], walk: Walk, fact: FactKey): Action | undefined {
  const subject = subjectOf(fact)
  const ends = kit.cables.find(({ id }) => id === subject)?.ends.map(({ id }) => id) ?? []
  const cable = kit.cables.find((one) => one.ends.some(({ id }) => id === subject))
  const ids = [subject, ...ends, ...(cable?.ends.map(({ id }) => id) ?? [])]
  const verbs = verbsOf[fact.split(":")[0] ?? ""] ?? []
  const related = actions.findLastIndex(
    ({ verb, act }) =>
      verbs.includes(verb) && (ids.includes(act.target) || act.instances.includes(subject) || act.through === subject),
  )
  return actions[Math.max(related, walk.lastTaker.get(fact) ?? -1)]
}
