/**
 * `npm run look`: every page and drawing of the documents in `out/` as PNG contact sheets in `out/look/`, and the HTML
 * as a phone and a desktop show it. Name a folder after `--` to look at another one than `out`.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import { basename, join, relative } from "node:path"
import { loadImage } from "@napi-rs/canvas"
import { Resvg } from "@resvg/resvg-js"
import { launch } from "puppeteer"
import { findBrowser } from "../../src/print/index.ts"
import { makeContactSheet, type Named } from "./contact-sheet.ts"
import { renderPdf } from "./pdf-pages.ts"

const out = process.argv[2] ?? "out"
const target = join(out, "look")
const screens = { phone: 390, desktop: 1200 }
const longestScreen = 6000

/** Cards are small: they get more dots. */
const dpiOf = (path: string): number => (basename(path) === "card.pdf" ? 150 : 75)

if (!existsSync(out)) {
  console.error(`There is no folder ${out}; build a kit first.`)
  process.exit(1)
}
rmSync(target, { recursive: true, force: true })
mkdirSync(target, { recursive: true })
const files = readdirSync(out, { recursive: true, encoding: "utf8" })
  .filter((file) => !file.startsWith(".") && !file.startsWith("look"))
  .sort()
const write = (name: string, png: Uint8Array): void => {
  const path = join(target, `${name.replaceAll("/", "--")}.png`)
  writeFileSync(path, png)
  console.log(relative(".", path))
}
for (const file of files.filter((one) => one.endsWith(".pdf"))) {
  const pages = await renderPdf(join(out, file), dpiOf(file))
  const named = pages.map((image, index) => ({ name: `${file} page ${index + 1}`, image }))
  for (let first = 0; first < named.length; first += 6) {
    write(`${file}-${first / 6 + 1}`, makeContactSheet(named.slice(first, first + 6), 3))
  }
}
for (const folder of new Set(files.filter((one) => one.endsWith(".svg")).map((one) => join(one, "..")))) {
  const pictures: Named[] = []
  for (const file of files.filter((one) => one.endsWith(".svg") && join(one, "..") === folder)) {
    const svg = readFileSync(join(out, file), "utf8")
    const png = new Resvg(svg, { fitTo: { mode: "zoom", value: 1.2 }, background: "#ffffff" }).render().asPng()
    pictures.push({ name: basename(file), image: await loadImage(png) })
  }
  write(folder, makeContactSheet(pictures, 3))
}
await shootScreens(files.filter((one) => one.endsWith(".html")))

/** Screens are shown by the browser that prints. */
async function shootScreens(pages: readonly string[]): Promise<void> {
  const { path, problem } = findBrowser(process.env)
  if (path === undefined) return console.log(problem)
  const args = process.getuid?.() === 0 ? ["--no-sandbox"] : []
  const browser = await launch({ executablePath: path, headless: "shell", pipe: true, args })
  const page = await browser.newPage()
  for (const file of pages) {
    for (const [name, width] of Object.entries(screens)) {
      await page.setViewport({ width, height: 900 })
      await page.setContent(readFileSync(join(out, file), "utf8"))
      const { scrollWidth, scrollHeight } = await page.evaluate(() => ({
        scrollWidth: document.documentElement.scrollWidth,
        scrollHeight: document.documentElement.scrollHeight,
      }))
      if (scrollWidth > width) console.log(`${file} is ${scrollWidth} px wide on a screen of ${width} px`)
      const height = Math.min(scrollHeight, longestScreen)
      write(`${file}-${name}`, await page.screenshot({ clip: { x: 0, y: 0, width, height } }))
    }
  }
  await browser.close()
}
