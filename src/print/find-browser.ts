/** Where a browser for PDF files stands on this machine. Looks, never installs, starts nothing. */
import { readdirSync, statSync } from "node:fs"
import { homedir } from "node:os"
import { delimiter, join } from "node:path"

/** Variables that name a browser, first wins; ours first, then those that other programs read too. */
const variables = ["KITLEAF_BROWSER", "PUPPETEER_EXECUTABLE_PATH", "CHROME_PATH"]

/** The binaries themselves: Debian's `/usr/bin` wrappers stay behind as a shell when the browser is ended. */
const debian = ["/usr/lib/chromium/chromium-headless-shell", "/usr/lib/chromium/chromium"]

const namesOnPath = [
  "chrome-headless-shell",
  "google-chrome-stable",
  "google-chrome",
  "chromium",
  "chromium-browser",
  "microsoft-edge",
]

const macApplications = [
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
]

const windowsPrograms = ["Google\\Chrome\\Application\\chrome.exe", "Microsoft\\Edge\\Application\\msedge.exe"]

/** `path` when found; else `problem` says what to do, in sentences. `isExplicit`: a variable names the browser. */
export type BrowserSearch =
  | { readonly path: string; readonly problem: undefined; readonly isExplicit: boolean }
  | { readonly path: undefined; readonly problem: string; readonly isExplicit: boolean }

/**
 * Finds a browser of the Chromium family: a variable of `env`, Debian's binaries, the search path, applications of
 * macOS and Windows, downloads of `npx @puppeteer/browsers`. A variable that names no file ends the search:
 * who sets it wants that browser and no other.
 */
export function findBrowser(
  env: Readonly<Record<string, string | undefined>>,
  platform: string = process.platform,
): BrowserSearch {
  for (const name of variables) {
    const path = env[name]
    if (path === undefined || path === "") continue
    if (isFile(path)) return { path, problem: undefined, isExplicit: true }
    const problem = `${name} names ${path}, and there is no such file. Correct it, or unset it to search for a browser.`
    return { path: undefined, problem, isExplicit: true }
  }
  const path = listCandidates(env, platform).find(isFile)
  if (path !== undefined) return { path, problem: undefined, isExplicit: false }
  return { path: undefined, problem: adviseInstallation(platform), isExplicit: false }
}

function listCandidates(env: Readonly<Record<string, string | undefined>>, platform: string): readonly string[] {
  const onPath = (env.PATH ?? "")
    .split(delimiter)
    .filter((folder) => folder !== "")
    .flatMap((folder) => namesOnPath.map((name) => join(folder, platform === "win32" ? `${name}.exe` : name)))
  const programs = ["PROGRAMFILES", "PROGRAMFILES(X86)", "LOCALAPPDATA"].flatMap((name) =>
    env[name] === undefined ? [] : windowsPrograms.map((path) => join(env[name] ?? "", path)),
  )
  return [
    ...(platform === "linux" ? debian : []),
    ...onPath,
    ...(platform === "darwin" ? macApplications : []),
    ...(platform === "win32" ? programs : []),
    ...listDownloads(env.PUPPETEER_CACHE_DIR ?? join(env.HOME ?? homedir(), ".cache", "puppeteer")),
  ]
}

/** `<cache>/chrome-headless-shell/<platform>-<version>/chrome-headless-shell-<platform>/chrome-headless-shell`, newest first. */
function listDownloads(cache: string): readonly string[] {
  const kinds = ["chrome-headless-shell", "chrome"]
  return kinds.flatMap((kind) =>
    listFolder(join(cache, kind)).flatMap((build) =>
      listFolder(join(cache, kind, build)).flatMap((inner) =>
        [kind, `${kind}.exe`].map((file) => join(cache, kind, build, inner, file)),
      ),
    ),
  )
}

function listFolder(folder: string): readonly string[] {
  const byNumber = new Intl.Collator("en", { numeric: true })
  return (tryOrSkip(() => readdirSync(folder)) ?? []).sort((one, other) => byNumber.compare(other, one))
}

function isFile(path: string): boolean {
  return tryOrSkip(() => statSync(path).isFile()) ?? false
}

/** A folder that is not there, or of another user, holds no browser for this one. */
function tryOrSkip<T>(look: () => T): T | undefined {
  try {
    return look()
  } catch {
    return undefined
  }
}

/** One command per system. */
function adviseInstallation(platform: string): string {
  const own = "npx @puppeteer/browsers install chrome-headless-shell@stable --path ~/.cache/puppeteer"
  const perSystem: Readonly<Record<string, string>> = {
    linux: `On Debian or Ubuntu: sudo apt-get install chromium-headless-shell (or chromium). Elsewhere: ${own}`,
    darwin: `Install Chrome or Chromium under /Applications, or run: ${own}`,
    win32: `Install Chrome, or use the Edge that Windows has, or run: ${own}`,
  }
  return `No browser was found to print PDF files with. ${perSystem[platform] ?? `Run: ${own}`}. Or set KITLEAF_BROWSER to the file of a browser that is Chromium 131 or newer.`
}
