/** Why a text is not edited: a finding with its place, never half an edit. */
import type { Finding } from "../../findings/types.ts"
import { fault } from "../tell.ts"

/** The edited text, or why it stays as it is. */
export type Edit = { readonly text: string } | { readonly refusal: Finding }

/** A place in the text: line and column from 1, and how many letters are meant. */
export type Spot = { readonly line: number; readonly column: number; readonly length?: number }

/** Makes a refusal that points into `file`. */
export function refuse(
  file: string,
  { line, column, length = 1 }: Spot,
  words: { readonly message: string; readonly why?: string; readonly fix: string },
): { readonly refusal: Finding } {
  const at = { file, line, column, endLine: line, endColumn: column + length }
  return { refusal: fault("steps-not-movable", "error", { ...words, at, path: ["steps"] }) }
}
