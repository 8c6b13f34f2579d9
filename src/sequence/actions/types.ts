/** What each file of this folder exports: the facts of one verb. */
import type { Act } from "../../kit/types.ts"
import type { Lookup } from "../lookup.ts"
import type { FactKey, Need } from "../types.ts"

/** A fact that is both taken and given counts as given. */
export type Facts = {
  readonly needs: readonly Need[]
  readonly gives: readonly FactKey[]
  readonly takes: readonly FactKey[]
}

/** Facts and words of one verb; `words` says what a step does, third person: "tightens joint `foot`". */
export type ActionKind = {
  readonly facts: (lookup: Lookup, act: Act) => Facts
  readonly words: (act: Act) => string
}
