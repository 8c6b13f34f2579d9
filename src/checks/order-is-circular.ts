/** Judges whether there is any order at all. */
import { placeAt } from "../findings/places.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"

/** Finds steps that wait for each other in a circle; tells the shortest circle of each knot. */
export const orderIsCircular = defineRule({
  id: "order-is-circular",
  severity: "error",
  source: "the order proof",
  check: ({ kit, sequence }) => {
    const stepById = new Map(kit.steps.map((step) => [step.id, step]))
    return sequence.faults.flatMap((fault) => {
      if (fault.kind !== "circle") return []
      const steps = [...new Set(fault.links.map(({ to }) => to))]
      const names = steps.map((id) => `\`${id}\``)
      const placeOf = (id: string, waitsFor: string) => {
        const step = stepById.get(id)
        const declared = step?.needsAfter.find((after) => after.step === waitsFor)
        return placeAt(kit.places, declared?.path ?? step?.path ?? "")
      }
      const listed = `${names.slice(0, -1).join(", ")} and ${names.at(-1) ?? ""}`
      // What the maker declared is more likely the slip than what the acts need.
      const first = fault.links.find(({ kind }) => kind === "declared") ?? fault.links[0]
      if (first === undefined) return []
      return [
        {
          message:
            steps.length === 1
              ? `step ${listed.replace(/^ and /, "")} waits for itself`
              : fitMessage(
                  `steps ${listed} wait for each other`,
                  `steps ${names.slice(0, 2).join(", ")} and ${steps.length - 2} more wait for each other`,
                  `${steps.length} steps wait for each other`,
                ),
          where: placeOf(first.to, first.from),
          why: fault.links.map(({ reason }) => reason).join(" "),
          fix: "Drop one of these requirements, or move an act to another step.",
          related: fault.links.map(({ to, from, reason }) => ({
            message: reason.slice(0, 1).toLowerCase() + reason.slice(1).replace(/\.$/, ""),
            where: placeOf(to, from),
          })),
          subjects: steps,
        },
      ]
    })
  },
})
