import { spawn } from "node:child_process"
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { beforeAll, expect, test } from "vitest"
import { newKit } from "../../src/build/index.ts"
import { writeStl } from "../../src/solids/index.ts"
import { makeTempFolder } from "../build/temp-folder.ts"
import { mainFile, requireCompiled, runKitleaf } from "./run-kitleaf.ts"

beforeAll(requireCompiled)

/** Stack traces and the wording of libraries, none of which a user is to see. */
const foreignWords = /\bat .*\.js:\d+|node:internal|commander|ENOENT|EACCES|^error:/im

test.each([
  [[], /kitleaf new NAME/],
  [["--help"], /kitleaf COMMAND --help/],
  [["check", "--help"], /--strict {3}warnings count like errors/],
  [["order", "--help"], /the fewest steps to move/],
  [["build", "--help"], /guide\.letter\.pdf/],
  [["new", "--help"], /40 lines/],
  [["measure", "--help"], /every round hole/],
  [["schema", "--help"], /variant\.schema\.json/],
  [["--version"], /^\d+\.\d+\.\d+\n$/],
])("%j shows its own page", async (words, expected) => {
  const { code, stdout, stderr } = await runKitleaf(words, makeTempFolder())
  expect(stdout + stderr).toMatch(expected)
  expect(stdout + stderr).not.toMatch(/Usage:|Options:|display help/)
  expect(code).toBe(words.length === 0 ? 2 : 0)
})

test.each([
  [
    ["build", "arm", "--ouput", "x"],
    "`--ouput` is not an option of `kitleaf build`; did you mean `--out`. See `kitleaf build --help`.\n",
  ],
  [["check", "arm", "--json=1"], /^`kitleaf check` was not understood|is not an option/],
  [["chekc", "arm"], "`chekc` is not a command of kitleaf; did you mean `check`. See `kitleaf --help`.\n"],
  [["--jsn"], /^`--jsn` is not an option of `kitleaf`/],
  [["check"], "`kitleaf check` needs a folder. See `kitleaf check --help`.\n"],
  [["new"], "`kitleaf new` needs a name. See `kitleaf new --help`.\n"],
  [["measure", "a.stl", "b.stl"], "`kitleaf measure` takes one name, more are given. See `kitleaf measure --help`.\n"],
  [["build", "arm", "--out"], /needs a value/],
  [["build", ".", "--out", ""], "`--out` needs a value. See `kitleaf build --help`.\n"],
  [["check", "nowhere"], "There is no folder `nowhere`.\n"],
  [["build", "nowhere"], "There is no folder `nowhere`.\n"],
  [["schema", "nowhere"], "There is no folder `nowhere`.\n"],
  [["build", "file.txt"], "`file.txt` is not a folder; name the folder that holds kit.yaml.\n"],
])("%j is told in our own words and ends with 2", async (words, expected) => {
  const cwd = makeTempFolder()
  writeFileSync(join(cwd, "file.txt"), "")
  const { code, stdout, stderr } = await runKitleaf(words, cwd)
  if (typeof expected === "string") expect(stderr).toBe(expected)
  else expect(stderr).toMatch(expected)
  expect(stderr).not.toMatch(foreignWords)
  expect([code, stdout]).toEqual([2, ""])
})

test("`new` writes a kit that passes without a word, and nothing over another", async () => {
  const cwd = makeTempFolder()
  expect((await runKitleaf(["new", "arm"], cwd)).code).toBe(0)
  const lineCount = readFileSync(join(cwd, "arm", "kit.yaml"), "utf8").split("\n").length
  expect(lineCount).toBeGreaterThan(30)
  expect(lineCount).toBeLessThan(55)
  const check = await runKitleaf(["check", "arm", "--strict"], cwd)
  expect(check).toMatchObject({ code: 0, stdout: "arm: nothing found\n  round-32  passes\n" })
  const again = await runKitleaf(["new", "arm"], cwd)
  expect(again).toMatchObject({ code: 1, stderr: "`arm` is there already; choose another name.\n" })
  const unfit = await runKitleaf(["new", "Arm 2"], cwd)
  expect(unfit.stderr).toContain("`Arm 2` cannot be a kit's id")
})

