/** What the operations on the order of steps give; the command line and other programs see no more than this. */
import type { Finding } from "../findings/types.ts"
import type { OrderReport, Plan, Repair } from "../sequence/plan-types.ts"
import type { SourceFile } from "./types.ts"

/** A step by its number in the order, from 1. The title is the maker's, or what its acts do. */
export type NumberedStep = { readonly number: number; readonly id: string; readonly title: string }

/** Variants whose order and everything about it are equal. */
export type OrderOfVariants = {
  readonly variants: readonly string[]
  readonly steps: readonly NumberedStep[]
  readonly plan: Plan
  readonly report: OrderReport
}

export type OrderResult = {
  readonly kit: string
  readonly folder: string
  /** All variants of the kit. */
  readonly variants: readonly string[]
  /** Variants whose order is valid; those with a faulty one are left out. */
  readonly orders: readonly OrderOfVariants[]
  /** What stops the order from being told: all findings of a kit that cannot be read, else those of the order. */
  readonly findings: readonly Finding[]
  /** The order is faulty, so that a repair could be looked for. */
  readonly isFaulty: boolean
  /** Errors that are not about the order. */
  readonly otherErrorCount: number
  readonly files: readonly SourceFile[]
}

export type RepairResult = {
  readonly kit: string
  readonly folder: string
  readonly variants: readonly string[]
  /** What was found before, as in `OrderResult`. */
  readonly findings: readonly Finding[]
  /** Undefined when the kit cannot be read. */
  readonly repair: Repair | undefined
  /** The repair in sentences: what moves, and why it cannot be less. */
  readonly words: readonly string[]
  /** The steps of all variants together, in their present and in their new order. */
  readonly before: readonly NumberedStep[]
  readonly after: readonly NumberedStep[]
  /** Findings of the order that the move does not mend, by the proof of the new texts. */
  readonly stillOpen: readonly Finding[]
  /** Why the new order is not written, when it cannot be. */
  readonly refusals: readonly Finding[]
  readonly problem: string | undefined
  /** Files that would change, or did. */
  readonly changed: readonly string[]
  readonly isWritten: boolean
  readonly files: readonly SourceFile[]
}
