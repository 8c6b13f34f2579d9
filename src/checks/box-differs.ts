/** Judges the typed contents of the box against what the kit needs. */
import { placeAt } from "../findings/places.ts"
import { listUses } from "./single-use.ts"
import { defineRule } from "./types.ts"
import { pieces } from "./uses.ts"

/** Finds lines of `box:` with another count than joints, ties, pads and copies add up to, spares included, and items left out. */
export const boxDiffers = defineRule({
  id: "box-differs",
  severity: "error",
  source: "the supply: what is packed is what the joints, copies and spares add up to",
  check: ({ kit, fit }) => {
    if (kit.box.length === 0) return []
    const nameOf = (item: string): string => item.slice(item.indexOf(":") + 1)
    const typed = new Map<string, number>()
    for (const { item, count } of kit.box) typed.set(item, (typed.get(item) ?? 0) + count)
    const lines = new Map(kit.box.map((line) => [line.item, line]))
    const needed = new Map<string, { count: number; spare: number; uses: readonly string[] }>()
    for (const { item, count, spare, uses } of fit.box) {
      const known = needed.get(item)
      needed.set(item, {
        count: (known?.count ?? 0) + count,
        spare: (known?.spare ?? 0) + spare,
        uses: [...(known?.uses ?? []), ...uses],
      })
    }
    const lacking = new Map<string, number>()
    for (const { item, had, used } of listUses(kit))
      lacking.set(item, (lacking.get(item) ?? 0) + Math.max(0, used - had))
    const differing = [...lines.values()].flatMap(({ item, path }) => {
      const has = typed.get(item) ?? 0
      const need = needed.get(item) ?? { count: 0, spare: 0, uses: [] }
      const wanted = need.count + need.spare
      if (has === wanted) return []
      // Packed as the steps use it: that too few are declared is told by `supplied-too-few`.
      if (has === wanted + (lacking.get(item) ?? 0)) return []
      const uses = wanted > 0 || need.uses.length > 0 ? sayUses(need.uses) : "Nothing uses it"
      return [
        {
          message: `the box holds ${has} of \`${nameOf(item)}\`, the kit needs ${wanted}`,
          where: placeAt(kit.places, path),
          why: `${uses}: ${need.count} to use and ${need.spare} spare.`,
          fix: `Pack ${wanted}, or declare the difference as \`spare\`.`,
          subjects: [nameOf(item), ...need.uses],
        },
      ]
    })
    const missing = [...needed].flatMap(([item, { count, spare, uses }]) =>
      lines.has(item) || count + spare === 0
        ? []
        : [
            {
              message: `the box leaves out \`${nameOf(item)}\`, the kit needs ${count + spare}`,
              where: placeAt(kit.places, "box"),
              why: `${sayUses(uses)}: ${pieces(count)} to use and ${spare} spare.`,
              fix: "Add a line for it.",
              subjects: [nameOf(item), ...uses],
            },
          ],
    )
    return [...differing, ...missing]
  },
})

/** A part goes into the box by itself; screws, ties and pads are used by what they are for. */
function sayUses(uses: readonly string[]): string {
  return uses.length === 0 ? "Copies of the part" : `Used by ${uses.map((id) => `\`${id}\``).join(", ")}`
}
