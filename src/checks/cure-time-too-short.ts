/** Judges whether adhesive pads and locked screws rest long enough before they are loaded or used. */
import type { Kit } from "../kit/types.ts"
import { type Resting, tellRest } from "./rest-words.ts"
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
  check: ({ kit, sequence }) => curing(kit).flatMap((resting) => tellRest(kit, sequence, resting) ?? []),
})

function curing(kit: Kit): readonly Resting[] {
  const rest =
    (name: string, since: string) =>
    ({ id, path, cureMinutes: minutes }: Kit["pads"][number] | Kit["joints"][number]): readonly Resting[] => {
      const fact = `cured:${id}`
      if (minutes === undefined) return []
      const rests = `${name} \`${id}\` rests`
      return [{ id, path, field: "cure", minutes, rests, since, fact, begins: ({ takes }) => takes.includes(fact) }]
    }
  return [...kit.pads.flatMap(rest("pad", "is stuck on")), ...kit.joints.flatMap(rest("joint", "is tight"))]
}
