/** What to do about steps that stand in the wrong order: advice that was tried before it is given. */
import type { Act, Kit } from "../kit/types.ts"
import { isBetter, prepareTrial } from "../sequence/index.ts"
import type { OrderFault, Sequence } from "../sequence/types.ts"

/** `step` gives the advice for two steps of which `early` must come after `late`; undefined when no move of a step helps. */
export type Adviser = {
  readonly step: (early: string, late: string, fault: OrderFault) => string | undefined
  readonly act: (early: Act, earlyStep: string, late: Act, lateStep: string) => string
}

/** Above so many faults advice is not tried: each trial walks the whole kit. */
const mostTried = 40

/** Prepares the advice for one kit. A move of a step that is advised mends something and breaks nothing else. */
export function buildAdviser(kit: Kit, sequence: Sequence): Adviser {
  const trial = prepareTrial(kit, sequence)
  const present = kit.steps.map(({ id }) => id)
  const isTried = sequence.faults.length <= mostTried
  const before = isTried ? trial.steps(present) : new Set<string>()
  const rank = rankMoves(sequence)
  const helps = (order: readonly string[]): boolean => !isTried || isBetter(trial.steps(order), before)
  return {
    step: (early, late, fault) => {
      if ("isMutual" in fault && fault.isMutual) return undefined
      const ways = { late: lift(present, late, "before", early), early: lift(present, early, "behind", late) }
      const swapped = present.map((id) => (id === early ? late : id === late ? early : id))
      const first = rank(early, late, fault)
      if (first === "swap" && helps(swapped)) return `Swap steps \`${late}\` and \`${early}\`.`
      const order = first === "early" ? (["early", "late"] as const) : (["late", "early"] as const)
      const way = order.find((one) => helps(ways[one]))
      if (way === undefined) return undefined
      return way === "late"
        ? `Move step \`${late}\` before step \`${early}\`.`
        : `Move step \`${early}\` behind step \`${late}\`.`
    },
    act: (early, earlyStep, late, lateStep) => {
      const later = `Move \`${writeAct(early)}\` to step \`${lateStep}\`, behind \`${writeAct(late)}\`.`
      const sooner = `Move \`${writeAct(late)}\` to step \`${earlyStep}\`, in front of \`${writeAct(early)}\`.`
      if (!isTried) return later
      const behind = trial.acts(early.path, "behind", late.path).size
      return behind <= trial.acts(late.path, "before", early.path).size ? later : sooner
    },
  }
}

/** An act as it stands in a step. */
export function writeAct({ verb, target, through, to, words, count }: Act): string {
  const what = target === "" ? (words ?? "…") : target
  const counted = count === undefined ? what : `${count} x ${what}`
  if (through !== undefined) return `${verb}: ${counted} ${verb === "withdraw" ? "from" : "through"} ${through}`
  return to === undefined ? `${verb}: ${counted}` : `${verb}: ${counted} ${verb === "disconnect" ? "from" : "to"} ${to}`
}

function lift(order: readonly string[], moved: string, place: "before" | "behind", other: string): readonly string[] {
  const rest = order.filter((id) => id !== moved)
  const at = rest.indexOf(other) + (place === "behind" ? 1 : 0)
  return [...rest.slice(0, at), moved, ...rest.slice(at)]
}

/** Which move is the likelier one: of the step that breaks no link to those between, and that other faults are about. */
function rankMoves(sequence: Sequence): (early: string, late: string, fault: OrderFault) => "early" | "late" | "swap" {
  const numbers = new Map(sequence.steps.map(({ step, number }) => [step, number]))
  const after = new Map<string, string[]>()
  const before = new Map<string, string[]>()
  for (const { from, to } of sequence.links) {
    push(after, from, to)
    push(before, to, from)
  }
  return (early, late, { also }) => {
    const from = numbers.get(early) ?? 0
    const to = numbers.get(late) ?? 0
    const isBetween = (step: string): boolean => {
      const number = numbers.get(step) ?? 0
      return number > from && number < to
    }
    const others = also.filter(({ step, otherStep }) => ![step, otherStep].every((id) => id === early || id === late))
    const concerns = (id: string): boolean => others.some(({ step, otherStep }) => step === id || otherStep === id)
    if (concerns(early) && concerns(late)) return "swap"
    if (concerns(early)) return "early"
    if (concerns(late)) return "late"
    const isLateTied = (before.get(late) ?? []).some(isBetween)
    const isEarlyTied = (after.get(early) ?? []).some(isBetween)
    return isLateTied && !isEarlyTied ? "early" : "late"
  }
}

function push(lists: Map<string, string[]>, key: string, value: string): void {
  const list = lists.get(key)
  if (list === undefined) lists.set(key, [value])
  else list.push(value)
}
