import { readdirSync, readFileSync } from "node:fs"
import { expect, test } from "vitest"
import { loadKernel } from "../../src/solids/index.ts"
import { asMark, proveFixture, readMarks } from "./fixture.ts"

const folder = new URL("./", import.meta.url).pathname
const kernel = await loadKernel()
const fixtures = readdirSync(folder, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && entry.name !== "models")
  .flatMap(({ name }) => readdirSync(`${folder}/${name}`).map((file) => ({ rule: name, file: `${name}/${file}` })))

/** Findings of the folder's own rule must match its marks exactly; any other error must be marked too. */
test.each(fixtures)("$file", ({ rule, file }) => {
  const text = readFileSync(folder + file, "utf8")
  const found = proveFixture(text, kernel).filter(({ id, severity }) => id === rule || severity === "error")
  expect([...found].map(asMark).sort()).toEqual(readMarks(text))
})
