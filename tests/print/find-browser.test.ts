import { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { afterAll, expect, test } from "vitest"
import { findBrowser } from "../../src/print/index.ts"

const folder = mkdtempSync(join(tmpdir(), "kitleaf-find-"))

afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** Makes an empty file that could be a program. */
function makeFile(...parts: readonly string[]): string {
  const path = join(folder, ...parts)
  mkdirSync(join(path, ".."), { recursive: true })
  writeFileSync(path, "")
  chmodSync(path, 0o755)
  return path
}

const own = makeFile("own", "browser")
const other = makeFile("other", "browser")
const onPath = makeFile("bin", "google-chrome")
const old = makeFile("home", ".cache/puppeteer/chrome-headless-shell/linux-99.0.1/inner/chrome-headless-shell")
const newer = makeFile("home", ".cache/puppeteer/chrome-headless-shell/linux-148.0.1/inner/chrome-headless-shell")
const home = join(folder, "home")

test.each([
  ["our variable goes first", { KITLEAF_BROWSER: own, CHROME_PATH: other }, own],
  ["then those that other programs read", { PUPPETEER_EXECUTABLE_PATH: other, PATH: join(folder, "bin") }, other],
  ["an empty variable names nothing", { KITLEAF_BROWSER: "", CHROME_PATH: other }, other],
  ["then the search path", { PATH: `/nowhere:${join(folder, "bin")}`, HOME: home }, onPath],
  ["of several downloads the newest by number", { PATH: "", HOME: home }, newer],
])("%s", (_, env, expected) => {
  // `freebsd` has no places of its own, so that what this machine has installed does not count.
  expect(findBrowser(env, "freebsd")).toEqual({
    path: expected,
    problem: undefined,
    isExplicit: expected === own || expected === other,
  })
  expect(old).not.toBe(expected)
})

test("a place that cannot be looked at is passed over", () => {
  const barred = join(folder, "barred")
  mkdirSync(barred)
  // A link to itself: looking at it is refused to everybody, as a folder without rights is to a normal user.
  symlinkSync(join(barred, "google-chrome"), join(barred, "google-chrome"))
  expect(findBrowser({ PATH: `${barred}:${join(folder, "bin")}`, HOME: home }, "freebsd").path).toBe(onPath)
})

test("a variable that names no file ends the search, though there are others", () => {
  const { path, problem, isExplicit } = findBrowser({ KITLEAF_BROWSER: "/nowhere/x", CHROME_PATH: other }, "linux")
  expect([path, isExplicit]).toEqual([undefined, true])
  expect(problem).toBe(
    "KITLEAF_BROWSER names /nowhere/x, and there is no such file. Correct it, or unset it to search for a browser.",
  )
})

test.each([
  ["linux", "apt-get install chromium-headless-shell"],
  ["darwin", "/Applications"],
  ["win32", "Edge"],
  ["freebsd", "npx @puppeteer/browsers install chrome-headless-shell@stable"],
])("on %s without a browser, one command is advised", (platform, words) => {
  const { problem } = findBrowser({ PATH: "", HOME: folder }, platform)
  // Where this machine has a browser of Debian, Linux has an answer.
  if (platform === "linux" && problem === undefined) return
  expect(problem).toContain(words)
})
