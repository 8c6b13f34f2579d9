/** Judges whether a unit that holds its charge is given the time to lose it. */
import { type Resting, tellRest } from "./rest-words.ts"
import { defineRule } from "./types.ts"

/**
 * Finds units whose `discharge` the acts of waiting since they are isolated do not reach before somebody verifies or works.
 * A wait that is long enough but stands too late is told by the order proof.
 */
export const dischargeTimeTooShort = defineRule({
  id: "discharge-time-too-short",
  severity: "error",
  source: "29 CFR 1910.147(d)(5): stored energy is relieved before the work",
  check: ({ kit, sequence }) =>
    kit.units.flatMap(({ id, path, dischargeMinutes: minutes }) => {
      if (minutes === undefined) return []
      const resting: Resting = {
        id,
        path,
        field: "discharge",
        minutes,
        rests: `unit \`${id}\` is left`,
        since: "is isolated",
        fact: `discharged:${id}`,
        begins: ({ verb, act }) => verb === "isolate" && act.target === id,
      }
      return tellRest(kit, sequence, resting) ?? []
    }),
})
