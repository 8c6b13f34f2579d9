import { spawn } from "node:child_process"
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs"
import { tmpdir } from "node:os"
import { basename, join } from "node:path"
import { createCanvas } from "@napi-rs/canvas"
import jsqr from "jsqr"
import { afterAll, beforeAll, expect, test } from "vitest"
import { findPackageFolder } from "../../src/build/assets.ts"
import { hashBytes } from "../../src/build/content.ts"
import { findKitFolders } from "../../src/build/read-kit.ts"
import type { VariantReport } from "../../src/build/variant-files.ts"
import { mainFile, type Run, requireCompiled, runKitleaf } from "../cli/run-kitleaf.ts"
import { renderByPdfJs } from "../look/pdf-pages.ts"
import { type PdfFacts, readPdf } from "../print/read-pdf.ts"

const guides = join(findPackageFolder(), "guides")
const scratch = mkdtempSync(join(tmpdir(), "kitleaf-demo-"))
const out = join(scratch, "out")
let run: Run

beforeAll(async () => {
  requireCompiled()
  run = await runKitleaf(["build", guides, "--out", out], scratch, { TZ: "UTC", LANG: "C.UTF-8" })
})

afterAll(() => rmSync(scratch, { recursive: true, force: true }))

/** Folders of all variants of all kits that were built, as `kit/variant`. */
function listVariants(): readonly string[] {
  return findKitFolders(guides)
    .map((folder) => basename(folder))
    .flatMap((kit) =>
      readdirSync(join(out, kit), { withFileTypes: true })
        .filter((entry) => entry.isDirectory())
        .map(({ name }) => `${kit}/${name}`),
    )
}

/** Every file below a folder with the hash of its bytes. */
function hashFolder(folder: string): Readonly<Record<string, string>> {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8", withFileTypes: true })
  return Object.fromEntries(
    files
      .filter((entry) => entry.isFile())
      .map(({ parentPath, name }) => join(parentPath, name))
      .sort()
      .map((path) => [path.slice(folder.length + 1), hashBytes(readFileSync(path))]),
  )
}

const readReport = (variant: string): VariantReport =>
  JSON.parse(readFileSync(join(out, variant, "report.json"), "utf8")) as VariantReport

const pdfs = new Map<string, Promise<PdfFacts>>()

/** Reads a PDF once for all tests. */
function readPdfOf(variant: string, name: string): Promise<PdfFacts> {
  const path = join(out, variant, name)
  const pdf = pdfs.get(path) ?? readPdf(readFileSync(path))
  pdfs.set(path, pdf)
  return pdf
}

test("every variant of every kit is built, with all its documents and no error", () => {
  expect(run.code, run.stdout + run.stderr).toBe(0)
  expect(run.stdout).toContain(`Open ${out}/index.html`)
  expect(listVariants().length).toBeGreaterThanOrEqual(3)
  for (const variant of listVariants()) {
    const files = readdirSync(join(out, variant)).sort()
    expect([variant, files]).toEqual([
      variant,
      ["card.pdf", "drawings", "guide.a4.pdf", "guide.html", "guide.letter.pdf", "report.html", "report.json"],
    ])
    expect(readdirSync(join(out, variant, "drawings")).length).toBeGreaterThan(2)
    expect(run.stdout).toMatch(new RegExp(`^ {2}${basename(variant)} +built`, "m"))
  }
})

test("the report names every document with the hash of its bytes, and every file it was made from", () => {
  for (const variant of listVariants()) {
    const report = readReport(variant)
    const { "report.json": _, ...documents } = hashFolder(join(out, variant))
    expect(Object.fromEntries(report.documents.map(({ path, sha256 }) => [path, sha256]))).toEqual(documents)
    const folder = join(guides, report.kit)
    expect(Object.keys(report.inputs)).toContain("kit.yaml")
    for (const [path, hash] of Object.entries(report.inputs)) {
      expect([path, hash]).toEqual([path, hashBytes(readFileSync(join(folder, path)))])
    }
    expect(report.browser).toMatch(/\d+\.\d+/)
    expect(Object.keys(report.things).some((key) => key.startsWith("part:"))).toBe(true)
  }
})

