import { execFileSync, spawnSync } from "node:child_process"
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { afterAll, beforeAll, expect, test } from "vitest"
import { findPackageFolder } from "../../src/build/assets.ts"
import { requireCompiled } from "../cli/run-kitleaf.ts"
import { makeTempFolder } from "./temp-folder.ts"

const root = findPackageFolder()

beforeAll(requireCompiled)

const folder = mkdtempSync(join(tmpdir(), "kitleaf-package-"))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const [packed] = JSON.parse(npm(["pack", "--json", "--pack-destination", folder], root)) as {
  filename: string
  files: { path: string }[]
  size: number
}[]

/** npm without its own scripts; the set-up that packing runs is told to stay away. */
function npm(words: readonly string[], cwd: string): string {
  return execFileSync("npm", [...words, "--ignore-scripts", "--no-audit", "--no-fund"], {
    cwd,
    encoding: "utf8",
    stdio: ["ignore", "pipe", "pipe"],
    env: { ...process.env, npm_config_offline: undefined },
  })
}

test("the package holds what it needs to run and nothing of tests or demo kits", () => {
  const paths = packed?.files.map(({ path }) => path) ?? []
  const own = ["package.json", "LICENSE", "README.md", "guides/README.md", "guides/RULES.md"]
  expect(paths).toEqual(
    expect.arrayContaining([
      ...own,
      ".build/cli/main.js",
      ".build/partials/guide.hbs",
      ".build/styles/guide.css",
      ".build/styles/fonts/LICENSE-OFL.txt",
    ]),
  )
  expect(paths.filter((path) => /^(tests|src|out|node_modules)\/|\.stl$|stamp|\.map$/.test(path))).toEqual([])
  expect(packed?.size ?? 0).toBeLessThan(2_000_000)
})

test("installed from its package into an empty folder, it starts, checks and builds a kit", () => {
  writeFileSync(join(folder, "package.json"), '{ "name": "buyer", "private": true }\n')
  npm(["install", `./${packed?.filename}`, "--prefer-offline"], folder)
  const run = (...words: readonly string[]): string => {
    const { status, stdout, stderr } = spawnSync("npx", ["--no", "--", "kitleaf", ...words], {
      cwd: folder,
      encoding: "utf8",
    })
    expect([words, status, stderr.includes("npm ERR")]).toEqual([words, 0, false])
    return stdout
  }
  run("new", "arm")
  expect(run("check", "arm")).toContain("passes")
  expect(run("build", "arm")).toContain("built")
  const files = readdirSync(join(folder, "out", "arm", "round-32"))
  expect(files).toEqual(
    expect.arrayContaining(["guide.html", "guide.a4.pdf", "guide.letter.pdf", "card.pdf", "report.json"]),
  )
  expect(
    readFileSync(join(folder, "out", "arm", "round-32", "guide.a4.pdf"))
      .subarray(0, 5)
      .toString(),
  ).toBe("%PDF-")
})

test("in the clone itself, npx finds the program", () => {
  const { status, stdout } = spawnSync("npx", ["--no", "--", "kitleaf", "--version"], { cwd: root, encoding: "utf8" })
  const { version } = JSON.parse(readFileSync(join(root, "package.json"), "utf8")) as { version: string }
  expect([status, stdout]).toEqual([0, `${version}\n`])
})

test("set-up that has nothing to do says nothing, and one that is not wanted says so", () => {
  // A browser that is named and not there is no reason to install another one.
  const asked = join(folder, "apt-get-was-called")
  writeFileSync(join(folder, "apt-get"), `#!/bin/sh\ntouch ${asked}\n`, { mode: 0o755 })
  const setUp = (env: Readonly<Record<string, string>>): readonly unknown[] => {
    const script = join(root, "src", "setup", "setup.mjs")
    const { status, stderr } = spawnSync(process.execPath, [script], {
      encoding: "utf8",
      env: { ...process.env, PATH: `${folder}:${process.env.PATH}`, ...env },
    })
    return [status, stderr]
  }
  expect(setUp({})).toEqual([0, ""])
  expect(setUp({ KITLEAF_SETUP: "no" })).toEqual([0, "Set-up skipped, since KITLEAF_SETUP=no\n"])
  const [status, stderr] = setUp({ KITLEAF_BROWSER: "/nowhere/browser" })
  expect(status).toBe(1)
  expect(stderr).toContain("KITLEAF_BROWSER names /nowhere/browser, and there is no such file.")
  expect(existsSync(asked)).toBe(false)
})

test("without a browser, HTML is built, it ends with 1 and says what to do", () => {
  const folder = makeTempFolder()
  const main = join(root, ".build", "cli", "main.js")
  // A machine where no browser is found: the finder looks at the search path, the home folder and Debian's place.
  const hidden = join(folder, "hidden.mjs")
  writeFileSync(
    hidden,
    `import fs from "node:fs"
import { syncBuiltinESMExports } from "node:module"
const { statSync } = fs
fs.statSync = (path, options) => (/chrom/.test(String(path)) ? undefined : statSync(path, options))
syncBuiltinESMExports()
`,
  )
  const run = (...words: readonly string[]) =>
    spawnSync(process.execPath, ["--import", hidden, main, ...words], { cwd: folder, encoding: "utf8" })
  run("new", "arm")
  const { status, stdout, stderr } = run("build", "arm")
  expect(status).toBe(1)
  expect(stdout).toContain("HTML built; no PDF, since no browser was found")
  expect(stderr).toContain("No PDF files were made. No browser was found to print PDF files with.")
  expect(stderr).toMatch(/apt-get install chromium-headless-shell|npx @puppeteer\/browsers install/)
  expect(readdirSync(join(folder, "out", "arm", "round-32")).sort()).toEqual([
    "drawings",
    "guide.html",
    "report.html",
    "report.json",
  ])
})
