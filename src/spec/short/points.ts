/** Flow lists that YAML cut at the commas inside their short forms. */
import type { Scalar, Tree } from "../read/tree.ts"
import type { ShortForm } from "../schema/forms.ts"

/** In `[4.3 at 0, 10, 14 x 10 at 5, 5]` YAML cuts at every comma; pieces that belong to one hole are joined again. */
export const shapeHolesForm: ShortForm = (tree) => {
  if (tree.kind === "scalar" && tree.value !== null) return { kind: "list", items: [tree], span: tree.span }
  if (tree.kind === "map") return { kind: "list", items: [tree], span: tree.span }
  if (tree.kind !== "list") return tree
  const items: Tree[] = []
  for (const item of tree.items) {
    const before = items.at(-1)
    const isRest = item.kind === "scalar" && item.value !== null && !/\sat\s/i.test(item.written)
    if (isRest && before?.kind === "scalar") items[items.length - 1] = joinScalars(before, item)
    else items.push(item)
  }
  return { ...tree, items }
}

/** Six numbers in a row are two points; `[10, 20, 5 along down]` is one. */
export const pointsForm: ShortForm = (tree) => {
  if (tree.kind === "scalar" && tree.value !== null) return { kind: "list", items: [tree], span: tree.span }
  if (tree.kind === "map") return { kind: "list", items: [tree], span: tree.span }
  if (tree.kind !== "list") return tree
  const scalars = tree.items.flatMap((item) => (item.kind === "scalar" && item.value !== null ? [item] : []))
  const isFlat = scalars.length === tree.items.length && scalars.length > 0 && scalars.length % 3 === 0
  if (!isFlat || scalars.some((item) => /,/.test(item.written))) return tree
  const items = scalars.flatMap((item, index) => {
    const [second, third] = [scalars[index + 1], scalars[index + 2]]
    return index % 3 === 0 && second !== undefined && third !== undefined
      ? [joinScalars(joinScalars(item, second), third)]
      : []
  })
  return { ...tree, items }
}

function joinScalars(one: Scalar, other: Scalar): Scalar {
  const written = `${one.written}, ${other.written}`
  const from = one.written.length + 2
  const stretches = [...one.stretches, ...other.stretches.map((stretch) => ({ ...stretch, at: stretch.at + from }))]
  const span = { ...one.span, endLine: other.span.endLine, endColumn: other.span.endColumn }
  return { ...one, value: written, written, stretches, span }
}
