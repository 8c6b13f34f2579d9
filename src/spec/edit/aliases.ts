/** Anchors and aliases of a file: what a changed order would make them stand for. */
import { type Document, isAlias, isNode, visit } from "yaml"

/** `at` is where the name is written. */
export type NamedPlace = { readonly name: string; readonly at: number }

/** Gives the first alias that another anchor, or none, comes before once everything stands where `placeOf` says. */
export function findTornAlias(document: Document, placeOf: (at: number) => number): NamedPlace | undefined {
  const { aliases, anchors } = listNames(document)
  const anchorBefore = (alias: NamedPlace, place: (at: number) => number): NamedPlace | undefined => {
    const earlier = anchors.filter(({ name, at }) => name === alias.name && place(at) < place(alias.at))
    return earlier.reduce<NamedPlace | undefined>(
      (last, one) => (last === undefined || place(one.at) > place(last.at) ? one : last),
      undefined,
    )
  }
  return aliases.find((alias) => anchorBefore(alias, (at) => at) !== anchorBefore(alias, placeOf))
}

/** Gives all aliases (`*name`) and anchors (`&name`), in the order of writing. */
function listNames(document: Document): {
  readonly aliases: readonly NamedPlace[]
  readonly anchors: readonly NamedPlace[]
} {
  const aliases: NamedPlace[] = []
  const anchors: NamedPlace[] = []
  visit(document, (_, node) => {
    if (!isNode(node)) return
    const at = node.range?.[0] ?? 0
    if (isAlias(node)) aliases.push({ name: node.source, at })
    else if (node.anchor !== undefined) anchors.push({ name: node.anchor, at })
  })
  return { aliases, anchors }
}
