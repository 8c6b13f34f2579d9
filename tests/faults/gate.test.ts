/**
 * The checker is tested itself: every known kind of mistake is planted in every kit, and the rule that must tell it has to
 * tell it, once, at its place. `npm test` plants one fault of each kind in each kit, `npm run test:all` every one.
 */
import { describe, expect, test } from "vitest"
import { randomNumbers } from "../sequence/random.ts"
import { faultKitFolders, readCleanKit } from "./clean-kits.ts"
import { operators } from "./operators/registry.ts"
import { readCsv } from "./read-csv.ts"
import { findSites, judgeSite, pickSite, type Site } from "./sites.ts"

const isAll = process.env.KITLEAF_ALL === "1"
const seed = Number(process.env.KITLEAF_SEED ?? 20261125)
const random = randomNumbers(seed)
const survivors = readCsv("survivors.csv")

/** How many faults were planted, by operator. */
const planted = new Map<string, number>()

if (!isAll) console.log(`fault gate: one site of each kind in each kit, seed ${seed} (KITLEAF_SEED)`)

const isListed = ({ kit, operator, site }: Site): boolean =>
  survivors.some((row) => row.kit === kit.folder && row.operator === operator.name && row.site === site)

describe.each(faultKitFolders.map((folder) => ({ folder })))("$folder", ({ folder }) => {
  const kit = readCleanKit(folder)

  test("the kit as it stands gives nothing but notes", () => {
    const told = kit.variants.flatMap(({ proof }) => proof.findings.filter(({ severity }) => severity !== "note"))
    expect(told.map(({ id, message }) => `${id}: ${message}`)).toEqual([])
  })

  test.each(operators.map((operator) => ({ name: operator.name, operator })))(
    "$name",
    ({ operator }) => {
      const sites = isAll ? findSites(kit, operator) : [pickSite(kit, operator, random, isListed) ?? []].flat()
      planted.set(operator.name, (planted.get(operator.name) ?? 0) + sites.length)
      const told = sites.map((site) => ({ site, words: judgeSite(site, isAll ? 99 : 1) }))
      const unseen = told.filter(({ site, words }) => words.length > 0 && !isListed(site))
      expect(unseen.map(({ site, words }) => `${site.site}: ${words.join("; ")} (seed ${seed})`)).toEqual([])
      if (!isAll) return
      const names = sites.map(({ site }) => site)
      const stale = survivors
        .filter((row) => row.kit === folder && row.operator === operator.name)
        .filter(
          (row) =>
            !names.includes(row.site ?? "") ||
            told.every(({ site, words }) => site.site !== row.site || words.length === 0),
        )
      expect(stale.map((row) => `${row.site ?? ""} is a survivor no more`)).toEqual([])
    },
    1_200_000,
  )
})

test("every operator finds a site in some kit", () => {
  const idle = operators.filter(({ name }) => (planted.get(name) ?? 0) === 0)
  expect(idle.map(({ name }) => name)).toEqual([])
  if (!isAll) return
  const count = [...planted.values()].reduce((sum, one) => sum + one, 0)
  console.log(
    `fault gate: ${operators.length} operators, ${count} faults planted, ${survivors.length} survivors with a reason`,
  )
})
