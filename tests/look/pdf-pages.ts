/** Pages of a PDF as pictures, by poppler's `pdftoppm` when it is there, else by pdf.js. */
import { spawnSync } from "node:child_process"
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { createCanvas, type Image, loadImage } from "@napi-rs/canvas"
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs"

const pointsPerInch = 72

/** Gives one picture a page, at `dpi` dots per inch. */
export async function renderPdf(path: string, dpi: number): Promise<readonly Image[]> {
  return (await renderByPoppler(path, dpi)) ?? renderByPdfJs(readFileSync(path), dpi)
}

async function renderByPoppler(path: string, dpi: number): Promise<readonly Image[] | undefined> {
  const folder = mkdtempSync(join(tmpdir(), "kitleaf-look-"))
  try {
    const run = spawnSync("pdftoppm", ["-r", String(dpi), "-png", path, join(folder, "page")], { stdio: "ignore" })
    if (run.status !== 0) return undefined
    return await Promise.all(
      readdirSync(folder)
        .sort()
        .map((name) => loadImage(readFileSync(join(folder, name)))),
    )
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** The same by pdf.js, which needs no program beside Node. */
export async function renderByPdfJs(bytes: Uint8Array, dpi: number): Promise<readonly Image[]> {
  const pdf = await getDocument({ data: new Uint8Array(bytes), verbosity: 0, disableFontFace: true }).promise
  const pictures: Image[] = []
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const page = await pdf.getPage(number)
    const viewport = page.getViewport({ scale: dpi / pointsPerInch })
    const canvas = createCanvas(Math.round(viewport.width), Math.round(viewport.height))
    // The canvas has every operation that pdf.js draws with; their types come from the browser's.
    const canvasContext = canvas.getContext("2d") as unknown as CanvasRenderingContext2D
    await page.render({ canvasContext, viewport }).promise
    pictures.push(await loadImage(canvas.toBuffer("image/png")))
  }
  await pdf.destroy()
  return pictures
}
