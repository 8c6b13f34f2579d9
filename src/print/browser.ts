/** Starting the browser and readying its pages: shut off from network, files, scripts and the user's own settings. */
import { mkdirSync, readdirSync, rmSync } from "node:fs"
import { join } from "node:path"
import type { Browser, Page } from "puppeteer"

/** The one address a page may load; what stands there is the document itself. Reserved by RFC 2606, never looked up. */
export const documentUrl = "https://document.invalid/"

/** Fonts, pictures and styles come inside the document; everything else stays out. */
const contentPolicy =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'"

/** Oldest browser with page margin boxes (`@top-left` and the like). From memory: Chromium 131. */
const oldestVersion = 131

const launchArguments = [
  "--disable-gpu",
  "--disable-extensions",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--no-first-run",
  "--no-default-browser-check",
  "--no-pings",
  "--font-render-hinting=none",
  // Second locks behind the content policy: no name resolves, and what needs none meets a closed door.
  "--host-resolver-rules=MAP * ~NOTFOUND",
  "--proxy-server=127.0.0.1:9",
  "--proxy-bypass-list=<-loopback>",
]

/**
 * Starts the browser with a profile of its own below `runFolder`. Talks to it by pipe: no port is opened, and the
 * browser ends with this process, however that ends. Throws a sentence when the browser is too old or does not start.
 */
export async function startBrowser(browserPath: string, runFolder: string, timeoutMs: number): Promise<Browser> {
  const { launch } = await import("puppeteer")
  const profile = makeProfile(runFolder)
  const isRoot = process.getuid?.() === 0
  const browser = await launch({
    executablePath: browserPath,
    headless: "shell",
    pipe: true,
    userDataDir: profile,
    // Chromium as root refuses to start inside its sandbox; everybody else keeps the sandbox.
    args: [...launchArguments, ...(isRoot ? ["--no-sandbox"] : [])],
    // Language, time zone and fonts of the user stay out, so that they cannot change the pages.
    env: { PATH: process.env.PATH, TZ: "UTC", LANG: "C.UTF-8", HOME: profile },
    handleSIGINT: false,
    handleSIGTERM: false,
    handleSIGHUP: false,
    timeout: timeoutMs,
    protocolTimeout: timeoutMs,
  })
  const version = await browser.version()
  const major = Number(/\/(\d+)\./.exec(version)?.[1] ?? 0)
  if (major >= oldestVersion) return browser
  await browser.close()
  throw new Error(`${browserPath} is ${version}; printing needs Chromium ${oldestVersion} or newer`)
}

/** Readies a page that shows what `readHtml` gives at `documentUrl`, and nothing else from anywhere. */
export async function openPage(browser: Browser, readHtml: () => string): Promise<Page> {
  const page = await browser.newPage()
  await page.setJavaScriptEnabled(false)
  await page.setOfflineMode(true)
  await page.emulateMediaType("print")
  await page.setRequestInterception(true)
  page.on("request", (request) => {
    const isDocument = request.url() === documentUrl && request.frame() === page.mainFrame()
    const answer = isDocument
      ? request.respond({
          status: 200,
          contentType: "text/html; charset=utf-8",
          headers: { "Content-Security-Policy": contentPolicy },
          body: readHtml(),
        })
      : request.url().startsWith("data:")
        ? request.continue()
        : request.abort()
    // A request of a page that has just gone needs no answer.
    answer.catch(() => undefined)
  })
  return page
}

/** Profiles of processes that are gone are left over from a killed run: removed before a new one is made. */
function makeProfile(runFolder: string): string {
  mkdirSync(runFolder, { recursive: true })
  for (const name of readdirSync(runFolder)) {
    const owner = /^profile-(\d+)-\d+$/.exec(name)?.[1]
    if (owner !== undefined && !isRunning(Number(owner))) {
      rmSync(join(runFolder, name), { recursive: true, force: true, maxRetries: 3 })
    }
  }
  for (let number = 1; ; number += 1) {
    const profile = join(runFolder, `profile-${process.pid}-${number}`)
    if (mkdirSync(profile, { recursive: true }) !== undefined) return profile
  }
}

function isRunning(processId: number): boolean {
  try {
    process.kill(processId, 0)
    return true
  } catch (fault) {
    return fault instanceof Error && "code" in fault && fault.code === "EPERM"
  }
}
