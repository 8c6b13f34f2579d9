/** The model of mistakes is complete: each kind has operators, rules and a place, or cannot occur for a reason. */

import { readFileSync } from "node:fs"
import { expect, test } from "vitest"
import { rules } from "../../src/checks/registry.ts"
import { operators } from "./operators/registry.ts"
import { readCsv } from "./read-csv.ts"

const faults = readCsv("faults.csv")
const listOf = (text: string | undefined): readonly string[] =>
  text === "" || text === undefined ? [] : text.split("; ")

test("the 67 kinds of the model are there, and each kind once", () => {
  const ids = faults.map(({ id }) => id)
  expect(new Set(ids).size).toBe(ids.length)
  const model = Array.from({ length: 67 }, (_, index) => `F${String(index + 1).padStart(2, "0")}`)
  expect(model.filter((id) => !ids.includes(id))).toEqual([])
})

test("no cell is empty: a kind has operators, rules and a place, or a reason why it cannot occur", () => {
  const open = faults.filter((row) => {
    const cells = [row.operators, row.rules, row["where expected"]]
    const isPlanted = cells.every((cell) => cell !== "")
    const isBare = cells.every((cell) => cell === "")
    const cannot = row["cannot occur because"] !== ""
    return row.fault === "" || !(isPlanted ? !cannot : isBare && cannot)
  })
  expect(open.map(({ id }) => id)).toEqual([])
})

test("operators and rows name each other", () => {
  const pairs = operators.flatMap(({ name, faults: ids }) => ids.map((id) => `${id} ${name}`))
  const rows = faults.flatMap((row) => listOf(row.operators).map((name) => `${row.id ?? ""} ${name}`))
  expect([...rows].sort()).toEqual([...pairs].sort())
})

test("the rules of a row exist", () => {
  const text = readFileSync(new URL("../../guides/RULES.md", import.meta.url), "utf8")
  const known = new Set([...rules.map(({ id }) => id), ...[...text.matchAll(/^### (.+)$/gm)].map(([, id]) => id ?? "")])
  const unknown = faults.flatMap((row) => listOf(row.rules).filter((rule) => !known.has(rule)))
  expect(unknown).toEqual([])
})

test("each survivor has a kit, a known operator, a site and a reason", () => {
  const names = operators.map(({ name }) => name)
  const open = readCsv("survivors.csv").filter(
    (row) => [row.kit, row.site, row.reason].some((cell) => (cell ?? "") === "") || !names.includes(row.operator ?? ""),
  )
  expect(open).toEqual([])
})
