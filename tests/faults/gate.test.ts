/**
 * The checker is tested itself: every known kind of mistake is planted in every kit, and the rule that must tell it has to
 * tell it, once, at its place. `npm test` plants one mistake of each kind in each kit, `npm run test:all` every one.
 */
import { describe, expect, test } from "vitest"
import { randomNumbers } from "../sequence/random.ts"
import { faultKitFolders, readCleanKit } from "./clean-kits.ts"
import { operators } from "./operators/registry.ts"
import type { Operator } from "./plant.ts"
import { readCsv } from "./read-csv.ts"
import { findSites, judgeSite, pickSite, type Site } from "./sites.ts"

const isAll = process.env.KITLEAF_ALL === "1"
const seed = Number(process.env.KITLEAF_SEED ?? 20261125)
const random = randomNumbers(seed)
const survivors = readCsv("survivors.csv")
const kinds = readCsv("faults.csv").map((row) => ({
  name: `${row.id ?? ""} ${row.fault ?? ""}`,
  operators: operators.filter(({ faults }) => faults.includes(row.id ?? "")),
}))

const isListed = ({ kit, operator, site }: Site): boolean =>
  survivors.some((row) => row.kit === kit.folder && row.operator === operator.name && row.site === site)

describe.each(faultKitFolders.map((folder) => ({ folder })))("$folder", ({ folder }) => {
  const kit = readCleanKit(folder)

  test("the kit as it stands gives nothing but notes", () => {
    const told = kit.variants.flatMap(({ proof }) => proof.findings.filter(({ severity }) => severity !== "note"))
    expect(told.map(({ id, message }) => `${id}: ${message}`)).toEqual([])
  })

  if (isAll) return
  test(`one mistake of each kind, drawn with seed ${seed} (KITLEAF_SEED), is told`, () => {
    console.log(`${folder}: one mistake of each kind, seed ${seed} (KITLEAF_SEED)`)
    const unseen = kinds.flatMap((kind) => {
      const list = shuffle(kind.operators)
      for (const operator of list) {
        const site = pickSite(kit, operator, random, isListed)
        if (site !== undefined) return judgeSite(site, 1).map((words) => `${operator.name} [${site.site}] ${words}`)
      }
      return []
    })
    expect(unseen).toEqual([])
  })
})

if (isAll)
  describe("every site", () => {
    const planted = new Map<string, number>()
    const kits = new Map(faultKitFolders.map((folder) => [folder, readCleanKit(folder)]))

    test.each(operators.map((operator) => ({ name: operator.name, operator })))(
      "$name",
      ({ operator }) => {
        for (const [folder, kit] of kits) {
          const sites = findSites(kit, operator)
          planted.set(operator.name, (planted.get(operator.name) ?? 0) + sites.length)
          const told = sites.map((site) => ({ site, words: judgeSite(site, kit.variants.length) }))
          const unseen = told.filter(({ site, words }) => words.length > 0 && !isListed(site))
          expect.soft(unseen.map(({ site, words }) => `${folder} [${site.site}] ${words.join("; ")}`)).toEqual([])
          const stale = survivors
            .filter((row) => row.kit === folder && row.operator === operator.name)
            .filter((row) => told.every(({ site, words }) => site.site !== row.site || words.length === 0))
          expect.soft(stale.map((row) => `${row.site ?? ""} is a survivor no more`)).toEqual([])
        }
      },
      1_200_000,
    )

    test("every operator finds a site in some kit", () => {
      const idle = operators.filter(({ name }) => (planted.get(name) ?? 0) === 0)
      expect(idle.map(({ name }) => name)).toEqual([])
      const count = [...planted.values()].reduce((sum, one) => sum + one, 0)
      console.log(`${operators.length} operators, ${count} faults planted, ${survivors.length} survivors with a reason`)
    })
  })

function shuffle(list: readonly Operator[]): readonly Operator[] {
  return list
    .map((operator) => ({ operator, rank: random() }))
    .sort((one, other) => one.rank - other.rank)
    .map(({ operator }) => operator)
}