test("`check` shows findings with place, marks and advice, ends with 1, and writes nothing", async () => {
  const cwd = makeTempFolder()
  newKit(join(cwd, "arm"))
  const file = join(cwd, "arm", "kit.yaml")
  writeFileSync(file, readFileSync(file, "utf8").replace("place: seat, start: base", "place: saet, start: base"))
  const { code, stdout, stderr } = await runKitleaf(["check", "arm"], cwd)
  const line =
    readFileSync(file, "utf8")
      .split("\n")
      .findIndex((text) => text.includes("saet")) + 1
  expect(stdout).toContain(`kit.yaml:${line}:`)
  expect(stdout).toContain("saet")
  expect(stdout).toMatch(/^ {2}fix {2}/m)
  expect(stdout).toMatch(/\^{4}/)
  expect(stdout).not.toMatch(foreignWords)
  expect(stderr).not.toMatch(foreignWords)
  expect(code).toBe(1)
  expect(readdirSync(join(cwd, "arm"))).toEqual(["kit.yaml"])
  expect(readdirSync(cwd)).toEqual(["arm"])
})

test("`--json` prints the same findings as data, and nothing else", async () => {
  const cwd = makeTempFolder()
  newKit(join(cwd, "arm"))
  const file = join(cwd, "arm", "kit.yaml")
  writeFileSync(file, readFileSync(file, "utf8").replace("through: seat", "through: saet"))
  const { code, stdout } = await runKitleaf(["check", "arm", "--json"], cwd)
  const [result] = JSON.parse(stdout) as { kit: string; findings: { id: string; where: { line: number } }[] }[]
  expect(result?.kit).toBe("arm")
  expect(result?.findings.length).toBeGreaterThan(0)
  expect(result?.findings[0]?.where.line).toBeGreaterThan(1)
  expect(code).toBe(1)
})

test("a folder without a kit is told", async () => {
  const cwd = makeTempFolder()
  mkdirSync(join(cwd, "empty"))
  const { code, stdout } = await runKitleaf(["check", "empty"], cwd)
  expect(stdout).toContain("kit-file-missing")
  expect(code).toBe(1)
})

test("steps in an order that cannot be done: nothing is written, and the last good documents stay", async () => {
  const cwd = makeTempFolder()
  newKit(join(cwd, "arm"))
  const built = await runKitleaf(["build", "arm"], cwd)
  expect([built.code, built.stdout]).toEqual([0, "arm: nothing found\n  round-32  built\nOpen out/index.html\n"])
  const folder = join(cwd, "out", "arm", "round-32")
  const before = readdirSync(folder).map((name) => [name, statSync(join(folder, name)).mtimeMs])
  const file = join(cwd, "arm", "kit.yaml")
  const [head = "", seat = "", tube = ""] = readFileSync(file, "utf8").split(/^ {2}(?=seat:\n {4}do|tube:\n {4}do)/m)
  writeFileSync(file, `${head}  ${tube}  ${seat}`)
  const { code, stdout } = await runKitleaf(["build", "arm"], cwd)
  expect(code).toBe(1)
  expect(stdout).toMatch(/not built: \d+ errors?; the documents of revision A still stand/)
  expect(stdout).toMatch(/`tube`|`seat`/)
  expect(readdirSync(folder).map((name) => [name, statSync(join(folder, name)).mtimeMs])).toEqual(before)
  const index = readFileSync(join(cwd, "out", "index.html"), "utf8")
  expect(index).toContain("still stand")
  // The report that stands belongs to the last good build: it would deny the errors.
  expect(index).toContain('href="arm/round-32/guide.html"')
  expect(index).not.toContain("report.html")
  expect(existsSync(join(cwd, "out", "arm", "round-32.not-current.json"))).toBe(true)
})

test("a folder of documents that is a file is told", async () => {
  const cwd = makeTempFolder()
  newKit(join(cwd, "arm"))
  writeFileSync(join(cwd, "out"), "")
  const { code, stderr } = await runKitleaf(["build", "arm"], cwd)
  expect([code, stderr]).toEqual([2, "`out` is in the way: it is a file where a folder is needed.\n"])
})

test("an `index.html` of somebody else is not written over", async () => {
  const cwd = makeTempFolder()
  newKit(join(cwd, "arm"))
  writeFileSync(join(cwd, "index.html"), "mine")
  const { code, stderr } = await runKitleaf(["build", "arm", "--out", "."], cwd)
  expect([code, stderr]).toEqual([2, "`./index.html` was not made by kitleaf; name another folder with `--out`.\n"])
  expect(readFileSync(join(cwd, "index.html"), "utf8")).toBe("mine")
})

