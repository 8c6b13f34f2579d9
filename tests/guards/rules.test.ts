import { existsSync, readdirSync, readFileSync } from "node:fs"
import { expect, test } from "vitest"
import { rules } from "../../src/checks/registry.ts"

const root = new URL("../..", import.meta.url).pathname
const ids = rules.map(({ id }) => id)

test("the registry is sorted and names no rule twice", () => {
  expect(ids).toEqual([...new Set(ids)].sort())
})

test("every rule has a file of its name, a folder of fixtures and a paragraph in the list", () => {
  const list = readFileSync(`${root}/guides/RULES.md`, "utf8")
  const missing = ids.flatMap((id) => [
    ...(existsSync(`${root}/src/checks/${id}.ts`) ? [] : [`${id}: no file`]),
    ...(existsSync(`${root}/tests/checks/${id}`) && readdirSync(`${root}/tests/checks/${id}`).length >= 2
      ? []
      : [`${id}: fewer than two fixtures`]),
    ...(list.includes(`### ${id}\n`) ? [] : [`${id}: not in guides/RULES.md`]),
  ])
  expect(missing).toEqual([])
})

test("the list names no rule that is gone", () => {
  const list = readFileSync(`${root}/guides/RULES.md`, "utf8").split("## Found while reading")[0] ?? ""
  const named = [...list.matchAll(/^### (.+)$/gm)].map(([, id]) => id)
  expect(named.filter((id) => !ids.includes(id ?? ""))).toEqual([])
})
