/** Looks at what was done. */
import { fact } from "../facts.ts"
import { finishedNeeds } from "../finished.ts"
import { instancesOf } from "../lookup.ts"
import { nameTarget } from "./name-target.ts"
import type { ActionKind } from "./types.ts"

/** The inspection of all needs all work done; that of one piece needs the piece in place. */
export const inspect: ActionKind = {
  words: (act) => `inspects ${nameTarget(act)}`,
  facts: (lookup, { target }) => ({
    needs:
      target === "all"
        ? finishedNeeds(lookup, "inspect")
        : instancesOf(lookup, target).map((id) => ({
            fact: fact("on", id),
            why: `only what is in place can be inspected`,
          })),
    gives: target === "" ? [] : [fact("inspected", target)],
    takes: [],
  }),
}
