import { readdirSync, readFileSync } from "node:fs"
import { expect, test } from "vitest"

const root = new URL("../..", import.meta.url).pathname

/** Ids of findings stand in the source as the first word in quotes behind `fault(`, `tell(`, `say(` and `finding(`. */
function idsIn(folder: string): readonly string[] {
  return readdirSync(`${root}/src/${folder}`, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".ts"))
    .flatMap((file) => {
      const text = readFileSync(`${root}/src/${folder}/${file}`, "utf8")
      return [
        ...text.matchAll(/(?:fault|tell|say|finding)\(\s*(?:reading,\s*)?[^"()]{0,40}?"([a-z]+(?:-[a-z0-9]+)+)"/g),
      ].map(([, id = ""]) => id)
    })
}

test("every finding of loading and of texts stands in the list", () => {
  const list = readFileSync(`${root}/guides/RULES.md`, "utf8")
  const ids = [...new Set([...idsIn("spec"), ...idsIn("text")])].sort()
  expect(ids.length).toBeGreaterThan(45)
  expect(ids.filter((id) => !list.includes(`\n### ${id}\n`))).toEqual([])
})
