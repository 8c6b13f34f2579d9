import { execFileSync } from "node:child_process"
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import { createServer } from "node:http"
import type { AddressInfo } from "node:net"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { pathToFileURL } from "node:url"
import { afterAll, beforeAll, expect, test } from "vitest"
import { findBrowser, openPrinter } from "../../src/print/index.ts"
import { readPageSizes } from "../../src/print/page-boxes.ts"
import { setDates } from "../../src/print/passes/dates.ts"
import type { Printer, PrintJob } from "../../src/print/types.ts"
import { readPdf } from "./read-pdf.ts"

const runFolder = mkdtempSync(join(tmpdir(), "kitleaf-print-"))
const browserPath = findBrowser(process.env).path ?? ""
let printer: Printer

beforeAll(async () => {
  printer = await openPrinter({ browserPath, runFolder })
})

afterAll(async () => {
  await printer.close()
  rmSync(runFolder, { recursive: true, force: true })
})

/** A page of A4 with the given body; `head` adds to its style. */
function makeJob(body: string, style = "@page{size:210mm 297mm;margin:10mm}", head = ""): PrintJob {
  const html = `<!doctype html><html lang="en"><head><title>Title</title><style>${style}</style>${head}</head><body>${body}</body></html>`
  return { html, name: "test.pdf", widthMm: 210, heightMm: 297, date: "2026-03-02" }
}

/** Kills the browser that runs with this profile; its first process, which the others follow. */
function killOwnerOf(profile: string): void {
  const owners = readdirSync("/proc").filter((name) => {
    if (!/^\d+$/.test(name)) return false
    const commandLine = readFileSync(`/proc/${name}/cmdline`, { encoding: "utf8", flag: "r" })
    return commandLine.includes(`--user-data-dir=${profile}`) && !commandLine.includes("--type=")
  })
  expect(owners).toHaveLength(1)
  process.kill(Number(owners[0]), "SIGKILL")
}

test("equal pages give equal bytes, alone, beside others and from another browser", async () => {
  // Headings of tables get names that the browser counts up from one document to the next.
  const table = "<table><tr><th scope=col>a</th><th scope=col>b</th></tr><tr><td>1</td><td>2</td></tr></table>"
  const job = makeJob(`<h1>Equal</h1><p>text</p>${table}`)
  const other = makeJob("<h1>Other</h1>".repeat(30))
  const alone = await printer.print(job)
  const [, beside, again] = await Promise.all([printer.print(other), printer.print(job), printer.print(job)])
  const second = await openPrinter({ browserPath, runFolder })
  const elsewhere = await second.print(job)
  await second.close()
  for (const pdf of [beside, again, elsewhere]) expect(Buffer.from(pdf ?? []).equals(Buffer.from(alone))).toBe(true)
})

test("the dates of the file are the job's", async () => {
  const { info } = await readPdf(await printer.print(makeJob("<p>x</p>")))
  expect([info.CreationDate, info.ModDate]).toEqual(["D:20260302000000+00'00'", "D:20260302000000+00'00'"])
})

test("a file without both dates is not passed on", () => {
  expect(() => setDates(Buffer.from("%PDF-1.4 /CreationDate (D:20260101000000+00'00')"), "2026-03-02")).toThrow(
    "1 date fields",
  )
})

test("headings become an outline, the file is tagged and says its language and title", async () => {
  const pdf = await readPdf(
    await printer.print(
      makeJob(
        '<h1>One</h1><p>a</p><h2>Two</h2><img alt="A tube" src="data:image/svg+xml,%3Csvg xmlns=%22http://www.w3.org/2000/svg%22 width=%229%22 height=%229%22%3E%3Cpath d=%22M0 0h9%22 stroke=%22red%22/%3E%3C/svg%3E">',
      ),
    ),
  )
  expect(pdf.outline).toEqual(["One", "Two"])
  expect(pdf.isTagged).toBe(true)
  expect(pdf.language).toBe("en")
  expect(pdf.info.Title).toBe("Title")
  expect(pdf.alternatives).toEqual(["A tube"])
})

test.each([
  [210, 297, "210mm 297mm"],
  [215.9, 279.4, "215.9mm 279.4mm"],
  [105, 148, "105mm 148mm"],
])("a page of %d x %d mm comes out so", async (widthMm, heightMm, size) => {
  const pdf = await printer.print({ ...makeJob("<p>x</p>", `@page{size:${size};margin:6mm}`), widthMm, heightMm })
  const [page] = (await readPdf(pdf)).pages
  // Chromium rounds pages; 0.3 mm is what the printer itself lets pass.
  expect(Math.abs((page?.widthMm ?? 0) - widthMm)).toBeLessThan(0.3)
  expect(Math.abs((page?.heightMm ?? 0) - heightMm)).toBeLessThan(0.3)
  expect(readPageSizes(pdf)).toHaveLength(1)
})

test("a page of another size than the job's is told instead of passed on", async () => {
  const job = { ...makeJob("<p>x</p>", "@page{size:A5}"), widthMm: 105, heightMm: 148, name: "card.pdf" }
  await expect(printer.print(job)).rejects.toThrow(
    "page 1 of card.pdf is 148.2 x 209.9 mm, it should be 105.0 x 148.0 mm",
  )
})

