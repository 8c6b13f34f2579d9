/** The precedence graph: which step must stand before which, each link with its reason in words. */
import { describeAct } from "./actions/build.ts"
import type { Facts } from "./actions/types.ts"
import type { Broken, Declared } from "./broken.ts"
import { describeFact } from "./facts.ts"
import { firstAbove } from "./sorted.ts"
import type { Action, FactKey, Link } from "./types.ts"
import type { Walk } from "./walk.ts"

/** A link between two acts. `isHard`: no other act could give the fact, so no order can do without the link. */
export type ActLink = {
  readonly from: number
  readonly to: number
  readonly kind: "gives" | "takes-away"
  readonly fact: FactKey
  readonly why: string
  readonly isHard: boolean
  /** The act `to` gives the fact again after `from` took it. */
  readonly isAgain: boolean
}

/**
 * Links between acts as this order of the steps ties them: who gives what is needed, and who may take it away only
 * afterwards or must have done so before. Every order of the acts that keeps all links meets every need that is met here.
 */
export function linkActs(
  actions: readonly Facts[],
  initial: ReadonlySet<FactKey>,
  walk: Walk,
  broken: readonly Broken[],
): readonly ActLink[] {
  const links: ActLink[] = []
  const suppliers = indexSuppliers(walk)
  const settled = new Set<string>()
  const supplierCount = (fact: FactKey): number => (walk.givers.get(fact)?.length ?? 0) + (initial.has(fact) ? 1 : 0)
  for (const { action, need, supplier } of walk.uses) {
    const { fact, why } = need
    const isOnly = supplierCount(fact) === 1
    if (supplier >= 0)
      links.push({ from: supplier, to: action, kind: "gives", fact, why, isHard: isOnly, isAgain: false })
    const takers = walk.takers.get(fact) ?? []
    const used = suppliers.get(fact) ?? []
    for (const taker of takersAfter(takers, used, action)) {
      const isHard = isOnly && (supplier < 0 || needsFact(actions[taker], fact))
      links.push({ from: action, to: taker, kind: "takes-away", fact, why, isHard, isAgain: false })
    }
    const key = `${fact} ${supplier}`
    if (supplier < 0 || settled.has(key)) continue
    settled.add(key)
    for (const taker of takersBefore(takers, used, supplier))
      links.push({ from: taker, to: supplier, kind: "takes-away", fact, why, isHard: false, isAgain: true })
  }
  for (const link of broken) {
    if (link.kind === "declared-later") continue
    const { fact, why } = link.need
    const isOnly = supplierCount(fact) === 1 && link.alternative === undefined
    if (link.kind === "needs-later")
      links.push({ from: link.other, to: link.action, kind: "gives", fact, why, isHard: isOnly, isAgain: false })
    else {
      // Two acts that both use a fact up are one too many, in whatever order; that is no circle.
      const isOnce = actions[link.action]?.takes.includes(fact) === true
      const isHard = isOnly && !isOnce && (initial.has(fact) || needsFact(actions[link.other], fact))
      links.push({ from: link.action, to: link.other, kind: "takes-away", fact, why, isHard, isAgain: false })
    }
  }
  return links
}

function needsFact(action: Facts | undefined, fact: FactKey): boolean {
  return action?.needs.some((need) => need.fact === fact) === true
}

/** Acts whose fact is used by another, ascending; -1 for the arrival. */
function indexSuppliers(walk: Walk): ReadonlyMap<FactKey, readonly number[]> {
  const suppliers = new Map<FactKey, number[]>()
  for (const { need, supplier } of walk.uses) {
    const known = suppliers.get(need.fact)
    if (known === undefined) suppliers.set(need.fact, [supplier])
    else if (known.at(-1) !== supplier) known.push(supplier)
  }
  return suppliers
}

/** Takers after an act, as far as none stands behind a used giver: such a giver comes after the first of them and before the rest. */
function takersAfter(takers: readonly number[], used: readonly number[], action: number): readonly number[] {
  const found: number[] = []
  for (let index = firstAbove(takers, action); index < takers.length; index += 1) {
    const taker = takers[index] ?? 0
    const last = found.at(-1)
    if (last !== undefined && (used[firstAbove(used, last)] ?? taker) < taker) break
    found.push(taker)
  }
  return found
}

/** Takers before a giver, as far as none stands in front of a used giver: its user stands between the two. */
function takersBefore(takers: readonly number[], used: readonly number[], supplier: number): readonly number[] {
  const found: number[] = []
  for (let index = firstAbove(takers, supplier - 1) - 1; index >= 0; index -= 1) {
    const taker = takers[index] ?? 0
    const last = found.at(-1)
    if (last !== undefined && (used[firstAbove(used, taker)] ?? last) < last) break
    found.push(taker)
  }
  return found
}

/** The links between different steps, one for each pair and kind, declared ones included; in the order of the steps. */
export function linkSteps(
  actions: readonly Action[],
  actLinks: readonly ActLink[],
  declared: readonly Declared[],
  stepIds: readonly string[],
): readonly Link[] {
  const links = new Map<string, { readonly link: Link; readonly rank: number }>()
  const add = (from: number, to: number, link: Link): void => {
    const key = `${from} ${to} ${link.kind}`
    if (from !== to && !links.has(key)) links.set(key, { link, rank: from * stepIds.length + to })
  }
  for (const actLink of actLinks) {
    const from = actions[actLink.from]
    const to = actions[actLink.to]
    if (from !== undefined && to !== undefined && from.stepIndex !== to.stepIndex)
      add(from.stepIndex, to.stepIndex, describeLink(from, to, actLink))
  }
  for (const one of declared) add(one.other, one.step, declaredLink(one, stepIds))
  return [...links.values()].sort((one, other) => one.rank - other.rank).map(({ link }) => link)
}

/** A link between two acts as one between their steps, with its sentence. */
export function describeLink(from: Action, to: Action, { kind, fact, why, isAgain }: ActLink): Link {
  const order = `Step \`${to.step}\` ${describeAct(to.act)} only after step \`${from.step}\` ${describeAct(from.act)}`
  const reason = isAgain ? `${order}: after that ${describeFact(fact)} again.` : `${order}: ${why}.`
  return { from: from.step, to: to.step, kind, fact, reason }
}

/** A declared link with the maker's reason. */
export function declaredLink({ step, other, why }: Declared, stepIds: readonly string[]): Link {
  const from = stepIds[other] ?? ""
  const to = stepIds[step] ?? ""
  const told = why === undefined ? "as its `needs-after` says" : why.replace(/\.$/, "")
  return {
    from,
    to,
    kind: "declared",
    fact: undefined,
    reason: `Step \`${to}\` comes after step \`${from}\`: ${told}.`,
  }
}
