/** Judges whether adhesive pads and locked screws rest long enough before they are loaded or used. Times in minutes. */
import { placeAt } from "../findings/places.ts"
import type { Kit } from "../kit/types.ts"
import { describeAct } from "../sequence/index.ts"
import type { Action, OrderFault, Sequence } from "../sequence/types.ts"
import { trimmed } from "../units/print.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"

/**
 * Finds pads and joints whose `cure` the acts of waiting do not reach at any time before the end. All waits since the thing
 * was stuck on or tightened add up; other work is not counted. A wait that is long enough but stands too late is told by
 * the order proof.
 */
export const cureTimeTooShort = defineRule({
  id: "cure-time-too-short",
  severity: "error",
  source: "arithmetic: the waits add up to the time that the kit states",
  check: ({ kit, sequence }) =>
    curing(kit).flatMap(({ id, path, name, minutes }) => {
      const fault = sequence.faults.find((one) => isUncured(one, id))
      if (fault === undefined || ("leftOut" in fault && fault.leftOut !== undefined)) return []
      const { begin, pauses, load } = findPause(sequence, id)
      const waited = pauses.reduce((sum, { act }) => sum + (act.minutes ?? 0), 0)
      const last = pauses.at(-1)
      const where = last?.act ?? load?.act ?? begin?.act
      const before = load === undefined ? "" : ` before step \`${load.step}\` ${describeAct(load.act)}`
      const rests = `${name} \`${id}\` rests ${sayMinutes(waited)} of ${sayMinutes(minutes)}`
      const sum = pauses.length > 1 ? `${pauses.map(({ act }) => trimmed(act.minutes ?? 0)).join(" + ")} = ` : ""
      return [
        {
          message: fitMessage(
            `${rests}${before}`,
            load === undefined ? rests : `${rests} before step \`${load.step}\``,
            rests,
          ),
          where: placeAt(kit.places, where?.path ?? path),
          why:
            `\`cure\` says ${sayMinutes(minutes)}; the acts of waiting since it ${name === "pad" ? "is stuck on" : "is tight"} make ` +
            `${sum}${sayMinutes(waited)}. Other work in between is not counted.`,
          fix:
            last === undefined
              ? `Write \`wait: ${sayMinutes(minutes)} for ${id}\`${load === undefined ? " after it" : " before this act"}.`
              : `Wait ${sayMinutes(minutes - waited)} longer.`,
          related: [{ message: `the time is stated here`, where: placeAt(kit.places, path, "cure") }],
          subjects: [...new Set([id, ...[load, last].flatMap((one) => one?.step ?? [])])],
        },
      ]
    }),
})

type Curing = { readonly id: string; readonly path: string; readonly name: string; readonly minutes: number }

function curing(kit: Kit): readonly Curing[] {
  const one =
    (name: string) =>
    ({ id, path, cureMinutes }: Kit["pads"][number] | Kit["joints"][number]): readonly Curing[] =>
      cureMinutes === undefined ? [] : [{ id, path, name, minutes: cureMinutes }]
  return [...kit.pads.flatMap(one("pad")), ...kit.joints.flatMap(one("joint"))]
}

function isUncured(fault: OrderFault, id: string): boolean {
  return (fault.kind === "goal-missed" || fault.kind === "nobody-gives") && fault.need.fact === `cured:${id}`
}

/** The act after which the thing rests, the acts that wait until it is loaded, and the act that loads it. */
function findPause(
  { actions }: Sequence,
  id: string,
): { readonly begin: Action | undefined; readonly pauses: readonly Action[]; readonly load: Action | undefined } {
  const begun = actions.findLastIndex(({ takes }) => takes.includes(`cured:${id}`))
  const after = actions.slice(begun + 1)
  const loaded = after.findIndex(({ needs }) => needs.some(({ fact }) => fact === `cured:${id}`))
  const pauses = (loaded < 0 ? after : after.slice(0, loaded)).filter(({ verb }) => verb === "wait")
  return { begin: actions[begun], pauses, load: after[loaded] }
}

/** `90 min`, `24 h`. */
function sayMinutes(minutes: number): string {
  return minutes >= 120 && minutes % 60 === 0 ? `${minutes / 60} h` : `${trimmed(minutes)} min`
}
