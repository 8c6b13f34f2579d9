/** What isolate, verify and restore act on. */
import type { Lookup } from "../lookup.ts"

/** The id itself; for `all`, every unit and cable that the kit isolates or that is powered. */
export function poweredTargets(lookup: Lookup, target: string): readonly string[] {
  return target === "all" ? [...lookup.live] : [target]
}
