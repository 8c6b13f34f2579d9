/** Two mistakes at once: each is told although the other is there. Pairs are drawn at random, with a printed seed. */
import { describe, expect, test } from "vitest"
import { randomNumbers } from "../sequence/random.ts"
import { type CleanKit, type CleanVariant, faultKitFolders, readCleanKit } from "./clean-kits.ts"
import { type Draft, namesTouched, openDraft, writeDraft } from "./draft.ts"
import { operators } from "./operators/registry.ts"
import type { Mark, Operator, Plant } from "./plant.ts"
import { proveVariants } from "./prove.ts"
import { readCsv } from "./read-csv.ts"
import { filesOf, match, newFindings } from "./sites.ts"

const isAll = process.env.KITLEAF_ALL === "1"
const seed = Number(process.env.KITLEAF_SEED ?? 20261125)
const pairCount = isAll ? 150 : 8
const survivors = readCsv("survivors.csv")

if (!isAll) console.log(`pairs of faults: ${pairCount} in each kit, seed ${seed} (KITLEAF_SEED)`)

/**
 * Operators whose fault the checker passes over on purpose while something else is wrong: advice about how an order reads
 * waits until the order is right, and an act that names nothing explains one other fault.
 */
const waiting: ReadonlySet<string> = new Set(["turn-twice", "step-copied", "name-unknown", "act-of-wrong-kind"])

/**
 * Faults with common ground with every fault of the order: what ends the work waits for all of it, and live work is told at
 * the act that comes first then.
 */
const wide: ReadonlySet<string> = new Set(["restore-before-work", "inspect-before-work", "isolate-missing"])

type Fault = { readonly operator: Operator; readonly plant: Plant }

describe.each(faultKitFolders.map((folder) => ({ folder })))("$folder", ({ folder }) => {
  const kit = readCleanKit(folder)

  test("both faults of a pair are told", () => {
    const random = randomNumbers(seed)
    const masked = Array.from({ length: pairCount }, () => judgePair(kit, random)).flatMap((words) => words ?? [])
    expect(masked).toEqual([])
  }, 1_200_000)
})

/** Plants two faults that have nothing to do with each other; says which of them is not told. */
function judgePair(kit: CleanKit, random: () => number): string | undefined {
  const choose = <Thing>(list: readonly Thing[]): Thing | undefined => list[Math.floor(random() * list.length)]
  const variant = choose(kit.variants)
  if (variant === undefined) return undefined
  const faults = operators
    .filter(({ name }) => !waiting.has(name) && !wide.has(name))
    .map((operator) => ({ operator, plants: operator.find(variant) }))
    .filter(({ plants }) => plants.length > 0)
  for (let attempt = 0; attempt < 40; attempt += 1) {
    const pair = [choose(faults), choose(faults)].flatMap((one): readonly Fault[] => {
      const plant = choose(one?.plants ?? [])
      return one === undefined || plant === undefined ? [] : [{ operator: one.operator, plant }]
    })
    const [first, second] = pair
    if (first === undefined || second === undefined || pair.some((one) => isListed(kit, one))) continue
    if (areApart(kit, variant, first, second)) return plantBoth(kit, variant, first, second)
  }
  return undefined
}

function plantBoth(kit: CleanKit, variant: CleanVariant, first: Fault, second: Fault): string | undefined {
  const draft = openDraft(filesOf(kit, variant))
  first.plant.edit(draft)
  second.plant.edit(draft)
  const files = writeDraft(draft)
  const [proof] = proveVariants(kit.folder, files, [variant.id])
  if (proof === undefined) return `${variant.id} is gone`
  const found = newFindings(variant, proof.findings)
  const expected = [first, second].flatMap(({ plant }) => plant.expect(draft, proof.kit))
  const { missing } = match(files, found, expected)
  if (missing.length === 0) return undefined
  const names = [first, second].map(({ operator, plant }) => `${operator.name} [${plant.site}]`).join(" + ")
  const wanted = missing.map((list) => list.map(({ rule, at }) => `${rule} ${at}`).join(" | ")).join("; ")
  return `${variant.id}: ${names}: missing ${wanted}, found ${found.map(({ id, message }) => `${id} ${message}`).join("; ")}`
}

/**
 * True when the two faults touch no step and no thing in common, neither in what is edited nor in what must be told: one
 * mistake may well take the ground from another, such as a missing act from the count written in it.
 */
function areApart(kit: CleanKit, variant: CleanVariant, first: Fault, second: Fault): boolean {
  const names = groundOf(kit, variant, first)
  return names.size > 0 && ![...groundOf(kit, variant, second)].some((name) => names.has(name))
}

function groundOf(kit: CleanKit, variant: CleanVariant, { plant }: Fault): ReadonlySet<string> {
  const draft: Draft = openDraft(filesOf(kit, variant))
  plant.edit(draft)
  const lists = plant.expect(draft, variant.proof.kit)
  const told = lists.flat().flatMap(({ at }: Mark) => at.split("/").slice(0, 2))
  const verbs =
    /^(steps|parts|joints|ties|pads|cables|passages|host|fits|place|start|tighten|feed|through|to|from|do|all)$/
  // What is told in a step has to do with all that the step acts on.
  const acted = variant.proof.kit.steps
    .filter(({ id }) => told.includes(id))
    .flatMap(({ acts }) => acts.flatMap(({ target }) => target.split(".")))
  // A changed count or screw changes what belongs in the box.
  const packed = draft.splices.length > 0 ? ["box"] : []
  return new Set([...namesTouched(draft), ...told, ...acted, ...packed].filter((name) => !verbs.test(name)))
}

function isListed({ folder }: CleanKit, { operator, plant }: Fault): boolean {
  return survivors.some((row) => row.kit === folder && row.operator === operator.name && row.site === plant.site)
}