test("nothing on a page reaches the network, a file or a script", async () => {
  const asked: string[] = []
  const server = createServer((request, response) => {
    asked.push(request.url ?? "")
    response.end("x")
  })
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve))
  // The server listens on a port, so its address is an object.
  const host = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
  const secret = join(runFolder, "secret.svg")
  const marked = '<svg xmlns="http://www.w3.org/2000/svg" width="90" height="20"><text y="15">SECRET</text></svg>'
  writeFileSync(secret, marked)
  const file = pathToFileURL(secret).href
  const styles = `@import url(${host}/import.css);@font-face{font-family:f;src:url(${host}/font)}p{font-family:f;background:url(${host}/back)}`
  const head = `<link rel=stylesheet href="${host}/link.css"><link rel=prefetch href="${host}/prefetch"><link rel=preconnect href="${host}"><link rel=dns-prefetch href="${host}"><base href="${host}/base/">`
  const body = [
    "<p id=t>before</p>",
    `<img src="${host}/img"><img srcset="${host}/set 2x"><picture><source srcset="${host}/source"><img src="relative"></picture>`,
    `<iframe src="${host}/frame"></iframe><iframe srcdoc="<img src='${host}/inner'>"></iframe><object data="${host}/object"></object><embed src="${host}/embed">`,
    `<svg><image href="${host}/svg-image" width=9 height=9 /><use href="${host}/use#a"/><foreignObject><iframe xmlns="http://www.w3.org/1999/xhtml" src="${host}/foreign"></iframe></foreignObject></svg>`,
    `<video src="${host}/video" poster="${host}/poster" autoplay></video><audio src="${host}/audio" autoplay></audio>`,
    `<script src="${host}/script.js"></script><script>document.getElementById("t").textContent="SCRIPTED";fetch("${host}/fetch");new WebSocket("${host.replace("http", "ws")}/socket");navigator.sendBeacon("${host}/beacon")</script>`,
    `<img src=x onerror="document.getElementById('t').textContent='SCRIPTED'"><form action="${host}/form"><input autofocus></form>`,
    `<img src="${file}"><iframe src="${file}"></iframe><object data="${file}"></object><img src="file:///etc/hostname">`,
  ].join("")
  const pdf = await readPdf(await printer.print(makeJob(body, styles, head)))
  // A page that sends itself elsewhere may be refused; what matters is that nothing is asked for.
  const restless = makeJob("<p>x</p>", "", `<meta http-equiv=refresh content="0;url=${host}/refresh">`)
  await printer.print(restless).catch(() => undefined)
  const control = await fetch(`${host}/control`)
  await control.text()
  server.close()
  // The control shows that a request would have been seen.
  expect(asked).toEqual(["/control"])
  expect(pdf.text).toContain("before")
  expect(pdf.text).not.toMatch(/SECRET|SCRIPTED/)
})

test.runIf(process.platform === "linux")(
  "a browser that is killed is started again, and the job is printed",
  async () => {
    const own = mkdtempSync(join(runFolder, "own-"))
    const second = await openPrinter({ browserPath, runFolder: own })
    const first = await second.print(makeJob("<p>one</p>"))
    const [profile = ""] = readdirSync(own)
    killOwnerOf(join(own, profile))
    const after = await second.print(makeJob("<p>one</p>"))
    await second.close()
    expect(Buffer.from(after).equals(Buffer.from(first))).toBe(true)
    expect(readdirSync(own)).toEqual([])
  },
)

test("many jobs at once are all printed, each its own", async () => {
  const numbers = Array.from({ length: 9 }, (_, index) => index)
  const pdfs = await Promise.all(numbers.map((number) => printer.print(makeJob(`<p>number ${number}</p>`))))
  const texts = await Promise.all(pdfs.map(async (pdf) => (await readPdf(pdf)).text.trim()))
  expect(texts).toEqual(numbers.map((number) => `number ${number}`))
})

test("a page without end is given up after its time, and the next job is printed", async () => {
  const second = await openPrinter({ browserPath, runFolder, timeoutMs: 3000, pageCount: 1 })
  const endless = makeJob(`<div style="height:${9e6}mm">x</div>`.repeat(50))
  await expect(second.print(endless)).rejects.toThrow("test.pdf could not be printed")
  const { text } = await readPdf(await second.print(makeJob("<p>next</p>")))
  await second.close()
  expect(text).toContain("next")
})

test("a browser that does not start is told at once", async () => {
  const fake = join(runFolder, "fake-browser")
  writeFileSync(fake, "#!/bin/sh\nexit 1\n", { mode: 0o755 })
  await expect(openPrinter({ browserPath: fake, runFolder })).rejects.toThrow()
})

test("profiles of killed runs are swept, those of living ones stay", async () => {
  const own = mkdtempSync(join(runFolder, "sweep-"))
  const gone = execFileSync(process.execPath, ["-p", "process.pid"], { encoding: "utf8" }).trim()
  mkdirSync(join(own, `profile-${gone}-1`))
  mkdirSync(join(own, `profile-${process.ppid}-1`))
  const second = await openPrinter({ browserPath, runFolder: own })
  expect(existsSync(join(own, `profile-${gone}-1`))).toBe(false)
  expect(existsSync(join(own, `profile-${process.ppid}-1`))).toBe(true)
  await second.close()
})

test("the language and time zone of the user change nothing", async () => {
  const job = makeJob("<p>1/2 a</p><input type=date><p lang=de>ü</p>")
  const here = await printer.print(job)
  const before = { TZ: process.env.TZ, LANG: process.env.LANG }
  Object.assign(process.env, { TZ: "Pacific/Kiritimati", LANG: "ar_EG.UTF-8" })
  const second = await openPrinter({ browserPath, runFolder })
  const there = await second.print(job)
  await second.close()
  for (const [name, value] of Object.entries(before)) {
    if (value === undefined) delete process.env[name]
    else process.env[name] = value
  }
  expect(Buffer.from(there).equals(Buffer.from(here))).toBe(true)
})
