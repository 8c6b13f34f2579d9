/** The browser that prints PDF files: looked for as the program does; on Debian as root it can be installed. */
import { spawnSync } from "node:child_process"
import { existsSync } from "node:fs"
import { join } from "node:path"
import { pathToFileURL } from "node:url"
import { isCompiled } from "./compile.mjs"
import { root } from "./places.mjs"

const debianPackage = "chromium-headless-shell"

/** True when the program would find a browser, also when it cannot be asked yet and Debian's is there. */
export async function browserInstalled() {
  const search = await findLikeTheProgram()
  return search === undefined ? existsSync(`/usr/lib/chromium/${debianPackage}`) : search.path !== undefined
}

/** What the installation takes, in words. */
export const whatBrowserTakes = () =>
  canInstall()
    ? `install ${debianPackage} with apt-get (96 MB to download, 306 MB on disk), if no browser is found`
    : "look for a browser to print PDF files with"

/** Installs Debian's browser where that can be done; says what to do everywhere else. */
export async function installBrowser(say) {
  const named = await findLikeTheProgram()
  // Who names a browser wants that one and no other.
  if (named?.isExplicit) throw new Error(named.problem)
  if (canInstall()) {
    aptGet(["update"])
    aptGet(["install", "-y", "--no-install-recommends", debianPackage])
  }
  const search = await findLikeTheProgram()
  if (search?.path !== undefined) return
  say(search?.problem ?? "No browser was found.")
  say("Kitleaf goes on without: HTML documents are built, PDF files are not.")
}

const canInstall = () => process.platform === "linux" && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")

function aptGet(words) {
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" }
  spawnSync("apt-get", ["-qq", "-o", "Dpkg::Use-Pty=0", ...words], { stdio: ["ignore", 2, 2], env })
}

/** The compiled finder of the program itself; undefined as long as that is not there or older than the sources. */
async function findLikeTheProgram() {
  if (!isCompiled()) return undefined
  const finder = join(root, ".build", "print", "find-browser.js")
  const { findBrowser } = await import(pathToFileURL(finder).href)
  return findBrowser(process.env)
}
