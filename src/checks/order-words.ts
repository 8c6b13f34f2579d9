/** Sentences and advice that the rules about the order share. */
import { placeAt } from "../findings/places.ts"
import type { Related } from "../findings/types.ts"
import type { Act, Kit } from "../kit/types.ts"
import { describeAct, describeFact, subjectOf } from "../sequence/index.ts"
import type { AlsoBroken, Need, OrderFault } from "../sequence/types.ts"

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
