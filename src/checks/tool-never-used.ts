/** Judges whether each declared tool has a use. */
import { placeAt } from "../findings/places.ts"
import { defineRule } from "./types.ts"

/** Finds tools that no step names, neither under `tools:` nor in its texts. */
export const toolNeverUsed = defineRule({
  id: "tool-never-used",
  severity: "warning",
  source: "practice: who lays out the tools looks for the use of each",
  check: ({ kit }) => {
    const used = new Set(
      kit.steps.flatMap(({ tools, text, result, caution }) => [
        ...tools,
        ...[text, result, ...caution].flatMap((one) =>
          (one?.references ?? []).flatMap(({ kind, target }) => (kind === "tool" ? [target] : [])),
        ),
      ]),
    )
    if (kit.told.includes("steps")) return []
    return kit.tools
      .filter(({ id, path }) => !used.has(id) && !kit.told.includes(path))
      .map(({ id, path }) => ({
        message: `no step uses tool \`${id}\``,
        where: placeAt(kit.places, path),
        why: "The list of tools would ask the buyer for something that stays in the drawer.",
        fix: `Name it under \`tools:\` of a step, write \`[](tool:${id})\` in a text, or remove it.`,
        subjects: [id],
      }))
  },
})
