/** The maker's Markdown as data: tree, references and numbers, each with its place. */
import type { Root } from "mdast"
import type { Place } from "../findings/types.ts"

/**
 * A text as it stands in the spec and where each stretch of it came from. From offset `at` the text runs on
 * one source line from `line`, `column`; the next stretch begins where it does not (a folded or indented line).
 */
export type SourceText = {
  readonly text: string
  readonly where: Place
  readonly stretches: readonly { readonly at: number; readonly line: number; readonly column: number }[]
}

/** A link such as `[](torque:hood)`; `label` is the maker's own words, empty when they are to be filled in. */
export type TextReference = {
  readonly kind: string
  readonly target: string
  readonly label: string
  readonly where: Place
}

/** A number with a unit typed by hand in running text, brought to the base unit. */
export type TextNumber = {
  readonly value: number
  readonly unit: string
  readonly written: string
  readonly where: Place
}

export type MakerText = {
  readonly source: SourceText
  readonly root: Root
  readonly references: readonly TextReference[]
  readonly numbers: readonly TextNumber[]
}
