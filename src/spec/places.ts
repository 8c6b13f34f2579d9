/** Where every value of a merged kit was written, keyed by its path of names. */
import type { Place } from "../findings/types.ts"
import { rootSpan } from "./issue-words.ts"
import type { Span, Tree } from "./read/tree.ts"

/**
 * Gives a place for every key and list item. A map or a list over several lines is shown at its key, a single value at
 * itself. Values that were left out as faulty have a place too: a name that is here but not in the spec was told already.
 */
export function collectPlaces(tree: Tree): Record<string, Place> {
  const places: Record<string, Place> = {}
  const add = (path: readonly string[], span: Span): void => {
    places[path.join("/")] = { ...span, path }
  }
  const walk = (value: Tree, path: readonly string[]): void => {
    if (value.kind === "map") {
      for (const entry of value.entries) {
        const below = [...path, entry.key]
        const isAtKey =
          (entry.value.kind === "map" && !entry.value.isShort) ||
          (entry.value.kind === "list" && entry.value.span.line !== entry.value.span.endLine)
        add(below, isAtKey ? entry.keySpan : entry.value.span)
        walk(entry.value, below)
      }
    }
    if (value.kind === "list") {
      value.items.forEach((item, index) => {
        add([...path, String(index)], item.span)
        walk(item, [...path, String(index)])
      })
    }
  }
  add([], rootSpan(tree))
  walk(tree, [])
  return places
}
