/** Bores: `depth: through`, `depth: through 6`. */
import { cut, type Tree, valueAt } from "../read/tree.ts"
import type { ShortForm } from "../schema/forms.ts"

/** Takes `through` out of the depth of a bore and says it with a key of its own. */
export const boreForm: ShortForm = (tree) => {
  if (tree.kind !== "map") return tree
  const depth = tree.entries.find((entry) => entry.key === "depth")
  const match = depth?.value.kind === "scalar" ? /^\s*through\b\s*/i.exec(depth.value.written) : null
  if (depth === undefined || depth.value.kind !== "scalar" || match === null) return tree
  const scalar = depth.value
  const rest = scalar.written.slice(match[0].length).trim()
  const length: Tree | undefined = rest === "" ? undefined : cut(scalar, match[0].length, scalar.written.length)
  const through = { key: "right-through", keySpan: depth.keySpan, value: valueAt(scalar.span, true), isNew: false }
  const entries = tree.entries.flatMap((entry) => {
    if (entry !== depth) return [entry]
    return length === undefined ? [through] : [{ ...entry, value: length }, through]
  })
  return { ...tree, entries }
}
