/** Sites of a kit: where an operator can plant its fault, over all variants, each with the variants that it touches. */
import type { Finding } from "../../src/findings/types.ts"
import { type CleanKit, type CleanVariant, nameFinding } from "./clean-kits.ts"
import { type Draft, openDraft, type TextFile, writeDraft } from "./draft.ts"
import type { Mark, Operator, Plant } from "./plant.ts"
import { proveVariants } from "./prove.ts"

export type Site = {
  readonly kit: CleanKit
  readonly operator: Operator
  readonly site: string
  readonly draft: Draft
  readonly files: readonly TextFile[]
  readonly plants: readonly { readonly variant: CleanVariant; readonly plant: Plant }[]
}

/** Every site of one operator in one kit. A fault in a file that several variants share is one site. */
export function findSites(kit: CleanKit, operator: Operator): readonly Site[] {
  const sites = new Map<string, Site>()
  for (const variant of kit.variants)
    for (const plant of operator.find(variant)) {
      const draft = openDraft(kit.files)
      plant.edit(draft)
      const files = writeDraft(draft)
      const key = JSON.stringify([plant.site, files])
      const known = sites.get(key)
      const plants = [...(known?.plants ?? []), { variant, plant }]
      sites.set(
        key,
        known === undefined ? { kit, operator, site: plant.site, draft, files, plants } : { ...known, plants },
      )
    }
  return [...sites.values()].filter(({ files }) => files.some(({ text }, index) => text !== kit.files[index]?.text))
}

/** One site of the operator, chosen at random, in one variant; undefined where there is none that is not passed over. */
export function pickSite(
  kit: CleanKit,
  operator: Operator,
  random: () => number,
  isPassedOver: (site: Site) => boolean,
): Site | undefined {
  const plants = kit.variants.flatMap((variant) => operator.find(variant).map((plant) => ({ variant, plant })))
  while (plants.length > 0) {
    const [one] = plants.splice(Math.floor(random() * plants.length), 1)
    if (one === undefined) return undefined
    const draft = openDraft(filesOf(kit, one.variant))
    one.plant.edit(draft)
    const files = writeDraft(draft)
    const site = { kit, operator, site: one.plant.site, draft, files, plants: [one] }
    const isChanged = files.some(({ text }, index) => text !== draft.files[index]?.text)
    if (isChanged && !isPassedOver(site)) return site
  }
  return undefined
}

/** Without several axes a variant is made of the kit and one file: the others need not be read. */
export function filesOf({ files }: CleanKit, { proof: { kit } }: CleanVariant): readonly TextFile[] {
  if (Object.keys(kit.variant.axes).length > 1 || files[0]?.text.includes("\naxes:") === true) return files
  const used = new Set(Object.values(kit.places).map(({ file }) => file))
  return files.filter(({ path }) => path === "kit.yaml" || used.has(path))
}

/** What is wrong about how a site is told, one line for each variant; empty when each expected finding is there and no other. */
export function judgeSite({ kit, draft, files, plants }: Site, most: number): readonly string[] {
  const judged = plants.slice(0, most)
  const proofs = proveVariants(
    kit.folder,
    files,
    judged.map(({ variant }) => variant.id),
  )
  return judged.flatMap(({ variant, plant }) => {
    const proof = proofs.find((one) => one.kit.variant.id === variant.id)
    if (proof === undefined) return [`${variant.id}: the variant is gone`]
    const expected = plant.expect(draft, proof.kit)
    const allowed = plant.allow?.(draft, proof.kit) ?? []
    const words = compare(files, newFindings(variant, proof.findings), expected, allowed)
    return words === undefined ? [] : [`${variant.id}: ${words}`]
  })
}

/** Findings that the clean variant has not. */
export function newFindings(variant: CleanVariant, findings: readonly Finding[]): readonly Finding[] {
  return findings.filter((one) => !variant.known.has(nameFinding(one)) && one.accepted === undefined)
}

/** Says what is missing or too many; undefined when findings and marks answer each other. */
function compare(
  files: readonly TextFile[],
  found: readonly Finding[],
  expected: readonly (readonly Mark[])[],
  allowed: readonly Mark[],
): string | undefined {
  if (expected.length === 0) return "nothing is expected"
  const { missing, left: others } = match(files, found, expected)
  // Notes are advice about how an order reads; a fault may well give some.
  const left = others.filter((one) => one.severity !== "note" && !allowed.some((mark) => fits(files, one, mark)))
  if (missing.length === 0 && left.length === 0) return undefined
  const names = (list: readonly Finding[]): string =>
    list.length === 0 ? "nothing" : list.map((one) => `${nameFinding(one)} (${one.message})`).join("; ")
  const wanted = missing.map((list) => list.map(({ rule, at }) => `${rule} ${at}`).join(" | ")).join("; ")
  return missing.length > 0
    ? `expected ${wanted || "?"}, found ${names(left)}`
    : `besides what was expected: ${names(left)}`
}

/** Takes for each expected finding one that fits; gives what is missing and what is left. */
export function match(
  files: readonly TextFile[],
  found: readonly Finding[],
  expected: readonly (readonly Mark[])[],
): { readonly missing: readonly (readonly Mark[])[]; readonly left: readonly Finding[] } {
  const left = [...found]
  const missing = expected.filter((wanted) => {
    const index = left.findIndex((one) => wanted.some((mark) => fits(files, one, mark)))
    if (index >= 0) left.splice(index, 1)
    return index < 0
  })
  return { missing, left }
}

/** True when the finding is of the rule and points at the path, or into it, or at the line. */
function fits(files: readonly TextFile[], { id, where }: Finding, { rule, at, line }: Mark): boolean {
  const path = where.path.join("/")
  if (id !== rule) return false
  if (line === undefined) return path === at || path.startsWith(`${at}/`)
  const text = files.find((file) => file.path === where.file)?.text ?? ""
  return path === at && (text.split("\n")[where.line - 1] ?? "").includes(line)
}
