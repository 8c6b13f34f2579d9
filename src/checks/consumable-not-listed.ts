/** Judges whether the kit lists something to clean and to wet threads with. */
import { placeAt } from "../findings/places.ts"
import type { Kit } from "../kit/types.ts"
import { defineRule } from "./types.ts"

/**
 * Finds kits without any consumable whose steps clean something, or whose threads are oiled, greased or locked. Which
 * consumable is for what stands only in the maker's words, so a kit that lists one is not judged.
 */
export const consumableNotListed = defineRule({
  id: "consumable-not-listed",
  severity: "warning",
  source: "practice: who lays everything out before the work must know what to buy",
  check: ({ kit }) => {
    if (kit.consumables.length > 0 || kit.told.includes("consumables")) return []
    const [first, ...others] = usesOf(kit)
    if (first === undefined) return []
    return [
      {
        message: `${first.words}, and the kit lists no consumable`,
        where: placeAt(kit.places, first.path, first.field),
        why: "What is used up and not in the box stands on page 1, so that the work does not stop half way.",
        fix: `Write for example \`consumables: { ${first.example} }\`.`,
        related: others
          .slice(0, 3)
          .map(({ words, path, field }) => ({ message: words, where: placeAt(kit.places, path, field) })),
        subjects: [...new Set([first, ...others].map(({ id }) => id))],
      },
    ]
  },
})

type Use = {
  readonly id: string
  readonly words: string
  readonly path: string
  readonly field: string
  readonly example: string
}

function usesOf(kit: Kit): readonly Use[] {
  const cleaned = kit.steps.flatMap(({ id, acts }) =>
    acts
      .filter(({ verb }) => verb === "clean")
      .map(({ path }): Use => {
        const words = `step \`${id}\` cleans something`
        return { id, words, path, field: "clean", example: "wipe: Lint-free wipe" }
      }),
  )
  const wetted = kit.joints.flatMap(({ id, path, surface }): readonly Use[] => {
    const example = surface === undefined ? undefined : examples[surface]
    const words = `the threads of joint \`${id}\` are marked \`${surface ?? ""}\``
    return example === undefined ? [] : [{ id, words, path, field: "surface", example }]
  })
  return [...cleaned, ...wetted]
}

const examples: Readonly<Record<NonNullable<Kit["joints"][number]["surface"]>, string | undefined>> = {
  dry: undefined,
  oiled: "oil: Thin oil",
  greased: "grease: Grease",
  "thread-lock": "thread-lock: Thread lock",
}
