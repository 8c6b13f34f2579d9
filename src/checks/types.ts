/** What a rule is. One rule per file; `registry.ts` lists them. */
import type { Report, Severity } from "../findings/types.ts"
import type { Fit } from "../fit/types.ts"
import type { Kit } from "../kit/types.ts"
import type { Sequence } from "../sequence/types.ts"

/** All that a rule may look at. */
export type Subject = { readonly kit: Kit; readonly fit: Fit; readonly sequence: Sequence }

export type Rule = {
  readonly id: string
  readonly severity: Severity
  /** Standard and clause, or `practice: ...`. */
  readonly source: string
  readonly check: (subject: Subject) => readonly Report[]
}

/** Names the fields of a rule; gives it back unchanged. */
export function defineRule(rule: Rule): Rule {
  return rule
}
