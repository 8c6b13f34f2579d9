/** Variant files that lack a value or a step, and blocks of the kit that are gone. */
import { isMap, isScalar, parseDocument } from "yaml"
import type { Kit } from "../../../src/kit/types.ts"
import { writtenActs } from "../acts.ts"
import type { CleanVariant } from "../clean-kits.ts"
import { deleteEntry, deleteStep } from "../draft.ts"
import { type Mark, marks, type Operator, type Plant } from "../plant.ts"

/** A value of a variant that is left out, so that the kit's own is taken; and what then does not fit. */
type Left = { readonly path: readonly string[]; readonly expected: readonly Mark[]; readonly allowed: readonly Mark[] }

/** A variant file lacks one of its values. */
const variantValueMissing: Operator = {
  name: "variant-value-missing",
  faults: ["F48"],
  find: (variant) =>
    variant.files.flatMap(({ path: file, text }) => {
      if (!file.startsWith("variants/") || !isOwn(variant, file)) return []
      return leftOut(variant.proof.kit, text).map(
        ({ path, expected, allowed }): Plant => ({
          site: `${file} ${path.join("/")}`,
          edit: (draft) => deleteEntry(draft, file, path),
          expect: () => [expected],
          allow: () => allowed,
        }),
      )
    }),
}

/** True for the file of this variant. */
function isOwn({ proof: { kit } }: CleanVariant, file: string): boolean {
  return Object.values(kit.places).some((place) => place.file === file)
}

function leftOut(kit: Kit, text: string): readonly Left[] {
  const tube = marks("tube-outside-limits", "fits", ...kit.frames.map(({ path }) => `${path}/tube`))
  const seats = marks("seat-does-not-fit-tube", "parts", "host", "ties")
  const screws = marks(["screw-too-short", "screw-bottoms-out"], "joints")
  const holes = marks(["holes-do-not-meet", "hole-count-differs", "hole-not-found", "gap-in-joint"], "joints", "parts")
  const ties = marks("tie-too-short", "ties")
  const paths = entriesOf(text)
  return paths.flatMap((path): readonly Left[] => {
    const [block, id, key] = path
    if (block === "fits" && id === undefined) return [{ path, expected: tube, allowed: [] }]
    if (block === "host" && key === "tube") return [{ path, expected: tube, allowed: [...seats, ...ties] }]
    // A part of the variant alone has no other shape to fall back on.
    const isNew = paths.some((one) => one.join("/") === `parts/${id ?? ""}/new`)
    if (isNew) return []
    if (block === "parts" && (key === "model" || key === "shape"))
      return [{ path, expected: [...seats, ...holes], allowed: [...seats, ...holes, ...screws, ...ties] }]
    if (block === "joints" && key === "screws") return [{ path, expected: screws, allowed: holes }]
    return []
  })
}

/** Entries of the file by path: blocks, things, and keys of things. */
function entriesOf(text: string): readonly (readonly string[])[] {
  const found: (readonly string[])[] = []
  const walk = (node: unknown, path: readonly string[]): void => {
    if (!isMap(node)) return
    for (const { key, value } of node.items) {
      if (!isScalar(key)) continue
      const own = [...path, String(key.value)]
      found.push(own)
      if (own.length < 3) walk(value, own)
    }
  }
  walk(parseDocument(text).contents, [])
  return found
}

/** A variant lacks a step of its own. */
const variantStepMissing: Operator = {
  name: "variant-step-missing",
  faults: ["F49"],
  find: (variant) => {
    const { kit } = variant.proof
    const acts = writtenActs(variant)
    return kit.steps.flatMap(({ id, path }): readonly Plant[] => {
      const file = kit.places[path]?.file ?? "kit.yaml"
      const own = acts.filter(({ step }) => step === id)
      if (file === "kit.yaml" || own.length === 0) return []
      return [
        {
          site: `${file} ${id}`,
          edit: (draft) => deleteStep(draft, id),
          expect: () => [
            [
              ...marks("nobody-gives", ...kit.steps.map((step) => step.path)),
              ...own.flatMap(({ act }) => marks("item-never-used", `parts/${act.target}`, `joints/${act.target}`)),
            ],
          ],
        },
      ]
    })
  },
}

/** Nothing is listed that is used up, though the steps use something. */
const consumablesRemoved: Operator = {
  name: "consumables-removed",
  faults: ["F40"],
  find: (variant) => {
    const { kit } = variant.proof
    const file = kit.places.consumables?.file
    const uses = writtenActs(variant).filter(({ act }) => act.verb === "clean")
    if (file !== "kit.yaml" || uses.length === 0 || kit.consumables.some(({ path }) => kit.places[path]?.file !== file))
      return []
    return [
      {
        site: "consumables",
        edit: (draft) => deleteEntry(draft, file, ["consumables"]),
        expect: () => [marks("consumable-not-listed", ...uses.map(({ origin }) => origin))],
        // A variant that adds one changes what is no longer there.
        allow: () => marks(["unknown-id", "unknown-key"], "consumables"),
      },
    ]
  },
}

/** All operators on variants and blocks. */
export const variantOperators: readonly Operator[] = [variantValueMissing, variantStepMissing, consumablesRemoved]
