/**
 * The order as whole steps: what the smallest repair, the count of valid orders and the explanations work on.
 * A plan says nothing about screws or cables; a step has facts it needs, gives and takes, all at once. Plain data.
 * Steps are named by their index in `steps`, which is their present order.
 */
import type { FactKey, Need } from "./types.ts"

export type Plan = {
  /** Facts true before the first step. */
  readonly initial: readonly FactKey[]
  /** Must hold after the last step. */
  readonly goals: readonly Need[]
  readonly steps: readonly PlanStep[]
  /** `before` must stand before `after` in any order: `needs-after`, and steps that the maker keeps first or last. */
  readonly declared: readonly DeclaredOrder[]
}

export type PlanStep = {
  readonly id: string
  /** Facts that must hold when the step begins: needs of its acts that no earlier act of the step gives. */
  readonly needs: readonly PlanNeed[]
  /** Facts that hold after the step, and those that no longer do. A fact both given and taken counts as given. */
  readonly gives: readonly FactKey[]
  readonly takes: readonly FactKey[]
  /** The maker keeps it where it is: it may not be moved. */
  readonly isPinned: boolean
}

/** A need with the act that has it, third person with names: "tightens joint `foot`". */
export type PlanNeed = Need & { readonly act: string }

export type DeclaredOrder = { readonly before: number; readonly after: number; readonly why: string }

/** What a repair found. */
export type Repair =
  | { readonly kind: "valid" }
  | MovedSteps
  | {
      readonly kind: "impossible"
      /** Requirements that contradict each other; without any one of them an order exists (when `isMinimal`). */
      readonly core: readonly Requirement[]
      readonly isMinimal: boolean
    }
  | {
      /** The search ended at its limit without an order. */
      readonly kind: "not-found"
      readonly atLeast: number
    }

export type MovedSteps = {
  readonly kind: "moved"
  /** The new order: `order[position]` is the index of a step in the plan. */
  readonly order: readonly number[]
  /** Steps that were lifted out and put in elsewhere, in their new order. */
  readonly moves: readonly Move[]
  /** No order with fewer moves exists. When false, `atLeast` is what was proved. */
  readonly isProved: boolean
  readonly atLeast: number
  /** How many other answers with as few moves there are: `none`, `some`, or not known within the limit of the search. */
  readonly others: "none" | "some" | "unknown"
  /** Of the answers with as few moves, none moves steps less far; false when not all could be compared. */
  readonly isLeastFar: boolean
  /**
   * Why it cannot be fewer: groups of steps of which only one each can stay; the moves are the rest. Where a fact can come
   * from several steps the groups may prove fewer moves than needed; the rest was proved by trying every way.
   */
  readonly chains: readonly Chain[]
}

/** `after` is the index of the step it now follows; undefined when it is now the first. */
export type Move = { readonly step: number; readonly after: number | undefined }

/** Steps that stand in each other's way, in their present order; `reasons[i]` says why `steps[i + 1]` must come before `steps[i]`. */
export type Chain = { readonly steps: readonly number[]; readonly reasons: readonly string[] }

/** One thing an order must respect. */
export type Requirement =
  | { readonly kind: "need"; readonly step: number; readonly need: PlanNeed }
  | { readonly kind: "goal"; readonly need: Need }
  | { readonly kind: "declared"; readonly order: DeclaredOrder }
  | { readonly kind: "pinned"; readonly step: number }

/** What can be said about an order that is valid. */
export type OrderReport = {
  /** In the present order. */
  readonly steps: readonly StepFreedom[]
  readonly validOrders: OrderCount
  /** The most steps of which each could come before each other one (Dilworth). */
  readonly width: number
  /** Links between steps that no other links imply. */
  readonly reduction: readonly StepLink[]
}

/** Exact, or at least so many; a decimal number as text, since it outgrows a number quickly. */
export type OrderCount = { readonly kind: "exact" | "at-least"; readonly count: string }

export type StepFreedom = {
  readonly step: number
  /** What it needs, and the step that gives it; undefined for what is so on arrival. */
  readonly needs: readonly { readonly need: PlanNeed; readonly from: number | undefined }[]
  /** First and last place (from 0) it can take while all others keep their order. */
  readonly earliest: number
  readonly latest: number
  /** The steps that stop it there, with the reason as a sentence; undefined where only the end of the list does. */
  readonly heldBy: { readonly before: StepLink | undefined; readonly after: StepLink | undefined }
}

/** `from` before `to`, with the reason as one sentence with names from the spec. */
export type StepLink = {
  readonly from: number
  readonly to: number
  readonly kind: "gives" | "takes-away" | "declared"
  readonly reason: string
}
