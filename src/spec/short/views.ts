/** Where a drawing looks from: `front-left-top`. */
import { nameOf } from "../names.ts"
import { hole } from "../read/tree.ts"
import type { ShortForm } from "../schema/forms.ts"
import { fault, quote } from "../tell.ts"

const sides = [
  ["front", "back"],
  ["left", "right"],
  ["top", "bottom"],
] as const

/** Takes up to three sides, none of them opposite, in any order and with spaces or hyphens. */
export const viewForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const words = tree.written
    .toLowerCase()
    .split(/[\s,-]+/)
    .filter((word) => !/^(?:from|the|)$/.test(word))
  const ordered = sides.map((pair) => pair.filter((side) => words.includes(side)))
  const known = ordered.flat()
  const isRight = known.length === new Set(words).size && known.length > 0 && ordered.every((pair) => pair.length < 2)
  if (isRight) return { ...tree, value: known.join("-") }
  const message = `${nameOf(at.path)} is ${quote(tree.written)}; needed are up to three sides, none opposite`
  at.tell(
    fault("unreadable-value", "error", {
      message,
      at: tree.span,
      path: at.path,
      fix: "write it like `front-left-top`",
    }),
  )
  return hole(tree.span)
}
