/** The printer: takes jobs, shares them out to its pages, starts the browser again when it dies. */
import { rmSync } from "node:fs"
import type { Browser, Page } from "puppeteer"
import { documentUrl, openPage, startBrowser } from "./browser.ts"
import { findWrongPage } from "./page-boxes.ts"
import { setDates } from "./passes/dates.ts"
import { renumberStructureIds } from "./passes/structure-ids.ts"
import type { Printer, PrintJob } from "./types.ts"

export type PrinterOptions = {
  /** File of a browser of the Chromium family, as `findBrowser` gives it. */
  readonly browserPath: string
  /** Folder for the browser's profile; swept of what killed runs left. */
  readonly runFolder: string
  /** Jobs printed at the same time. Two pages of one browser are the fastest on two cores (measured). */
  readonly pageCount?: number
  /** Longest time for one step of a job. */
  readonly timeoutMs?: number
}

/** One page and the document it is to show. */
type Desk = { page: Page | undefined; html: string }

/**
 * Starts a browser and gives a printer. A job whose browser or page dies is tried once more; after that, or when a
 * page of the PDF has the wrong size, `print` throws a sentence that names the job.
 */
export async function openPrinter(options: PrinterOptions): Promise<Printer> {
  const { browserPath, runFolder, pageCount = 2, timeoutMs = 30_000 } = options
  let browser = startBrowser(browserPath, runFolder, timeoutMs)
  const version = (await (await browser).version()).replace(/^Headless/, "").replace("/", " ")
  const freeDesks: Desk[] = Array.from({ length: pageCount }, () => ({ page: undefined, html: "" }))
  const waiting: ((desk: Desk) => void)[] = []

  /** Of several jobs that lose the same browser, the first starts the next one. */
  const restart = async (dead: Browser): Promise<void> => {
    if ((await browser) !== dead) return
    browser = startBrowser(browserPath, runFolder, timeoutMs)
    await close(dead)
  }

  const printOnce = async (desk: Desk, job: PrintJob): Promise<Uint8Array> => {
    const current = await browser
    if (!current.connected) await restart(current)
    const used = await browser
    if (desk.page === undefined || desk.page.isClosed() || desk.page.browser() !== used) {
      desk.page = await openPage(used, () => desk.html)
    }
    desk.html = job.html
    return printPage(desk.page, job, timeoutMs)
  }

  const print = async (job: PrintJob): Promise<Uint8Array> => {
    const desk = freeDesks.pop() ?? (await new Promise<Desk>((resolve) => waiting.push(resolve)))
    try {
      const pdf = await printOnce(desk, job).catch(async () => {
        await discardPage(desk)
        return printOnce(desk, job)
      })
      const wrong = findWrongPage(pdf, job)
      if (wrong !== undefined) throw new Error(wrong)
      return setDates(renumberStructureIds(pdf), job.date)
    } catch (fault) {
      await discardPage(desk)
      throw new Error(`${job.name} could not be printed: ${fault instanceof Error ? fault.message : String(fault)}`)
    } finally {
      const next = waiting.shift()
      if (next === undefined) freeDesks.push(desk)
      else next(desk)
    }
  }

  return { browser: version, print, close: async () => close(await browser) }
}

async function printPage(page: Page, job: PrintJob, timeoutMs: number): Promise<Uint8Array> {
  // A page that crashes never answers: without this, the job would wait for its time limit.
  let reportCrash: (fault: Error) => void = () => undefined
  const crash = new Promise<never>((_, reject) => {
    reportCrash = reject
  })
  crash.catch(() => undefined)
  page.on("error", reportCrash)
  try {
    return await Promise.race([crash, loadAndPrint(page, job, timeoutMs)])
  } finally {
    page.off("error", reportCrash)
  }
}

async function loadAndPrint(page: Page, job: PrintJob, timeoutMs: number): Promise<Uint8Array> {
  await page.goto(documentUrl, { waitUntil: "load", timeout: timeoutMs })
  return page.pdf({
    width: `${job.widthMm}mm`,
    height: `${job.heightMm}mm`,
    preferCSSPageSize: true,
    printBackground: true,
    scale: 1,
    tagged: true,
    outline: true,
    timeout: timeoutMs,
  })
}

/** A page that crashed or ran out of time is not used again; closing a dead one may say so, which helps nobody. */
async function discardPage(desk: Desk): Promise<void> {
  const page = desk.page
  desk.page = undefined
  if (page?.browser().connected === true) await page.close().catch(() => undefined)
}

async function close(browser: Browser): Promise<void> {
  const profile = browser
    .process()
    ?.spawnargs.find((word) => word.startsWith("--user-data-dir="))
    ?.slice("--user-data-dir=".length)
  await browser.close().catch(() => undefined)
  if (profile !== undefined) rmSync(profile, { recursive: true, force: true, maxRetries: 3 })
}
