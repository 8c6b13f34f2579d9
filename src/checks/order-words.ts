/** Sentences and advice that the rules about the order share. */
import { placeAt } from "../findings/places.ts"
import type { Related } from "../findings/types.ts"
import type { Act, Kit } from "../kit/types.ts"
import { describeAct, describeFact, subjectOf } from "../sequence/index.ts"
import type { AlsoBroken, Need, OrderFault, Sequence } from "../sequence/types.ts"

const longestMessage = 100

/** The first of the messages that is short enough to be one, else the last. */
export function fitMessage(...messages: readonly [...string[], string]): string {
  return messages.find((message) => message.length <= longestMessage) ?? messages.at(-1) ?? ""
}

/** How many further reasons are told in full. */
const longestList = 3

/** Names an act without its passage or socket: "connects `lead.plug`". */
export function describeShortly(act: Act): string {
  return describeAct(act).replace(/ (to|through|from) `[^`]*`$/, "")
}

/** Says what an act needs and why, then what else has the same cause. */
export function explainNeed(need: Need, also: readonly AlsoBroken[]): string {
  return [`It needs that ${describeFact(need.fact)}: ${need.why}.`, ...explainAlso(also)].join(" ")
}

/** The first few further reasons as sentences, and how many there are beyond. */
export function explainAlso(also: readonly AlsoBroken[]): readonly string[] {
  const told = also.slice(0, longestList).map(({ sentence }) => sentence)
  const rest = also.length - told.length
  return rest === 0 ? told : [...told, `And so for ${rest} more.`]
}

/** Places of what else has the same cause, with its sentence. */
export function relatedOf(kit: Kit, also: readonly AlsoBroken[]): readonly Related[] {
  return also.slice(0, longestList).map(({ path, sentence }) => ({
    message: sentence.slice(0, 1).toLowerCase() + sentence.slice(1).replace(/\.$/, ""),
    where: placeAt(kit.places, path),
  }))
}

/** Steps and things that a fault is about, each once. */
export function subjectsOf(fault: OrderFault, ...ids: readonly (string | undefined)[]): readonly string[] {
  const need = "need" in fault ? [subjectOf(fault.need.fact)] : []
  const also = fault.also.flatMap(({ step, otherStep }) => [step, otherStep])
  return [...new Set([...ids, ...need, ...also].filter((id) => id !== undefined && id !== ""))].filter(
    (id) => id !== undefined,
  )
}

/**
 * Prepares the advice for broken pairs: `early` stands first and must come after `late`. It prefers the step whose move
 * breaks no link to those between, and the one that is at fault for what else is broken. Undefined when no move mends it.
 */
export function buildAdviser(
  sequence: Sequence,
): (early: string, late: string, fault: OrderFault) => string | undefined {
  const numbers = new Map(sequence.steps.map(({ step, number }) => [step, number]))
  const after = new Map<string, string[]>()
  const before = new Map<string, string[]>()
  for (const { from, to } of sequence.links) {
    push(after, from, to)
    push(before, to, from)
  }
  return (early, late, fault) => {
    const { also } = fault
    if ("isMutual" in fault && fault.isMutual) return undefined
    const from = numbers.get(early) ?? 0
    const to = numbers.get(late) ?? 0
    const isBetween = (step: string): boolean => {
      const number = numbers.get(step) ?? 0
      return number > from && number < to
    }
    const others = also.filter(({ step, otherStep }) => ![step, otherStep].every((id) => id === early || id === late))
    const concerns = (id: string): boolean => others.some(({ step, otherStep }) => step === id || otherStep === id)
    if (concerns(early) && concerns(late)) return `Swap steps \`${late}\` and \`${early}\`.`
    const moveLate = `Move step \`${late}\` before step \`${early}\`.`
    const moveEarly = `Move step \`${early}\` behind step \`${late}\`.`
    if (concerns(early)) return moveEarly
    if (concerns(late)) return moveLate
    const isLateTied = (before.get(late) ?? []).some(isBetween)
    const isEarlyTied = (after.get(early) ?? []).some(isBetween)
    return isLateTied && !isEarlyTied ? moveEarly : moveLate
  }
}

function push(lists: Map<string, string[]>, key: string, value: string): void {
  const list = lists.get(key)
  if (list === undefined) lists.set(key, [value])
  else list.push(value)
}
