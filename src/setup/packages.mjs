/** The npm packages: installed again whenever the lock file or Node's version changed. */
import { spawnSync } from "node:child_process"
import { writeFileSync } from "node:fs"
import { join } from "node:path"
import { hashFiles, isStamped, root } from "./places.mjs"

const stamp = join("node_modules", ".kitleaf-stamp")
const stampNow = () => hashFiles(["package-lock.json"])

/** True when `node_modules` was installed from this very lock file by this version of Node. */
export const arePackagesInstalled = () => isStamped(stamp, stampNow())

/** What the installation takes, in words. */
export const whatPackagesTake = () =>
  "install npm packages of package-lock.json into node_modules/ (about 360 MB on disk)"

/** Runs `npm ci`. No package's own scripts are run: none is needed, and some would download a browser. */
export function installPackages() {
  const npm = process.env.npm_execpath
  const options = ["ci", "--ignore-scripts", "--include=dev", "--no-audit", "--no-fund", "--loglevel=error"]
  // Run by npm, its own script is at hand: this way round there is no npm.cmd to be found on Windows.
  const [command, first] = npm?.endsWith("js") ? [process.execPath, [npm]] : ["npm", []]
  const env = { ...process.env, PUPPETEER_SKIP_DOWNLOAD: "1" }
  const run = spawnSync(command, [...first, ...options], { cwd: root, stdio: ["ignore", 2, 2], env })
  if (run.error !== undefined) throw new Error(`npm could not be started (${run.error.message})`)
  if (run.status !== 0) throw new Error("npm could not install the packages; its own words stand above")
  writeFileSync(join(root, stamp), stampNow())
}
