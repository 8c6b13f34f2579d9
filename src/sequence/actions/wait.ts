/** Lets time pass. */
import { pauseFacts } from "../cured.ts"
import type { ActionKind } from "./types.ts"

/** Needs what it waits for stuck on or tight; what has rested long enough then has cured. */
export const wait: ActionKind = {
  words: ({ target, minutes }) =>
    `waits${minutes === undefined ? "" : ` ${minutes} min`}${target === "" ? "" : ` for \`${target}\``}`,
  facts: (lookup, act) => ({ ...pauseFacts(lookup, act), takes: [] }),
}