test("nobody reading what it says takes nothing away from a build", async () => {
  const cwd = makeTempFolder()
  newKit(join(cwd, "arm"))
  const child = spawn(process.execPath, [mainFile, "build", "arm"], { cwd, stdio: ["ignore", "pipe", "pipe"] })
  child.stdout.destroy()
  child.stderr.destroy()
  expect(await new Promise((resolve) => child.on("close", resolve))).toBe(0)
  expect(readdirSync(join(cwd, "out", "arm", "round-32"))).toContain("guide.a4.pdf")
})

test("a build that is told to stop says so, ends with 130 and leaves no lock", async () => {
  const cwd = makeTempFolder()
  newKit(join(cwd, "arm"))
  const child = spawn(process.execPath, [mainFile, "build", "arm"], { cwd, stdio: ["ignore", "ignore", "pipe"] })
  let told = ""
  child.stderr.on("data", (bytes: Buffer) => {
    // The browser is at work by then.
    const isFirst = !told.includes(": printing")
    told += bytes.toString()
    if (isFirst && told.includes(": printing")) child.kill("SIGINT")
  })
  expect(await new Promise((resolve) => child.on("close", resolve))).toBe(130)
  expect(told).toMatch(/\nStopped\. Variants that were not finished keep the documents they had\.\n$/)
  expect(readdirSync(join(cwd, "out", ".kitleaf")).filter((name) => name.startsWith("lock"))).toEqual([])
  expect(existsSync(join(cwd, "out", "arm"))).toBe(false)
})

test("findings of several kits name their files from where the command was given", async () => {
  const cwd = makeTempFolder()
  mkdirSync(join(cwd, "kits", "one"), { recursive: true })
  mkdirSync(join(cwd, "kits", "two"))
  writeFileSync(join(cwd, "kits", "one", "kit.yaml"), ": : [")
  writeFileSync(join(cwd, "kits", "two", "kit.yaml"), "")
  const { code, stdout } = await runKitleaf(["check", "kits", "./kits/one/"], cwd)
  expect(code).toBe(1)
  expect(stdout.match(/^ {2}kits\S+/gm)).toEqual(["  kits/one/kit.yaml:1:1", "  kits/two/kit.yaml"])
  expect(stdout).toMatch(/\n\none: 1 error\n\nerror /)
})

test("`schema` writes both schemas", async () => {
  const cwd = makeTempFolder()
  newKit(join(cwd, "arm"))
  const { code, stdout } = await runKitleaf(["schema", "arm"], cwd)
  expect([code, stdout]).toEqual([0, "wrote arm/kit.schema.json\nwrote arm/variant.schema.json\n"])
  for (const name of ["kit.schema.json", "variant.schema.json"]) {
    expect(JSON.parse(readFileSync(join(cwd, "arm", name), "utf8"))).toHaveProperty("$schema")
  }
})

test("`measure` prints size and holes, or why it cannot", async () => {
  const cwd = makeTempFolder()
  // A tetrahedron of 30 mm with right angles at the origin: its volume is 30^3 / 6 = 4500 mm3.
  const positions = new Float64Array([0, 0, 0, 30, 0, 0, 0, 30, 0, 0, 0, 30])
  const triangles = new Uint32Array([0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3])
  writeFileSync(join(cwd, "corner.stl"), writeStl({ positions, triangles }))
  writeFileSync(join(cwd, "broken.stl"), "solid x\nfacet normal 0 0")
  const measured = await runKitleaf(["measure", "corner.stl"], cwd)
  expect(measured.code).toBe(0)
  expect(measured.stdout).toContain("30 x 30 x 30 mm")
  expect(measured.stdout).toContain("4.5 cm3")
  const inInches = await runKitleaf(["measure", "corner.stl", "--unit", "inch", "--json"], cwd)
  expect(JSON.parse(inInches.stdout)).toMatchObject({ sizeMm: [762, 762, 762] })
  for (const words of [["broken.stl"], ["missing.stl"], ["."], ["corner.stl", "--unit", "foot"]]) {
    const { code, stdout, stderr } = await runKitleaf(["measure", ...words], cwd)
    expect([code, stdout]).toEqual([1, ""])
    expect(stderr).not.toMatch(foreignWords)
    expect(stderr.length).toBeGreaterThan(15)
  }
})

test("the compiled program can be run by its name", () => {
  expect(readFileSync(mainFile, "utf8").startsWith("#!/usr/bin/env node\n")).toBe(true)
  if (process.platform !== "win32") expect(statSync(mainFile).mode & 0o111).toBe(0o111)
  expect(existsSync(mainFile)).toBe(true)
})
