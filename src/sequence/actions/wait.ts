/** Lets time pass. */
import type { ActionKind } from "./types.ts"

/** Needs nothing and changes nothing that the order proof knows. */
export const wait: ActionKind = {
  words: ({ minutes }) => (minutes === undefined ? "waits" : `waits ${minutes} min`),
  facts: () => ({ needs: [], gives: [], takes: [] }),
}
