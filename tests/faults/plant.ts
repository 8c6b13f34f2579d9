/** What an operator gives: every site of a kit where one kind of fault can be planted, with the finding that must tell it. */
import type { Kit } from "../../src/kit/types.ts"
import type { CleanVariant } from "./clean-kits.ts"
import type { Draft } from "./draft.ts"

/** A rule and the path of a value in the kit with the fault; the finding may point at it or at anything inside. */
export type Mark = {
  readonly rule: string
  readonly at: string
  /** What the line holds that the finding points at, where no path says enough. */
  readonly line?: string
}

export type Plant = {
  /** Names the site within its kit. */
  readonly site: string
  /** Plants the fault. */
  readonly edit: (draft: Draft) => void
  /**
   * One list for each finding that must be there, of the marks it may have; computed from the kit as it was. `kit` is the
   * one with the fault, of which only the order of the steps may be read.
   */
  readonly expect: (draft: Draft, kit: Kit) => readonly (readonly Mark[])[]
  /** Marks that further findings may have, where the fault makes a second thing wrong that a maker has to know as well. */
  readonly allow?: (draft: Draft, kit: Kit) => readonly Mark[]
}

export type Operator = {
  readonly name: string
  /** Rows of `faults.csv`. */
  readonly faults: readonly string[]
  readonly find: (variant: CleanVariant) => readonly Plant[]
}

/** Marks of one rule, or of each of several, at each of these paths; undefined paths fall out. */
export function marks(rules: string | readonly string[], ...paths: readonly (string | undefined)[]): readonly Mark[] {
  const ids = typeof rules === "string" ? [rules] : rules
  return ids.flatMap((rule) => paths.flatMap((at) => (at === undefined ? [] : [{ rule, at }])))
}
