/** Judges whether each passage has a cable. */
import { placeAt } from "../findings/places.ts"
import { defineRule } from "./types.ts"
import { allActs, explainByLeftOut } from "./uses.ts"

/** Finds passages that no act feeds a cable through and no cable has on its way. */
export const passageNeverUsed = defineRule({
  id: "passage-never-used",
  severity: "error",
  source: "the order proof: a passage is declared because a cable runs through it",
  check: ({ kit, sequence }) => {
    if (kit.told.includes("steps")) return []
    const isExplained = explainByLeftOut(kit, sequence)
    const used = new Set([
      ...allActs(kit).flatMap(({ through }) => through ?? []),
      ...kit.cables.flatMap(({ via }) => via),
    ])
    return kit.passages
      .filter(({ id, path }) => !used.has(id) && !isExplained(["feed"]) && !kit.told.includes(path))
      .map(({ id, path, part }) => ({
        message: `no step feeds a cable through passage \`${id}\``,
        where: placeAt(kit.places, path),
        why: `The passage in \`${part}\` is on the way of no cable, so the order of its cables is not proved.`,
        fix: `Write \`feed: … through ${id}\` in a step, or remove the passage.`,
        subjects: [id],
      }))
  },
})
