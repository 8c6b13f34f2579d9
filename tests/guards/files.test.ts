import { expect, test } from "vitest"
import { sourceFiles } from "./source-files.ts"

test("no source file is over 400 lines without a reason in its first comment", () => {
  const long = sourceFiles("src", ".ts", ".mjs").filter(
    ({ text }) => text.split("\n").length > 400 && !/^\/\*\*[\s\S]*?long because/i.test(text.slice(0, 600)),
  )
  expect(long.map(({ path }) => path)).toEqual([])
})

test("every source file begins with a comment or with imports that one follows", () => {
  const bare = sourceFiles("src", ".ts").filter(({ text }) => !/^(#!.*\n)?(\/\*\*|import )/.test(text))
  expect(bare.map(({ path }) => path)).toEqual([])
})

test("every exported function, type and constant has a doc comment", () => {
  const bare = sourceFiles("src", ".ts").flatMap(({ path, text }) => {
    const lines = text.split("\n")
    return lines.flatMap((line, index) => {
      const isExported = /^export (async )?(function|const) /.test(line)
      const above = lines[index - 1] ?? ""
      return isExported && !above.trim().endsWith("*/") && !above.startsWith("export function ")
        ? [`${path}:${index + 1} ${line}`]
        : []
    })
  })
  expect(bare).toEqual([])
})

test("no skipped or focused test", () => {
  const found = sourceFiles("tests", ".test.ts").filter(({ text }) =>
    /\b(test|it|describe)\.(skip|only|todo)\(/.test(text),
  )
  expect(found.map(({ path }) => path).filter((path) => !path.includes("guards"))).toEqual([])
})

test("stages from units to document use no clock, disk, environment, console or randomness", () => {
  const folders = [
    "units",
    "findings",
    "text",
    "spec",
    "fasteners",
    "solids",
    "kit",
    "fit",
    "sequence",
    "checks",
    "drawing",
    "document",
  ]
  const impure = /\b(Date\.now|new Date\(\)|Math\.random|process\.|console\.|readFileSync|performance\.now)/
  const found = folders.flatMap((folder) => sourceFiles(`src/${folder}`, ".ts")).filter(({ text }) => impure.test(text))
  expect(found.map(({ path }) => path)).toEqual([])
})

test("files speak of the project alone: no machine path, no registry host", () => {
  const hosts = ["registry.npm" + "js", "deb.deb" + "ian.org", "/wo" + "rk/", "/ro" + "ot/", "bash_" + "jobs"]
  const all = ["src", "tests", "partials", "styles", "guides"].flatMap((folder) =>
    sourceFiles(folder, ".ts", ".mjs", ".yaml", ".md", ".hbs", ".css", ".json", ".csv"),
  )
  const found = all.filter(({ text }) => hosts.some((host) => text.includes(host)))
  expect(found.map(({ path }) => path)).toEqual([])
})