test("another folder, time zone, language and clock give the same bytes, also after a build that was killed halfway", async () => {
  const elsewhere = join(scratch, "an other place")
  // The first kit stands for all; `npm run test:all` builds each of them twice.
  const folders = findKitFolders(guides).slice(0, process.env.KITLEAF_ALL === "1" ? undefined : 1)
  for (const folder of folders) cpSync(folder, join(elsewhere, "kits", basename(folder)), { recursive: true })
  // A clock that is 400 days ahead, for everything in the process.
  const ahead =
    "const D=Date,s=400*864e5;globalThis.Date=class extends D{constructor(...a){a.length?super(...a):super(D.now()+s)}static now(){return D.now()+s}}"
  const env = {
    TZ: "Asia/Kathmandu",
    LANG: "tr_TR.UTF-8",
    LC_ALL: "tr_TR.UTF-8",
    NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(ahead)}`,
  }
  const words = ["build", "kits", "--out", "documents"]
  await killHalfway(words, elsewhere)
  const second = await runKitleaf(words, elsewhere, env)
  expect(second.code, second.stderr).toBe(0)
  const [told, open] = [second.stdout.replace(/Open .*\n$/, ""), `Open ${out}/index.html\n`]
  if (folders.length === findKitFolders(guides).length) {
    expect(told + open).toBe(run.stdout)
    expect(hashFolder(join(elsewhere, "documents"))).toEqual(hashFolder(out))
  }
  expect(told).not.toBe("")
  expect(run.stdout).toContain(told)
  for (const kit of folders.map((folder) => basename(folder))) {
    const hashes = hashFolder(join(elsewhere, "documents", kit))
    expect(Object.keys(hashes)).toContain(`${readdirSync(join(out, kit))[0]}/guide.a4.pdf`)
    expect(hashes).toEqual(hashFolder(join(out, kit)))
  }
})

/** Kills a build once its first page is printed. */
async function killHalfway(words: readonly string[], cwd: string): Promise<void> {
  const child = spawn(process.execPath, [mainFile, ...words], { cwd, stdio: ["ignore", "ignore", "pipe"] })
  child.stderr.on("data", (bytes: Buffer) => {
    if (String(bytes).includes(": printed")) child.kill("SIGKILL")
  })
  expect(await new Promise((resolve) => child.on("exit", (_, signal) => resolve(signal)))).toBe("SIGKILL")
}

test("pages are of A4, Letter and A6, tagged, outlined, with our fonts alone", async () => {
  const papers = { "guide.a4.pdf": [210, 297], "guide.letter.pdf": [215.9, 279.4], "card.pdf": [105, 148] }
  for (const variant of listVariants()) {
    for (const [name, [widthMm = 0, heightMm = 0]] of Object.entries(papers)) {
      const pdf = await readPdfOf(variant, name)
      for (const page of pdf.pages) {
        expect(Math.abs(page.widthMm - widthMm)).toBeLessThan(0.3)
        expect(Math.abs(page.heightMm - heightMm)).toBeLessThan(0.3)
      }
      expect([name, pdf.isTagged, pdf.language]).toEqual([name, true, "en"])
      expect(pdf.fonts.length).toBeGreaterThan(0)
      for (const { name: font, isEmbedded } of pdf.fonts)
        expect([font, isEmbedded]).toEqual([expect.stringMatching(/^NotoSans/), true])
      if (name !== "card.pdf") expect(pdf.outline.length).toBeGreaterThan(5)
      else expect(pdf.pages).toHaveLength(2)
    }
  }
})

test("every page says kit, variant, revision and its number", async () => {
  for (const variant of listVariants()) {
    const { index, revision } = readReport(variant)
    for (const name of ["guide.a4.pdf", "guide.letter.pdf", "card.pdf"]) {
      const { pages } = await readPdfOf(variant, name)
      for (const [number, { text }] of pages.entries()) {
        for (const words of [
          index.kitTitle,
          index.variantTitle,
          revision.id,
          `Page ${number + 1} of ${pages.length}`,
        ]) {
          const isThere = wordsOf(text).includes(wordsOf(words))
          expect([variant, name, number, isThere ? words : text]).toEqual([variant, name, number, words])
        }
      }
    }
  }
})

/** Words of a text in order, free of how lines were broken. */
const wordsOf = (text: string): string => text.replace(/[\s\u00ad\u00a0]+/g, "")

test("every sentence of the guide on the screen stands in the guides on paper", async () => {
  for (const variant of listVariants()) {
    const html = readFileSync(join(out, variant, "guide.html"), "utf8")
    const sentences = listTexts(html)
    expect(sentences.length).toBeGreaterThan(50)
    for (const name of ["guide.a4.pdf", "guide.letter.pdf"]) {
      const paper = wordsOf((await readPdfOf(variant, name)).text)
      expect([variant, name, sentences.filter((text) => !paper.includes(wordsOf(text)))]).toEqual([variant, name, []])
    }
  }
})

/** The texts between tags of the body, entities read, drawings left out. */
function listTexts(html: string): readonly string[] {
  const body = html
    .slice(html.indexOf("<body"))
    .replace(/<(svg|style|script)[\s>].*?<\/\1>/gs, "")
    // A link for those who read with the keyboard has no use on paper.
    .replace(/<a class="skip".*?<\/a>/, "")
  const entities: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', nbsp: "\u00a0" }
  const readEntity = (_: string, name: string): string =>
    name.startsWith("#x")
      ? String.fromCodePoint(Number.parseInt(name.slice(2), 16))
      : name.startsWith("#")
        ? String.fromCodePoint(Number(name.slice(1)))
        : (entities[name] ?? `&${name};`)
  return body
    .split(/<[^>]*>/)
    .map((text) => text.replace(/&(#?\w+);/g, readEntity).trim())
    .filter((text) => text !== "")
}

test("no document of a variant names another variant of the kit", async () => {
  for (const variant of listVariants()) {
    const own = readReport(variant).index.variantTitle
    const others = listVariants()
      .filter((other) => other !== variant && other.split("/")[0] === variant.split("/")[0])
      .map((other) => readReport(other).index.variantTitle)
      .filter((title) => !own.includes(title))
    expect(others.length).toBeGreaterThan(0)
    const texts = [
      readFileSync(join(out, variant, "guide.html"), "utf8"),
      (await readPdfOf(variant, "guide.a4.pdf")).text,
      (await readPdfOf(variant, "card.pdf")).text,
    ]
    expect(others.filter((title) => texts.some((text) => text.includes(title)))).toEqual([])
  }
})

test("the code on the card leads to the guide of this revision", async () => {
  for (const variant of listVariants()) {
    const [front] = await renderByPdfJs(readFileSync(join(out, variant, "card.pdf")), 200)
    if (front === undefined) throw new Error("the card has no page")
    const canvas = createCanvas(front.width, front.height)
    const context = canvas.getContext("2d")
    context.drawImage(front, 0, 0)
    const { data, width, height } = context.getImageData(0, 0, front.width, front.height)
    const { revision } = readReport(variant)
    expect(jsqr.default(new Uint8ClampedArray(data), width, height)?.data).toBe(revision.guide)
  }
})
