/** What the rules about curing and discharging share: how long the steps wait, and how that is told. Times in minutes. */
import { placeAt } from "../findings/places.ts"
import type { Report } from "../findings/types.ts"
import type { Kit } from "../kit/types.ts"
import { describeAct, subjectOf } from "../sequence/index.ts"
import type { Action, OrderFault, Sequence } from "../sequence/types.ts"
import { trimmed } from "../units/print.ts"
import { fitMessage } from "./order-words.ts"

/** A thing that needs time: `rests` as in "pad `grip` rests", `since` as in "since it is stuck on". */
export type Resting = {
  readonly id: string
  readonly path: string
  readonly field: "cure" | "discharge"
  readonly minutes: number
  readonly rests: string
  readonly since: string
  /** The fact that its time is over. */
  readonly fact: string
  readonly begins: (action: Action) => boolean
}

/**
 * Tells that the acts of waiting never reach the time of a thing. Undefined when the order proof misses no such fact, or
 * when an act that could not be read explains it.
 */
export function tellRest(kit: Kit, sequence: Sequence, resting: Resting): Report | undefined {
  const { id, path, field, minutes, rests, since, fact } = resting
  const fault = sequence.faults.find(
    (one) =>
      "need" in one &&
      one.need.fact === fact &&
      (one.kind === "goal-missed" || one.kind === "nobody-gives" || isOtherWait(one)),
  )
  if (fault === undefined || ("leftOut" in fault && fault.leftOut !== undefined)) return undefined
  const { begin, pauses, load } = findPause(sequence, resting)
  const waited = pauses.reduce((sum, { act }) => sum + (act.minutes ?? 0), 0)
  const last = pauses.at(-1)
  const where = last?.act ?? load?.act ?? begin?.act
  const told = `${rests} ${sayMinutes(waited)} of ${sayMinutes(minutes)}`
  const sum = pauses.length > 1 ? `${pauses.map(({ act }) => trimmed(act.minutes ?? 0)).join(" + ")} = ` : ""
  const name = field === "cure" ? ` for ${id}` : ""
  return {
    message:
      load === undefined
        ? told
        : fitMessage(
            `${told} before step \`${load.step}\` ${describeAct(load.act)}`,
            `${told} before step \`${load.step}\``,
            told,
          ),
    where: placeAt(kit.places, where?.path ?? path),
    why:
      `\`${field}\` says ${sayMinutes(minutes)}; the acts of waiting since it ${since} make ${sum}${sayMinutes(waited)}. ` +
      "Other work in between is not counted.",
    fix:
      last === undefined
        ? `Write \`wait: ${sayMinutes(minutes)}${name}\` ${load === undefined ? "after" : "before"} this act.`
        : `Wait ${sayMinutes(minutes - waited)} longer.`,
    related: [{ message: "the time is stated here", where: placeAt(kit.places, path, field) }],
    subjects: [...new Set([id, ...[load, last].flatMap((one) => one?.step ?? [])])],
  }
}

/** True when what would give the time is a later wait that names something else: moving it is no help. */
export function isOtherWait(fault: OrderFault): boolean {
  if (fault.kind !== "needs-later" || !/^(cured|discharged):/.test(fault.need.fact)) return false
  const { verb, target } = fault.laterAct
  return verb === "wait" && target !== "" && target !== subjectOf(fault.need.fact)
}

/** The act after which the thing rests, the acts that wait until somebody needs it, and the act that does. */
function findPause(
  { actions }: Sequence,
  { fact, begins }: Resting,
): { readonly begin: Action | undefined; readonly pauses: readonly Action[]; readonly load: Action | undefined } {
  const needs = (action: Action): boolean => action.needs.some((need) => need.fact === fact)
  const begun = actions.findLastIndex((action, index) => begins(action) && actions.slice(index + 1).some(needs))
  const from = begun < 0 ? actions.findLastIndex(begins) : begun
  const after = actions.slice(from + 1)
  const loaded = after.findIndex(needs)
  const pauses = (loaded < 0 ? after : after.slice(0, loaded)).filter(({ verb }) => verb === "wait")
  return { begin: actions[from], pauses, load: after[loaded] }
}

/** `90 min`, `24 h`. */
function sayMinutes(minutes: number): string {
  return minutes >= 120 && minutes % 60 === 0 ? `${minutes / 60} h` : `${trimmed(minutes)} min`
}
