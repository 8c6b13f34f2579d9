/** What a PDF file says, read by pdf.js: for tests that compare paper with what was meant. */
import { getDocument, OPS } from "pdfjs-dist/legacy/build/pdf.mjs"

/** Facts of a PDF. `text` has pages joined by line feeds; `fonts` are names as embedded, without their subset prefix. */
export type PdfFacts = {
  readonly pages: readonly { readonly widthMm: number; readonly heightMm: number; readonly text: string }[]
  readonly text: string
  readonly outline: readonly string[]
  readonly info: Readonly<Record<string, unknown>>
  readonly isTagged: boolean
  readonly language: string | undefined
  /** Text alternatives of the figures, in reading order. */
  readonly alternatives: readonly string[]
  readonly fonts: readonly { readonly name: string; readonly isEmbedded: boolean }[]
}

const pointMm = 25.4 / 72

/** Reads a PDF. */
export async function readPdf(bytes: Uint8Array): Promise<PdfFacts> {
  const pdf = await getDocument({ data: new Uint8Array(bytes), verbosity: 0, fontExtraProperties: true }).promise
  const pages: PdfFacts["pages"][number][] = []
  const alternatives: string[] = []
  const fonts = new Map<string, boolean>()
  for (let number = 1; number <= pdf.numPages; number += 1) {
    const page = await pdf.getPage(number)
    const [left = 0, bottom = 0, right = 0, top = 0] = page.view
    const content = await page.getTextContent()
    const text = content.items.map((item) => ("str" in item ? item.str + (item.hasEOL ? "\n" : "") : "")).join("")
    pages.push({ widthMm: (right - left) * pointMm, heightMm: (top - bottom) * pointMm, text })
    collectAlternatives(await page.getStructTree(), alternatives)
    const operators = await page.getOperatorList()
    for (const [index, operator] of operators.fnArray.entries()) {
      if (operator !== OPS.setFont) continue
      const font = page.commonObjs.get(operators.argsArray[index][0])
      fonts.set(String(font.name).replace(/^[A-Z]{6}\+/, ""), font.missingFile !== true)
    }
  }
  const { info } = await pdf.getMetadata()
  // pdf.js types its information as a bare object; its entries are plain values.
  const entries = info as Readonly<Record<string, unknown>>
  const outline = ((await pdf.getOutline()) ?? []).flatMap(flattenOutline)
  const mark = await pdf.getMarkInfo()
  await pdf.destroy()
  return {
    pages,
    text: pages.map((page) => page.text).join("\n"),
    outline,
    info: entries,
    isTagged: (mark as { Marked?: boolean } | null)?.Marked === true,
    language: typeof entries.Language === "string" ? entries.Language : undefined,
    alternatives,
    fonts: [...fonts].map(([name, isEmbedded]) => ({ name, isEmbedded })),
  }
}

type OutlineNode = { readonly title: string; readonly items: readonly OutlineNode[] }

function flattenOutline({ title, items }: OutlineNode): readonly string[] {
  return [title, ...items.flatMap(flattenOutline)]
}

type Tagged = { readonly alt?: string; readonly children?: readonly unknown[] }

function collectAlternatives(node: unknown, found: string[]): void {
  if (typeof node !== "object" || node === null) return
  // Nodes of the structure tree are plain; a leaf has neither field.
  const { alt, children } = node as Tagged
  if (alt !== undefined) found.push(alt)
  for (const child of children ?? []) collectAlternatives(child, found)
}
