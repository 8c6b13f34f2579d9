/** Whole steps in the wrong order. */
import type { Kit } from "../../../src/kit/types.ts"
import type { CleanVariant } from "../clean-kits.ts"
import { moveStep, swapSteps } from "../draft.ts"
import { simulate } from "../orders.ts"
import { type Mark, marks, type Operator, type Plant } from "../plant.ts"

/** Two steps of which the second needs the first are swapped. */
const swapLinkedSteps: Operator = {
  name: "swap-linked-steps",
  faults: ["F01"],
  find: (variant) =>
    linkedPairs(variant, swapped).map(
      ([first, second]): Plant => ({
        site: `${second} with ${first}`,
        edit: (draft) => swapSteps(draft, first, second),
        expect: (_, kit) => [brokenLinks(variant, kit)],
        // Two steps that change places over others are two steps in the wrong place.
        allow: (_, kit) => brokenLinks(variant, kit),
      }),
    ),
}

/** A step is put before one that it needs. */
const moveStepForward: Operator = {
  name: "move-step-forward",
  faults: ["F01"],
  find: (variant) =>
    linkedPairs(variant, movedForward).map(
      ([first, second]): Plant => ({
        site: `${second} before ${first}`,
        edit: (draft) => moveStep(draft, second, "before", first),
        expect: (_, kit) => [brokenLinks(variant, kit)],
        allow: (_, kit) => brokenWithAnchored(variant, kit),
      }),
    ),
}

/** A step is put behind one that needs it. */
const moveStepBack: Operator = {
  name: "move-step-back",
  faults: ["F01"],
  find: (variant) =>
    linkedPairs(variant, movedBack).map(
      ([first, second]): Plant => ({
        site: `${first} behind ${second}`,
        edit: (draft) => moveStep(draft, first, "behind", second),
        expect: (_, kit) => [brokenLinks(variant, kit)],
        allow: (_, kit) => brokenWithAnchored(variant, kit),
      }),
    ),
}

/** A step stands before the one that it names under `needs-after`, although no act asks for that. */
const breakDeclared: Operator = {
  name: "break-needs-after",
  faults: ["K01"],
  find: (variant) =>
    variant.proof.sequence.links
      .filter(({ kind, from, to }) => kind === "declared" && isInOneFile(variant, from, to))
      .map(
        ({ from, to }): Plant => ({
          site: `${to} before ${from}`,
          edit: (draft) => moveStep(draft, to, "before", from),
          expect: (_, kit) => [
            [...brokenLinks(variant, kit), ...marks("declared-order-broken", `steps/${to}/needs-after`)],
          ],
        }),
      ),
}

type Change = (order: readonly number[], first: number, second: number) => readonly number[]

const swapped: Change = (order, first, second) =>
  order.map((one) => (one === first ? second : one === second ? first : one))
const movedForward: Change = (order, first, second) =>
  order.filter((one) => one !== second).flatMap((one) => (one === first ? [second, first] : [one]))
const movedBack: Change = (order, first, second) =>
  order.filter((one) => one !== first).flatMap((one) => (one === second ? [second, first] : [one]))

/** Linked steps of one file whose change a simulation rejects: a link tells one way to meet a need, not the only one. */
function linkedPairs(variant: CleanVariant, change: Change): readonly (readonly [string, string])[] {
  const { kit, sequence } = variant.proof
  const present = kit.steps.map((_, index) => index)
  const indexOf = (id: string): number => kit.steps.findIndex((step) => step.id === id)
  const pairs = sequence.links
    .filter(({ from, to }) => isInOneFile(variant, from, to))
    .filter(({ from, to }) => !simulate(variant.proof, change(present, indexOf(from), indexOf(to))))
    .map(({ from, to }) => [from, to] as const)
  return [...new Map(pairs.map((pair) => [pair.join(" "), pair])).values()]
}

/** Steps of a variant file go along with the step that they are placed before: then several are in the wrong place. */
function brokenWithAnchored(variant: CleanVariant, kit: Kit): readonly Mark[] {
  const files = new Set(variant.proof.kit.steps.map(({ path }) => variant.proof.kit.places[path]?.file))
  return files.size > 1 ? brokenLinks(variant, kit) : []
}

function isInOneFile({ proof: { kit } }: CleanVariant, ...steps: readonly string[]): boolean {
  return new Set(steps.map((step) => kit.places[`steps/${step}`]?.file)).size === 1
}

/** Marks of every link of the clean kit that the new order breaks: at the act that needs, in its step. */
function brokenLinks({ proof: { sequence } }: CleanVariant, kit: Kit): readonly Mark[] {
  const places = new Map(kit.steps.map(({ id }, index) => [id, index]))
  return sequence.links.flatMap(({ from, to, kind }): readonly Mark[] => {
    if ((places.get(from) ?? 0) < (places.get(to) ?? 0)) return []
    if (kind === "gives") return marks("needs-something-later", `steps/${to}/do`)
    if (kind === "takes-away") return marks(["taken-away-before", "needs-something-later"], `steps/${from}/do`)
    return marks("declared-order-broken", `steps/${to}/needs-after`)
  })
}

/** All operators on whole steps. */
export const stepOrderOperators: readonly Operator[] = [swapLinkedSteps, moveStepForward, moveStepBack, breakDeclared]
