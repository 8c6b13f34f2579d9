import { mkdtempSync, rmSync } from "node:fs"
import { createServer, type Server } from "node:http"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { afterAll, beforeAll, expect, test } from "vitest"
import { findBrowser, openPrinter } from "../../src/print/index.ts"
import type { Printer, PrintJob } from "../../src/print/types.ts"

const a4 = { widthMm: 210, heightMm: 297, date: "2026-03-02" }
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

test("x", async () => {
  const html = `<!doctype html><html lang="en"><head><title>T</title><style>@page{size:210mm 297mm;margin:10mm}</style></head><body><h1>Hallo</h1><p>Text</p></body></html>`
  const pdf = await printer.print({ ...a4, name: "x.pdf", html })
  expect(pdf.length).toBeGreaterThan(1000)
  const two = await printer.print({ ...a4, name: "x.pdf", html })
  expect(Buffer.from(two).equals(Buffer.from(pdf))).toBe(true)
})
